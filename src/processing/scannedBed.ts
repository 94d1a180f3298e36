import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { Measure } from "../core/measure.ts";
import type { SurfacePoint } from "../campaign/campaign.ts";
import type { Estimate } from "../core/estimate.ts";
import { lineFit } from "../numerics/lineFit.ts";
import { mean } from "../numerics/statistics.ts";
import { turningStretch } from "./conditioning/motion.ts";
import { meanOver } from "./conditioning/slope.ts";
import type { RevolutionWindow } from "./conditioning/window.ts";
import type { Curve } from "./dayResult.ts";
import type { Reading } from "./measures/reading.ts";
import { rutDepth } from "./measures/rutDepth.ts";
import { aboutLine, heightAt, surfaceSlope } from "./measures/surfaceSlope.ts";
import type { LanePoint } from "./measures/surfaceSlope.ts";
import type { PreparedRun } from "./preparedRun.ts";
import { eachRevolution, outerDiameter, timed } from "./rolling.ts";

/** The scanned lane under one run. */
export interface ScannedBed {
  readonly slope: Estimate<"rad">;
  /** how much higher the surface is under each revolution than where the wheel first touched */
  readonly rise: Reading<"m">;
  readonly rut: Estimate<"m"> | null;
}

const fewestPoints = 5;
/** the wheel stands where it touched for this long before it starts [s] */
const standingS = 0.3;

/** The lane of a run as it was scanned; null where it was not, or where the scan says too little, which is then a finding. */
export function scannedBed(run: PreparedRun, window: RevolutionWindow): { readonly bed: ScannedBed | null; readonly findings: readonly Finding[] } {
  const { surface } = run.plan;
  const none = (message: string): ReturnType<typeof scannedBed> => ({ bed: null, findings: [finding("surface-unused", "look", message)] });
  if (surface === undefined) return { bed: null, findings: [] };
  const { surfaceScan } = run.rig;
  if (surfaceScan === undefined) return none("surfaces.csv holds a scan of this lane, but rig.yaml does not say how far the scanner is to be believed; nothing was corrected by it. State surfaceScan in rig.yaml");
  const position = timed(run, "carriagePosition", "m");
  const angle = timed(run, "wheelAngle", "rad");
  const turning = angle === null ? null : turningStretch(angle.time, angle.samples);
  if (position === null || turning === null) return none("The scan of this lane could not be laid beside the run: the carriage's position or the wheel's angle is missing");
  const at = (fromS: number, toS: number): number => meanOver(position.time, position.samples, fromS, toS).mean;
  const start = at(turning.fromS - standingS, turning.fromS);
  const middles = eachRevolution(window, at);
  const ends = [window.segment.fromS, window.segment.toS].map((timeS) => at(timeS - standingS / 2, timeS + standingS / 2));
  const [from, to] = [Math.min(...ends), Math.max(...ends)];
  const before = lane(surface.before, run.wheel?.widthM ?? 0);
  const inside = (points: readonly LanePoint[]): LanePoint[] => points.filter(({ x }) => x >= from && x <= to);
  const under = inside(before);
  const heights = middles.map((x) => heightAt(before, x));
  const touched = heightAt(before, start);
  if (under.length < fewestPoints || [touched, ...heights].some(Number.isNaN)) return none(`The scan before the run holds ${under.length} points between ${from.toFixed(3)} and ${to.toFixed(3)} m, where the window lies, and must reach back to ${start.toFixed(3)} m, where the wheel stood; ${fewestPoints} are needed. Nothing was corrected by it. Scan the whole lane, positions on the scale of carriagePosition`);
  const shared = `calibration ${surfaceScan.certificate}`;
  const backwards = (ends[1] as number) < (ends[0] as number);
  const uphill = surfaceSlope(backwards ? under.map(({ x, z }) => ({ x: -x, z })) : under, { ...surfaceScan, shared }, run.plan.id);
  const perRevolution = heights.map((height) => height - touched);
  const value = mean(perRevolution);
  const way = mean(middles) - start;
  const stray = aboutLine(under);
  const rise: Reading<"m"> = {
    unit: "m",
    value,
    perRevolution,
    rows: [
      { cause: `height of the scan where the wheel touched, ${run.plan.id}`, effect: stray, sharedBy: null, degreesOfFreedom: under.length - 2 },
      { cause: `slope of the scanner, ${shared}`, effect: surfaceScan.slope * way, sharedBy: shared, degreesOfFreedom: Infinity },
      { cause: shared, effect: surfaceScan.relative * value, sharedBy: shared, degreesOfFreedom: Infinity },
    ],
  };
  const rut = surface.after.length === 0 ? null : rutDepth(before, inside(lane(surface.after, run.wheel?.widthM ?? 0)), { ...surfaceScan, shared }, run.plan.id);
  return { bed: { slope: uphill, rise, rut }, findings: [] };
}

/** Slope of the scanned lane under the wheel while it stands before its start, rails as level; 0 where no scan that may be believed tells it. */
export function slopeUnderStanding(run: PreparedRun, startS: number): number {
  const position = timed(run, "carriagePosition", "m");
  if (run.plan.surface === undefined || run.rig.surfaceScan === undefined || position === null) return 0;
  const { mean: start } = meanOver(position.time, position.samples, startS - standingS, startS);
  const near = lane(run.plan.surface.before, run.wheel?.widthM ?? 0).filter(({ x }) => Math.abs(x - start) <= outerDiameter(run) / 2);
  return near.length < 3 ? 0 : lineFit(near.map(({ x }) => x), near.map(({ z }) => z)).slope;
}

/** Points within the wheel's width, several at one place averaged, in order. */
function lane(points: readonly SurfacePoint[], widthM: number): LanePoint[] {
  const places = new Map<number, number[]>();
  for (const { positionM, acrossM, heightM } of points) {
    if (acrossM !== null && Math.abs(acrossM) > widthM / 2) continue;
    places.set(positionM, [...(places.get(positionM) ?? []), heightM]);
  }
  return [...places].map(([x, heights]) => ({ x, z: mean(heights) })).sort((a, b) => a.x - b.x);
}

/** What the scan says by itself. */
export function bedMeasures({ slope, rut }: ScannedBed, window: RevolutionWindow): Measure[] {
  const measure = (name: string, label: string, estimate: Estimate): Measure => ({ name, label, estimate, segment: window.segment });
  return [measure("bedSlope", "Slope of the bed, uphill positive", slope), ...(rut === null ? [] : [measure("rutDepth", "Rut depth", rut)])];
}

/** The lane along the wheel's way, as scanned. */
export function laneCurves({ plan, wheel }: PreparedRun): Curve[] {
  return (["before", "after"] as const).flatMap((side): Curve[] => {
    const points = lane(plan.surface?.[side] ?? [], wheel?.widthM ?? 0);
    if (points.length === 0) return [];
    return [{ name: `surface${side === "before" ? "Before" : "After"}`, x: { label: "position along the lane", unit: "m", values: points.map(({ x }) => x) }, y: { label: `height of the surface ${side} the run`, unit: "m", values: points.map(({ z }) => z) }, yUncertainty: null, method: "as scanned, within the wheel's width" }];
  });
}
