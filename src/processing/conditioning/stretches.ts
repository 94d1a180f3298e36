import { addSums, noSums } from "./wheelTicks.ts";
import type { TickSums } from "./wheelTicks.ts";

/** So many whole revolutions of the wheel, one after the other. */
export interface Stretch {
  readonly sums: TickSums;
  /** path travelled before it [m] */
  readonly fromM: number;
  readonly fromS: number;
  readonly toS: number;
}

/** When there are so many stretches, neighbours are joined. */
const mostStretches = 400;

/**
 * Joins ticks to stretches of 1, 2, 4, 8 … whole revolutions, always between 200 and 400 of them once the run is long
 * enough: however long it is, as many means stand for its scatter, and the longer they are the less neighbours depend on
 * each other. A stretch ends with the tick that completes its revolutions.
 */
export function stretches(channels: number): { add(tick: TickSums, atS: number): void; readonly whole: readonly Stretch[]; readonly total: TickSums; revolutionsEach(): number } {
  const total = noSums(channels);
  const whole: Stretch[] = [];
  let each = 1;
  let open = noSums(channels);
  let fromM = 0;
  let fromS = Number.NaN;

  function halve(): void {
    const pairs: Stretch[] = [];
    for (let i = 0; i + 1 < whole.length; i += 2) {
      const [a, b] = [whole[i] as Stretch, whole[i + 1] as Stretch];
      const sums = noSums(channels);
      addSums(sums, a.sums);
      addSums(sums, b.sums);
      pairs.push({ sums, fromM: a.fromM, fromS: a.fromS, toS: b.toS });
    }
    whole.splice(0, whole.length, ...pairs);
    each *= 2;
  }

  return {
    whole,
    total,
    revolutionsEach: () => each,
    add(tick, atS) {
      if (Number.isNaN(fromS)) fromS = atS - tick.runningS;
      addSums(open, tick);
      addSums(total, tick);
      // Half a tick early: sums of hundredths fall short of a whole by rounding.
      if (open.turnedRad < each * 2 * Math.PI - 0.03) return;
      whole.push({ sums: open, fromM, fromS, toS: atS });
      fromM = total.travelledM;
      fromS = Number.NaN;
      open = noSums(channels);
      if (whole.length === mostStretches) halve();
    },
  };
}
