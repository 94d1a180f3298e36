import type { Rig } from "../campaign/rigSchema.ts";
import type { FitPoint } from "../core/fit.ts";
import { groupBy } from "../core/groupBy.ts";
import type { RunResult, SoilResult } from "../processing/dayResult.ts";
import { plateScatter } from "./plateScatter.ts";
import { plateGroups, plateTestsFrom } from "./plateTests.ts";
import { plateBand, plateWidthFit } from "./plateWidthFit.ts";
import { pressureSinkageFit } from "./pressureSinkageFit.ts";
import { barred, measureOf, refusedPoint } from "./refusedPoint.ts";
import { shearModulusFit, shearRunToRun } from "./shearModulusFit.ts";
import type { ShearCurveTest } from "./shearModulusFit.ts";
import { shearStrengthFit } from "./shearStrengthFit.ts";
import type { ShearTest } from "./shearStrengthFit.ts";

/**
 * The day's soil constants from its plate and shear runs. Rejected, excluded and unread runs appear in the fits as
 * refused points with their reason.
 *
 * @param runs   all runs of the day
 * @param rig    says what b means for a circular plate
 * @returns      every fit; null where the day has no run of that kind
 * @source       common practice
 * @checked      tests/fitting/soilResult.test.ts
 */
export function soilFrom(runs: readonly RunResult[], rig: Rig): SoilResult {
  return { ...plates(runs, rig), ...shears(runs) };
}

function plates(runs: readonly RunResult[], rig: Rig): Pick<SoilResult, "pressureSinkage" | "plateWidths"> {
  if (!runs.some((run) => run.plan.kind === "plate")) return { pressureSinkage: null, plateWidths: [] };
  const { tests, refused } = plateTestsFrom(runs, rig);
  const groups = plateGroups(tests);
  const scatter = plateScatter(groups);
  const circles = runs.some((run) => run.plan.plate?.shape === "circle");
  const widthNote = circles ? `the ${rig.soil?.circularPlateWidth ?? "(not stated)"} of a circular plate, the smaller side of a rectangle` : "the smaller side of the plate";
  const plateWidths = groups.map((group, index) => {
    const fit = plateWidthFit(groups, index, scatter);
    return { widthM: group.widthM, runs: group.tests.map((test) => test.run), fit, band: plateBand(fit) };
  });
  return { pressureSinkage: pressureSinkageFit(groups, scatter, refused, widthNote), plateWidths };
}

function shears(runs: readonly RunResult[]): Pick<SoilResult, "shearStrength" | "jointRegion" | "shearCurves"> {
  const shearRuns = runs.filter((run) => run.plan.kind === "shear");
  if (shearRuns.length === 0) return { shearStrength: null, jointRegion: [], shearCurves: [] };
  const tests: (ShearTest & ShearCurveTest)[] = [];
  const refused: FitPoint[] = [];
  for (const run of shearRuns) {
    const [strength, shearModulus, normalStress] = ["shearStrength", "shearModulus", "normalStress"].map((name) => measureOf(run, name)?.estimate);
    const reason = barred(run) ?? (strength === undefined || shearModulus === undefined || normalStress === undefined || !(strength.value > 0 && shearModulus.value > 0) ? "no shear curve was measured" : Number.isFinite(normalStress.value) ? null : `no normal stress: ${normalStress.method}`);
    if (reason !== null || strength === undefined || shearModulus === undefined || normalStress === undefined) refused.push(refusedPoint(run, normalStress?.value ?? run.plan.normalStressPa, strength?.value, reason ?? "no shear curve was measured"));
    else tests.push({ run: run.plan.id, bed: run.plan.bed, strength, shearModulus, normalStress, setStressPa: run.plan.normalStressPa, points: run.fits[0]?.points ?? [] });
  }
  const { fit, jointRegion } = shearStrengthFit(tests, refused);
  const groups = [...groupBy(tests, (test) => test.setStressPa ?? Math.round(test.normalStress.value / 100) * 100)].sort(([a], [b]) => a - b);
  const scatter = shearRunToRun(groups.map(([, group]) => group));
  const shearCurves = groups.map(([normalStressPa, group]) => ({ normalStressPa, runs: group.map((test) => test.run), fit: shearModulusFit(group, scatter) }));
  return { shearStrength: fit, jointRegion, shearCurves };
}
