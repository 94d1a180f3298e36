import { beforeAll, describe, expect, test } from "vitest";
import { normalStresses, plates } from "../../scripts/demo/dayPlan.ts";
import { simulant } from "../../scripts/demo/soilTruth.ts";
import type { Fit } from "../../src/core/fit.ts";
import type { DayResult } from "../../src/processing/dayResult.ts";
import { binomialBand, bandOut, holds, measured, note, sentence, tally } from "./coverage.ts";
import { plan, reduceMade } from "./madeFolder.ts";
import { truthOf } from "./truthOf.ts";

const seeds = 200;
const counted = tally();
const notGo: string[] = [];
let inRegion = 0;

/** Plates in three preparations of the bed, shear at four stresses in two of them: as on the demo day. */
async function oneSeed(seed: number): Promise<void> {
  const beds = ["B1", "B2", "B3"];
  const runs = [
    ...beds.flatMap((bed, b) => plates.map((plateM, i) => plan({ id: `P${b}${i}`, kind: "plate", bed, plateM, repeat: b + 1 }))),
    ...beds.slice(0, 2).flatMap((bed, b) => normalStresses.map((normalStressPa, i) => plan({ id: `S${b}${i}`, kind: "shear", bed, normalStressPa, repeat: b + 1 }))),
  ];
  const { day, truths } = await reduceMade(seed, runs);
  for (const run of day.runs) if (run.verdict !== "go") notGo.push(`seed ${seed}, ${run.plan.id}: ${run.reasons[0]}`);
  // One run a seed: runs of one day share their calibrations, so they are no trials of their own.
  for (const [kind, run] of [["plate", `P${seed % 3}${seed % 2}`], ["shear", `S${seed % 2}${seed % 4}`]] as const) {
    for (const [name, value] of truthOf(kind, truths.get(run) ?? {}, null)) note(counted, name, measured(day, run, name), value, `seed ${seed}`);
  }
  constants(seed, day);
}

function constants(seed: number, day: DayResult): void {
  const { pressureSinkage, plateWidths, shearStrength, shearCurves, jointRegion } = day.soil;
  const add = (fit: Fit | null | undefined, parameter: string, value: number, name: string): void => note(counted, name, fit?.parameters.find((candidate) => candidate.name === parameter)?.estimate, value, `seed ${seed}`);
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
  if (holdsPoint(jointRegion, simulant.cohesionPa, simulant.frictionRad)) inRegion++;
}

/** Whether a closed outline goes round a point: odd number of crossings of a ray. */
function holdsPoint(outline: readonly (readonly [number, number])[], x: number, y: number): boolean {
  let inside = false;
  for (let i = 1; i < outline.length; i++) {
    const [[x0, y0], [x1, y1]] = [outline[i - 1], outline[i]] as [readonly [number, number], readonly [number, number]];
    if (y0 > y !== y1 > y && x < x0 + ((x1 - x0) * (y - y0)) / (y1 - y0)) inside = !inside;
  }
  return inside;
}

beforeAll(async () => {
  for (let seed = 1; seed <= seeds; seed++) await oneSeed(seed);
}, 600_000);

/** Why an interval is rightly wider than its errors. */
const touching = "the contact grants any force from a square root of the way to beyond a straight line, and this soil's is nearly a straight line";
const wide: Readonly<Record<string, string>> = { sinkageExponent: touching, shearModulus: touching, shearModulusWeighted: touching, "n of the soil": touching, "n of a plate width": touching };

describe("a made soil comes back through the whole pipeline", () => {
  const ofRuns = ["sinkageExponent", "plateStiffness", "pressureAt10mm", "shearStrength", "shearModulus", "shearModulusWeighted", "normalStress"];
  const ofSoil = ["n of the soil", "k_c of the soil", "k_φ of the soil", "p at 10 mm of a plate width", "n of a plate width", "c of the soil", "φ of the soil", "K at a normal stress", "strength at a normal stress"];

  for (const name of [...ofRuns, ...ofSoil]) test(`the truth lies in the 95 % interval as often as stated: ${name}`, () => holds(counted, name, wide[name]));

  test("the 95 % joint region of cohesion and friction angle holds both as often as stated", () => {
    const [low, high] = binomialBand(seeds, 0.95, bandOut);
    const words = `${inRegion} of ${seeds}; expected ${low} … ${high}; ${sentence(counted, "c of the soil")}; ${sentence(counted, "φ of the soil")}`;
    expect(inRegion, words).toBeGreaterThanOrEqual(low);
    expect(inRegion, words).toBeLessThanOrEqual(high);
  });

  test("nothing is left undetermined, and no sound run is held back", () => {
    expect(counted.missing).toEqual([]);
    expect(notGo).toEqual([]);
  });
});
