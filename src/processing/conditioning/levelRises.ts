/** What counts events in a channel, sample by sample. */
export interface LoadCounter {
  add(samples: ArrayLike<number>): void;
}

/** Levels a channel can be counted at, beyond its zero's drift and the noise of one step. */
const stepsEachWay = 256;

/**
 * Counts how often a channel rises through each of many levels. A rise counts once the channel has been a whole step
 * below the level, so that noise on a level is one rise and not many.
 *
 * @param full  full scale of the channel; levels lie at its 256ths, either way
 */
export function levelRises(full: number): LoadCounter & { readonly step: number; riseCount(level: number): number; readonly reached: { low: number; high: number } } {
  const step = full / stepsEachWay;
  const counts = new Float64Array(2 * stepsEachWay + 1);
  const armed = new Uint8Array(counts.length);
  const reached = { low: Infinity, high: -Infinity };
  const slot = (value: number): number => Math.max(-1, Math.min(counts.length - 1, Math.floor(value / step) + stepsEachWay));
  let at: number | null = null;
  return {
    step,
    reached,
    riseCount: (level) => counts[Math.round(level / step) + stepsEachWay] ?? 0,
    add(samples) {
      for (let i = 0; i < samples.length; i++) {
        const value = samples[i] as number;
        if (Number.isNaN(value)) continue;
        if (value < reached.low) reached.low = value;
        if (value > reached.high) reached.high = value;
        const now = slot(value);
        if (at === null) armed.fill(1, Math.min(counts.length, now + 2));
        else if (now > at) {
          for (let level = at + 1; level <= now; level++) {
            counts[level] = (counts[level] as number) + (armed[level] as number);
            armed[level] = 0;
          }
        } else if (now < at) armed.fill(1, now + 2, at + 2);
        at = now;
      }
    },
  };
}
