import type { Fit } from "../../src/core/fit.ts";
import { estimateFrom } from "../../src/core/estimate.ts";
import type { DayResult } from "../../src/processing/dayResult.ts";
import { normalStresses, plates } from "../demo/dayPlan.ts";
import { simulant } from "../demo/soilTruth.ts";
import { plan, reduceMade } from "./madeFolder.ts";
import { measured, note, noteHeldBack, tally } from "./tally.ts";
import type { Tally } from "./tally.ts";
import { truthOf } from "./truthOf.ts";

/** Plates in three preparations of the bed, shear at four stresses in two of them: as on the demo day. */
export async function soilDay(seed: number): Promise<Tally> {
  const counted = tally();
  const beds = ["B1", "B2", "B3"];
  const runs = [
    ...beds.flatMap((bed, b) => plates.map((plateM, i) => plan({ id: `P${b}${i}`, kind: "plate", bed, plateM, repeat: b + 1 }))),
    ...beds.slice(0, 2).flatMap((bed, b) => normalStresses.map((normalStressPa, i) => plan({ id: `S${b}${i}`, kind: "shear", bed, normalStressPa, repeat: b + 1 }))),
  ];
  const { day, truths } = await reduceMade(seed, runs);
  noteHeldBack(counted, day, `seed ${seed}`);
  // One run a seed: runs of one day share their calibrations, so they are no trials of their own.
  for (const [kind, run] of [["plate", `P${seed % 3}${seed % 2}`], ["shear", `S${seed % 2}${seed % 4}`]] as const) {
    for (const [name, value] of truthOf(kind, truths.get(run) ?? {}, null)) note(counted, name, measured(day, run, name), value, `seed ${seed}`);
  }
  constants(counted, seed, day);
  return counted;
}

function constants(into: Tally, seed: number, day: DayResult): void {
  const { pressureSinkage, plateWidths, shearStrength, shearCurves, jointRegion } = day.soil;
  const where = `seed ${seed}`;
  const add = (fit: Fit | null | undefined, parameter: string, value: number, name: string): void => note(into, name, fit?.parameters.find((candidate) => candidate.name === parameter)?.estimate, value, where);
  add(pressureSinkage, "sinkageExponent", simulant.n, "n of the soil");
  add(pressureSinkage, "cohesiveModulus", simulant.kc, "k_c of the soil");
  add(pressureSinkage, "frictionalModulus", simulant.kphi, "k_φ of the soil");
  const width = plateWidths[seed % plateWidths.length];
  add(width?.fit, "pressureAt10mm", (simulant.kc / (width?.widthM ?? Number.NaN) + simulant.kphi) * 0.01 ** simulant.n, "p at 10 mm of a plate width");
  add(width?.fit, "sinkageExponent", simulant.n, "n of a plate width");
  add(shearStrength, "cohesion", simulant.cohesionPa, "c of the soil");
  add(shearStrength, "frictionAngle", simulant.frictionRad, "φ of the soil");
  const curve = shearCurves[seed % shearCurves.length];
  add(curve?.fit, "shearModulus", simulant.shearModulusM, "K at a normal stress");
  add(curve?.fit, "shearStrength", simulant.cohesionPa + (curve?.normalStressPa ?? Number.NaN) * Math.tan(simulant.frictionRad), "strength at a normal stress");
  const cohesion = shearStrength?.parameters.find((parameter) => parameter.name === "cohesion")?.estimate ?? estimateFrom(Number.NaN, "Pa", "no fit", []);
  into.trials.push({ name: jointRegionName, where, error: cohesion.value - simulant.cohesionPa, standardUncertainty: cohesion.standardUncertainty ?? Number.NaN, inside: holdsPoint(jointRegion, simulant.cohesionPa, simulant.frictionRad) });
}

/** An area, not an interval: its error and z are those of the cohesion. */
export const jointRegionName = "joint region of c and φ";

/** Whether a closed outline goes round a point: odd number of crossings of a ray. */
function holdsPoint(outline: readonly (readonly [number, number])[], x: number, y: number): boolean {
  let inside = false;
  for (let i = 1; i < outline.length; i++) {
    const [[x0, y0], [x1, y1]] = [outline[i - 1], outline[i]] as [readonly [number, number], readonly [number, number]];
    if (y0 > y !== y1 > y && x < x0 + ((x1 - x0) * (y - y0)) / (y1 - y0)) inside = !inside;
  }
  return inside;
}
