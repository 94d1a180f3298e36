import type { CardWheel, SoilCard } from "../campaign/soilFileSchema.ts";

type Condition = SoilCard["validity"]["conditions"][number];
type Axis = "loadN" | "slip" | "diameterM" | "widthM" | "pressurePa";

/** In what a forecast lies outside the runs, and how far: "load 200 N above the runs' 30 N to 100 N", "by a factor of 2". */
export interface Outside {
  readonly words: string;
  /** "" where it is not a matter of more or less */
  readonly by: string;
}

/** How one axis is told: its name, a value in the unit people read, and how far beyond the range still counts as in it (share; slip: difference). */
const axes: Readonly<Record<Axis, { readonly name: string; readonly show: (value: number) => string; readonly slack: number }>> = {
  loadN: { name: "load", show: (value) => `${figures(value)} N`, slack: 0.03 },
  slip: { name: "slip", show: (value) => figures(value), slack: 0.02 },
  diameterM: { name: "diameter over the lugs", show: (value) => `${figures(1000 * value)} mm`, slack: 0.02 },
  widthM: { name: "width", show: (value) => `${figures(1000 * value)} mm`, slack: 0.02 },
  pressurePa: { name: "pressure (load over radius times width)", show: (value) => `${figures(value / 1000)} kPa`, slack: 0.03 },
};
/** steps that count as one apart: factors of load, diameter and width, difference of slip */
const apart = { loadN: 1.5, diameterM: 1.25, widthM: 1.5, slip: 0.15 };

/**
 * In plain words, by how much a forecast lies outside what was tested.
 *
 *   each of load, slip, diameter, width and pressure against its range
 *   inside all ranges: d² = (ln(W/Wᵢ)/ln 1.5)² + ((s − sᵢ)/0.15)² + (ln(D/Dᵢ)/ln 1.25)² + (ln(b/bᵢ)/ln 1.5)², said where the nearest run has d > 1
 *
 * @param card    `underWheels` of soil.json
 * @param wheel   the wheel
 * @param loadN   W [N]
 * @param slip    s
 * @returns       sentences; none = amid the data. What hangs on the wheel and load alone comes under `wheel`, what hangs on the slip under `slip`
 * @source        common practice
 * @checked       tests/fitting/distanceFromData.test.ts
 */
export function distanceFromData({ validity }: SoilCard, wheel: Omit<CardWheel, "id">, loadN: number, slip: number): { readonly wheel: readonly Outside[]; readonly slip: readonly Outside[] } {
  const { conditions } = validity;
  const tipM = wheel.rimM + wheel.lugHeightM;
  const at: Readonly<Record<Axis, number>> = { loadN, slip, diameterM: 2 * tipM, widthM: wheel.widthM, pressurePa: loadN / (tipM * wheel.widthM) };
  const flexible = wheel.curve !== null;
  const kind = conditions.some((condition) => condition.flexible === flexible) ? [] : [{ words: `no ${flexible ? "flexible" : "rigid"} wheel was among the runs`, by: "" }];
  const said = (axis: Axis): Outside[] => beyond(axis, at[axis], validity[axis]);
  const ofWheel = [...kind, ...(["loadN", "diameterM", "widthM", "pressurePa"] as const).flatMap(said)];
  const ofSlip = said("slip");
  if (ofWheel.length + ofSlip.length > 0) return { wheel: ofWheel, slip: ofSlip };
  const [nearest, distance] = conditions.reduce<readonly [Condition | null, number]>((best, condition) => (distanceTo(condition, at) < best[1] ? [condition, distanceTo(condition, at)] : best), [null, Infinity]);
  return { wheel: [], slip: nearest === null || distance <= 1 ? [] : [{ words: `inside the ranges, but no run stands near: the nearest is ${nearest.run} (${axes.loadN.show(nearest.loadN)}, slip ${figures(nearest.slip)}, ${axes.diameterM.show(nearest.diameterM)})`, by: "" }] };
}

function beyond(axis: Axis, value: number, [low, high]: readonly [number, number]): Outside[] {
  const { name, show, slack } = axes[axis];
  const [least, most] = axis === "slip" ? [low - slack, high + slack] : [low * (1 - slack), high * (1 + slack)];
  if (value >= least && value <= most) return [];
  const edge = value < least ? low : high;
  const range = show(low) === show(high) ? show(low) : `${show(low)} to ${show(high)}`;
  const side = `${value < least ? "below" : "above"} the runs' ${range}`;
  // a table over slip says the slip itself beside it: one sentence serves all rows on that side
  if (axis === "slip") return [{ words: `slip ${side}`, by: `by ${figures(Math.abs(value - edge))}` }];
  return [{ words: `${name} ${show(value)} ${side}`, by: `by a factor of ${figures(value < least ? edge / value : value / edge)}` }];
}

function distanceTo(condition: Condition, at: Readonly<Record<Axis, number>>): number {
  const steps = (["loadN", "diameterM", "widthM"] as const).map((axis) => Math.log(at[axis] / condition[axis]) / Math.log(apart[axis]));
  return Math.hypot(...steps, (at.slip - condition.slip) / apart.slip);
}

/** Three figures, in plain notation. */
function figures(value: number): string {
  return String(Number(value.toPrecision(3)));
}
