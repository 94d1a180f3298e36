import { sampleCount, timeAt } from "../../core/recording.ts";
import type { TimeBase } from "../../core/recording.ts";
import type { Timed } from "../conditioning/window.ts";

/** The wheel's angle at samples `from` … `to` of another channel, on straight lines between its own samples; NaN beside a missing one. */
export function angleAt(angle: Timed, time: TimeBase, from: number, to: number): Float64Array {
  const out = new Float64Array(Math.max(0, to - from));
  const last = sampleCount(angle.time) - 1;
  let at = 1;
  for (let i = from; i < to; i++) {
    const timeS = timeAt(time, i);
    while (at < last && timeAt(angle.time, at) < timeS) at++;
    const before = timeAt(angle.time, at - 1);
    const share = (timeS - before) / (timeAt(angle.time, at) - before);
    out[i - from] = (angle.samples[at - 1] as number) * (1 - share) + (angle.samples[at] as number) * share;
  }
  return out;
}
