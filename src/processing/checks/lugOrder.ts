import { indexAt } from "../../core/recording.ts";
import type { Finding } from "../../core/finding.ts";
import type { Samples } from "../../core/recording.ts";
import type { RevolutionWindow } from "../conditioning/window.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { timed } from "../rolling.ts";
import { angleAt } from "./angleAt.ts";
import { judged, percent } from "./judged.ts";

/** Searched from this share below the number of lugs to this share above, in steps of a fraction of what the window can tell apart. */
const reach = 0.12;
const stepsPerLine = 8;
/** The ripple counts as that of the lugs when it stands this much above the middle of its neighbourhood. */
const clear = 5;
/** Least ripple, as a share of the pull. */
const leastShare = 0.005;
/** Steps of the angle that the pull is averaged in, a lug: fine enough for its ripple. */
const binsPerLug = 12;
/** Samples a lug: fewer cannot show its ripple. */
const samplesPerLug = 4;

/**
 * The lugs are a second encoder: their ripple in the pull must come N times a revolution. Where it comes oftener or seldomer, the
 * encoder does not turn with the wheel: a belt slips between them, or the ratio is a little wrong. Says nothing without clear ripple.
 */
export function lugOrder(run: PreparedRun, window: RevolutionWindow): Finding[] {
  const pull = timed(run, "drawbarPull", "N");
  const angle = timed(run, "wheelAngle", "rad");
  const lugs = run.wheel?.lugs ?? 0;
  if (pull === null || angle === null || lugs < 6) return [];
  const { fromS, toS } = window.segment;
  const from = indexAt(pull.time, fromS);
  const to = indexAt(pull.time, toS);
  const turns = window.boundariesS.length - 1;
  if (turns < 2 || to - from < samplesPerLug * lugs * turns) return [];
  const ripple = binned(angleAt(angle, pull.time, from, to), pull.samples.subarray(from, to), binsPerLug * lugs);
  const step = 1 / turns / stepsPerLine;
  const count = Math.ceil((reach * lugs) / step);
  const orders = Array.from({ length: 2 * count + 1 }, (_, i) => lugs + (i - count) * step);
  const amplitudes = orders.map((order) => amplitude(ripple, order));
  const best = amplitudes.indexOf(Math.max(...amplitudes));
  const middle = [...amplitudes].sort((a, b) => a - b)[count] as number;
  if (best === 0 || best === orders.length - 1 || (amplitudes[best] as number) < clear * middle) return [];
  // Ripple this small against the pull is no lug's: it is what averaging in steps of the angle leaves.
  if ((amplitudes[best] as number) < leastShare * ripple.level) return [];
  const found = (orders[best] as number) + step * vertex(amplitudes[best - 1] as number, amplitudes[best] as number, amplitudes[best + 1] as number);
  const off = Math.abs(found / lugs - 1);
  return judged("lug-order", off, run.rig.tolerances.lugOrder, () => `The pull's ripple comes ${found.toFixed(2)} times a turn of the encoder where the wheel has ${lugs} lugs: encoder and wheel do not turn together by ${percent(off)}. Look for a slipping belt or coupling between them, and at the gear ratio and the number of lugs`, { channel: "wheelAngle", fromS, toS });
}

interface Ripple {
  readonly turned: Float64Array;
  readonly weighted: Float64Array;
  /** the pull that the ripple rides on, summed under the same window */
  readonly level: number;
}

/**
 * Means of the pull, less the mean of all, in equal steps of the angle, under a Hann window over the whole stretch so that
 * neighbouring orders do not leak in. Each stands at the mean angle of its samples; a step without any stands at no ripple, so that
 * the pattern of a slow logger's samples is not taken for one.
 */
function binned(angles: ArrayLike<number>, values: Samples, binsPerTurn: number): Ripple {
  const first = angles[0] as number;
  const length = Math.abs((angles[angles.length - 1] as number) - first);
  const step = (2 * Math.PI) / binsPerTurn;
  const count = Math.max(1, Math.floor(length / step));
  const sums = new Float64Array(count);
  const counts = new Float64Array(count);
  const places = new Float64Array(count);
  let sum = 0;
  let present = 0;
  for (let i = 0; i < values.length; i++) {
    const turned = Math.abs((angles[i] as number) - first);
    const value = values[i] as number;
    const bin = Math.floor(turned / step);
    if (Number.isNaN(value) || !(bin < count)) continue;
    sums[bin] = (sums[bin] as number) + value;
    counts[bin] = (counts[bin] as number) + 1;
    places[bin] = (places[bin] as number) + turned;
    sum += value;
    present++;
  }
  const middle = present === 0 ? 0 : sum / present;
  const filled = Array.from({ length: count }, (_, bin) => bin).filter((bin) => (counts[bin] as number) > 0);
  const turned = Float64Array.from(filled, (bin) => (places[bin] as number) / (counts[bin] as number));
  const hann = turned.map((at) => 1 - Math.cos((2 * Math.PI * at) / length));
  const weighted = Float64Array.from(filled, (bin, i) => ((sums[bin] as number) / (counts[bin] as number) - middle) * (hann[i] as number));
  return { turned, weighted, level: Math.abs(middle) * hann.reduce((total, weight) => total + weight, 0) };
}

/** Amplitude of one order of the angle. */
function amplitude({ turned, weighted }: Ripple, order: number): number {
  let cos = 0;
  let sin = 0;
  for (let i = 0; i < turned.length; i++) {
    const at = order * (turned[i] as number);
    cos += (weighted[i] as number) * Math.cos(at);
    sin += (weighted[i] as number) * Math.sin(at);
  }
  return Math.hypot(cos, sin);
}

/** Where a parabola through three equally spaced heights has its top, in steps from the middle one. */
function vertex(before: number, at: number, after: number): number {
  const bend = before - 2 * at + after;
  return bend === 0 ? 0 : (before - after) / (2 * bend);
}
