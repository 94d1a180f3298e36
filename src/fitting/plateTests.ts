import type { RunPlan } from "../campaign/campaign.ts";
import type { Rig } from "../campaign/rigSchema.ts";
import type { Estimate } from "../core/estimate.ts";
import type { FitPoint } from "../core/fit.ts";
import { groupBy } from "../core/groupBy.ts";
import { sinkagePowerLaw } from "../processing/measures/sinkagePowerLaw.ts";
import type { PlatePoint } from "../processing/measures/sinkagePowerLaw.ts";
import type { RunResult } from "../processing/dayResult.ts";
import { barred, measureOf, refusedPoint } from "./refusedPoint.ts";
import { sharedEffects } from "./sharedEffects.ts";

/** One plate run that counts. */
export interface PlateTest {
  readonly run: string;
  readonly bed: string | null;
  /** b [m], by the rig description's convention for circles */
  readonly widthM: number;
  readonly points: readonly PlatePoint[];
  /** n and k of this run alone, for what runs share */
  readonly exponent: Estimate;
  readonly stiffness: Estimate;
}

/** All runs of one plate width, and where their curve turns. */
export interface PlateGroup {
  readonly widthM: number;
  readonly tests: readonly PlateTest[];
  /** all points of all runs */
  readonly points: readonly PlatePoint[];
  /** n of all points together */
  readonly exponent: number;
  /** ln k of all points together, at that n */
  readonly logStiffness: number;
  /** ℓ, p²-weighted mean of ln z */
  readonly centre: number;
  /** ln p at ℓ on the curve: q = ln k + n ℓ */
  readonly logPressure: number;
}

/**
 * b of a plate.
 *
 *   rectangle: smaller side; circle: radius or diameter, as the rig description says
 *
 * @param plate   the plate of the run sheet
 * @param rig     `soil.circularPlateWidth`
 * @returns       b [m]; null for a circle when the rig description does not say
 * @source        M. G. Bekker 1969; both conventions for circles are in use
 * @checked       tests/fitting/plateTests.test.ts
 */
export function plateWidth(plate: NonNullable<RunPlan["plate"]>, rig: Rig): number | null {
  if (plate.shape === "rectangle") return Math.min(plate.widthM, plate.lengthM);
  if (rig.soil === undefined) return null;
  return rig.soil.circularPlateWidth === "radius" ? plate.widthM / 2 : plate.widthM;
}

/**
 * The plate runs of a day: those that count, and the others with their reasons.
 *
 * @param runs   all runs of the day; other kinds are left out
 * @param rig    says what b means for a circular plate
 * @returns      tests that count, and refused points for the others
 * @source       common practice
 * @checked      tests/fitting/plateTests.test.ts
 */
export function plateTestsFrom(runs: readonly RunResult[], rig: Rig): { readonly tests: readonly PlateTest[]; readonly refused: readonly FitPoint[] } {
  const tests: PlateTest[] = [];
  const refused: FitPoint[] = [];
  for (const run of runs.filter((candidate) => candidate.plan.kind === "plate")) {
    const exponent = measureOf(run, "sinkageExponent")?.estimate;
    const stiffness = measureOf(run, "plateStiffness")?.estimate;
    const points = (run.fits[0]?.points ?? []).filter((point) => point.kept).map((point): PlatePoint => ({ sinkageM: point.x, pressurePa: point.y }));
    const widthM = run.plan.plate === null ? null : plateWidth(run.plan.plate, rig);
    const reason = barred(run) ?? (exponent === undefined || stiffness === undefined || points.length < 3 ? "no plate curve was measured" : widthM === null ? "the rig description does not say whether b of a circular plate is its radius or its diameter (soil.circularPlateWidth)" : null);
    if (reason !== null || exponent === undefined || stiffness === undefined || widthM === null) refused.push(refusedPoint(run, null, null, reason ?? "no plate curve was measured"));
    else tests.push({ run: run.plan.id, bed: run.plan.bed, widthM, points, exponent, stiffness });
  }
  return { tests, refused };
}

/**
 * Plate runs gathered by width, each width with the weighted power law of all its points.
 *
 * @param tests   plate runs
 * @returns       groups by rising width
 * @source        J. Y. Wong, J. Terramechanics 17(1), 1980, 5–21; from memory
 * @checked       tests/fitting/plateTests.test.ts
 */
export function plateGroups(tests: readonly PlateTest[]): PlateGroup[] {
  // widths from a sheet in inches and one in millimetres may differ by rounding: alike to a micrometre is alike
  const byWidth = groupBy(tests, (test) => Math.round(test.widthM * 1e6));
  return [...byWidth.values()]
    .map((group): PlateGroup => {
      const points = group.flatMap((test) => test.points);
      const law = sinkagePowerLaw(points);
      const logStiffness = Math.log(law.stiffness);
      return { widthM: (group[0] as PlateTest).widthM, tests: group, points, exponent: law.exponent, logStiffness, centre: law.centreLogSinkage, logPressure: logStiffness + law.exponent * law.centreLogSinkage };
    })
    .sort((a, b) => a.widthM - b.widthM);
}

/**
 * What each cause that runs share does to (n, q) of every group: the mean over its runs.
 *
 *   Δn = mean Δnᵢ     Δq = mean (Δkᵢ/kᵢ + ℓ Δnᵢ)
 *
 * @param groups   plate groups
 * @returns        one entry per cause; shifts in the order n₁, q₁, n₂, q₂ …
 * @source         JCGM 100:2008, F.1.2.3
 * @checked        tests/fitting/plateTests.test.ts
 */
export function sharedShifts(groups: readonly PlateGroup[]): { readonly cause: string; readonly sharedBy: string; readonly degreesOfFreedom: number; readonly shifts: readonly number[] }[] {
  const tests = groups.flatMap((group) => group.tests);
  const onExponent = sharedEffects(tests.map((test) => test.exponent));
  const onStiffness = sharedEffects(tests.map((test) => test.stiffness));
  const causes = [...onExponent, ...onStiffness.filter((cause) => !onExponent.some((known) => known.cause === cause.cause))];
  return causes.map(({ cause, sharedBy, degreesOfFreedom }) => {
    const exponentEffects = onExponent.find((known) => known.cause === cause)?.effects;
    const stiffnessEffects = onStiffness.find((known) => known.cause === cause)?.effects;
    let at = 0;
    const shifts = groups.flatMap((group) => {
      let n = 0;
      let q = 0;
      for (const test of group.tests) {
        const dn = exponentEffects?.[at] ?? 0;
        n += dn / group.tests.length;
        q += ((stiffnessEffects?.[at] ?? 0) / test.stiffness.value + group.centre * dn) / group.tests.length;
        at++;
      }
      return [n, q];
    });
    return { cause, sharedBy, degreesOfFreedom, shifts };
  });
}
