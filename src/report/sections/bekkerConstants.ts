import type { Fit } from "../../core/fit.ts";
import type { Unit } from "../../core/units.ts";
import { bekkerToSi } from "../../models/bekkerUnits.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { roundSignificant } from "../showEstimate.ts";
import { table } from "../table.ts";

/** Units in which publications print the constants: force and length. */
const systems: readonly (readonly [force: Unit, length: Unit])[] = [["N", "m"], ["kN", "m"], ["N", "cm"], ["lbf", "in"]];
/** "if n were so much greater": about what two plates tell n to */
const step = 0.1;

/** k_c and k_φ in the units in which publications print them, and why their numbers must not be compared. */
export function bekkerConstants(fit: Fit): Html {
  const of = (unit: Unit): number => fit.parameters.find(({ estimate }) => estimate.unit === unit)?.estimate.value ?? Number.NaN;
  const n = fit.parameters.find(({ symbol }) => symbol === "n")?.estimate.value ?? Number.NaN;
  if (fit.verdict === "undetermined" || ![n, of("N/m^(n+1)"), of("N/m^(n+2)")].every(Number.isFinite)) return html``;
  const power = (plus: number): string => (n + plus).toFixed(2);
  const rows = systems.map(([force, length]) => {
    const one = bekkerToSi({ exponent: n, cohesive: 1, frictional: 1 }, force, length);
    return { force, length, cohesive: of("N/m^(n+1)") / one.cohesive, frictional: of("N/m^(n+2)") / one.frictional };
  });
  const cell = (value: number, force: Unit, length: Unit, plus: number): Html => html`<span class="num">${roundSignificant(value, 4)}</span> ${force}/${length}<sup>${power(plus)}</sup>`;
  return html`<details class="day"><summary>Units of k<sub>c</sub> and k<sub>φ</sub>, and their trap</summary>
${table(rows, [
    { heading: "Units", show: ({ force, length }) => `${force} and ${length}` },
    { heading: "k_c", align: "right", show: ({ cohesive, force, length }) => cell(cohesive, force, length, 1) },
    { heading: "k_φ", align: "right", show: ({ frictional, force, length }) => cell(frictional, force, length, 2) },
  ])}
<p class="fignote">The length stands to the power n + 1 and n + 2, here ${power(1)} and ${power(2)}: a conversion needs the constants' own n, and a factor that leaves it out is wrong by orders of magnitude. The trap: the numbers change with n even where the soil does not. Written with an n greater by ${step}, the same pressure at 10 mm would have a k<sub>φ</sub> ${(0.01 ** -step).toFixed(2)} times as large. Constants found with different n cannot be compared, averaged or interpolated; pressures at the same sinkage and width can.</p></details>`;
}
