import { lineFit } from "../../numerics/lineFit.ts";
import { mean } from "../../numerics/statistics.ts";

/** One point of a shear test. */
export interface ShearPoint {
  readonly displacementM: number;
  readonly stressPa: number;
}

/** peaked: the stress falls again. levelled: it ends flat. rising: it still climbs at the end. */
export type ShearShape = "peaked" | "levelled" | "rising";

/** The strength a shear test shows, and how its curve ends. */
export interface ShearStrength {
  readonly shape: ShearShape;
  /** peaked: greatest mean of three neighbouring points; otherwise the mean of the last fifth of the travel [Pa] */
  readonly stressPa: number;
  /** displacement of the greatest of those means [m] */
  readonly peakDisplacementM: number;
  /** rise of the stress over the last third of the travel, as a share of stressPa */
  readonly lateRise: number;
}

/** how far the end must lie below the peak, as a share of it, to count as a peak */
const fall = 0.05;
/** late rise above which the stress still climbs */
const climb = 0.03;

/**
 * The greatest stress that a shear test shows, and what kind of end it has.
 *
 * Peaked when the mean of the last fifth of the travel lies more than 5 % below the greatest mean of three neighbouring
 * points and that one lies before the last fifth. Else rising when a straight line through the last third, or the last three
 * points where fewer lie there, climbs by more than 3 % of the stress at the end, else levelled.
 *
 * @param points   shear displacement [m] rising, shear stress [Pa]; at least 8
 * @returns        the shape, the stress [Pa] by the rule above, and the late rise [1]; null with fewer than 8 points
 * @source         rule and limits own, common practice to name one
 * @checked        tests/processing/measures/shearStrengthOf.test.ts
 */
export function shearStrengthOf(points: readonly ShearPoint[]): ShearStrength | null {
  if (points.length < 8) return null;
  const start = (points[0] as ShearPoint).displacementM;
  const travel = (points[points.length - 1] as ShearPoint).displacementM - start;
  const late = (share: number): ShearPoint[] => points.filter((point) => point.displacementM >= start + (1 - share) * travel);
  let peak = 1;
  const around = (i: number): number => mean(points.slice(i - 1, i + 2).map((point) => point.stressPa));
  for (let i = 1; i < points.length - 1; i++) if (around(i) > around(peak)) peak = i;
  const greatest = around(peak);
  const end = mean(late(0.2).map((point) => point.stressPa));
  const third = late(1 / 3);
  const last = third.length >= 3 ? third : points.slice(-3);
  const { slope } = lineFit(last.map((point) => point.displacementM), last.map((point) => point.stressPa));
  const peakDisplacementM = (points[peak] as ShearPoint).displacementM;
  const peaked = end < (1 - fall) * greatest && peakDisplacementM < start + 0.8 * travel;
  const lateRise = (slope * travel) / 3 / end;
  return { shape: peaked ? "peaked" : lateRise > climb ? "rising" : "levelled", stressPa: peaked ? greatest : end, peakDisplacementM, lateRise };
}
