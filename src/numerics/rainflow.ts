/** One closed or half cycle of a load history. */
export interface LoadCycleCount {
  /** greatest less least value of the cycle */
  readonly range: number;
  readonly mean: number;
  /** 1 = a whole cycle, 0.5 = a half one */
  readonly count: 0.5 | 1;
}

/** Counts cycles as samples come in, so that a log of any length needs only the reversals that are still open. */
export interface RainflowCounter {
  /** the next samples; NaN is passed over */
  readonly push: (samples: ArrayLike<number>) => void;
  /** half cycles of what is still open; nothing may be pushed after it */
  readonly finish: () => void;
}

/**
 * Rain-flow counting of a load history.
 *
 *   X = range of the two newest reversals, Y = the range before it
 *   X ≥ Y, Y without the first reversal: Y is a cycle, its two reversals go
 *   X ≥ Y, Y with the first reversal: Y is half a cycle, the first reversal goes
 *   at the end, every range left is half a cycle
 *
 * Unit of the samples. Ranges up to `threshold` are not reversals: noise would else fill the count with cycles that bear
 * no damage. The first and the last sample count as reversals.
 *
 * @param threshold  smallest range that is a reversal, ≥ 0, unit of the samples
 * @param onCycle    told every cycle as it closes
 * @returns          the counter
 * @throws           RangeError if the threshold is not a number ≥ 0
 * @source           ASTM E1049-85, 5.4.4, from memory
 * @checked          tests/numerics/rainflow.test.ts
 */
export function rainflowCounter(threshold: number, onCycle: (cycle: LoadCycleCount) => void): RainflowCounter {
  if (!(threshold >= 0)) throw new RangeError(`rainflowCounter: expected a threshold of at least 0, found ${threshold}`);
  const open: number[] = [];
  let first = true;
  /** the turning point not yet confirmed, and the way it went: 0 while nothing has left the first sample */
  let candidate = Number.NaN;
  let way = 0;

  const close = (a: number, b: number, count: 0.5 | 1): void => onCycle({ range: Math.abs(a - b), mean: (a + b) / 2, count });
  const reverse = (value: number): void => {
    open.push(value);
    while (open.length >= 3) {
      const n = open.length;
      const [a, b, c] = [open[n - 3] as number, open[n - 2] as number, open[n - 1] as number];
      if (Math.abs(c - b) < Math.abs(b - a)) return;
      if (n === 3) {
        close(a, b, 0.5);
        open.shift();
      } else {
        close(a, b, 1);
        open.splice(n - 3, 2);
      }
    }
  };

  return {
    push: (samples) => {
      for (let i = 0; i < samples.length; i++) {
        const value = samples[i] as number;
        if (Number.isNaN(value)) continue;
        if (first) {
          reverse(value);
          candidate = value;
          first = false;
        } else if (way * (value - candidate) > 0) candidate = value;
        else if (Math.abs(value - candidate) > threshold) {
          if (way !== 0) reverse(candidate);
          way = Math.sign(value - candidate);
          candidate = value;
        }
      }
    },
    finish: () => {
      if (way !== 0) reverse(candidate);
      for (let i = 1; i < open.length; i++) close(open[i - 1] as number, open[i] as number, 0.5);
      open.length = 0;
    },
  };
}

/**
 * All cycles of a whole load history at once.
 *
 * @param samples    the history; NaN is passed over
 * @param threshold  smallest range that is a reversal, ≥ 0, unit of the samples
 * @returns          cycles in the order in which they close
 * @throws           RangeError if the threshold is not a number ≥ 0
 * @source           ASTM E1049-85, 5.4.4, from memory
 * @checked          tests/numerics/rainflow.test.ts
 */
export function rainflowCycles(samples: ArrayLike<number>, threshold: number): LoadCycleCount[] {
  const cycles: LoadCycleCount[] = [];
  const counter = rainflowCounter(threshold, (cycle) => void cycles.push(cycle));
  counter.push(samples);
  counter.finish();
  return cycles;
}
