import { indexAt } from "../../core/recording.ts";
import type { Finding } from "../../core/finding.ts";
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
  const angles = angleAt(angle, pull.time, from, to);
  const values = Array.from(pull.samples.subarray(from, to));
  const step = 1 / turns / stepsPerLine;
  const count = Math.ceil((reach * lugs) / step);
  const orders = Array.from({ length: 2 * count + 1 }, (_, i) => lugs + (i - count) * step);
  const amplitudes = orders.map((order) => amplitude(values, angles, order));
  const best = amplitudes.indexOf(Math.max(...amplitudes));
  const middle = [...amplitudes].sort((a, b) => a - b)[count] as number;
  if (best === 0 || best === orders.length - 1 || (amplitudes[best] as number) < clear * middle) return [];
  const found = (orders[best] as number) + step * vertex(amplitudes[best - 1] as number, amplitudes[best] as number, amplitudes[best + 1] as number);
  const off = Math.abs(found / lugs - 1);
  return judged("lug-order", off, run.rig.tolerances.lugOrder, () => `The pull's ripple comes ${found.toFixed(2)} times a turn of the encoder where the wheel has ${lugs} lugs: encoder and wheel do not turn together by ${percent(off)}. Look for a slipping belt or coupling between them, and at the gear ratio and the number of lugs`, { channel: "wheelAngle", fromS, toS });
}

/** Amplitude of one order of the angle, seen through a Hann window so that neighbours do not leak in. */
function amplitude(values: readonly number[], angles: ArrayLike<number>, order: number): number {
  const first = angles[0] as number;
  const length = (angles[angles.length - 1] as number) - first;
  let cos = 0;
  let sin = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number;
    const turned = (angles[i] as number) - first;
    if (Number.isNaN(value + turned)) continue;
    const weight = value * (1 - Math.cos((2 * Math.PI * turned) / length));
    cos += weight * Math.cos(order * turned);
    sin += weight * Math.sin(order * turned);
  }
  return Math.hypot(cos, sin);
}

/** Where a parabola through three equally spaced heights has its top, in steps from the middle one. */
function vertex(before: number, at: number, after: number): number {
  const bend = before - 2 * at + after;
  return bend === 0 ? 0 : (before - after) / (2 * bend);
}
