import { indexAt } from "../core/recording.ts";
import { angleAt } from "./checks/angleAt.ts";
import type { Timed, RevolutionWindow } from "./conditioning/window.ts";
import type { TurnSamples } from "./measures/orderAmplitude.ts";

/** A channel's samples revolution by revolution, each at the wheel's angle. */
export function turnsOf(channel: Timed, angle: Timed, window: RevolutionWindow): TurnSamples[] {
  return window.boundariesS.slice(1).map((toS, turn) => {
    const from = indexAt(channel.time, window.boundariesS[turn] as number);
    const to = indexAt(channel.time, toS);
    return { angles: angleAt(angle, channel.time, from, to), values: channel.samples.subarray(from, to) };
  });
}

/** Means in equal steps of the angle, a row a revolution; NaN where a step has no sample. */
export function stepMeans(turns: readonly TurnSamples[], steps: number): number[][] {
  return turns.map(({ angles, values }) => {
    const sums = new Array<number>(steps).fill(0);
    const counts = new Array<number>(steps).fill(0);
    for (let i = 0; i < values.length; i++) {
      const turned = (angles[i] as number) / (2 * Math.PI);
      const value = values[i] as number;
      if (!Number.isFinite(turned) || !Number.isFinite(value)) continue;
      const step = Math.min(steps - 1, Math.floor((turned - Math.floor(turned)) * steps));
      sums[step] = (sums[step] as number) + value;
      counts[step] = (counts[step] as number) + 1;
    }
    return sums.map((sum, step) => sum / (counts[step] as number));
  });
}
