import { rainflowCounter } from "../../numerics/rainflow.ts";
import type { LoadCounter } from "./levelRises.ts";

/** Classes a cycle's range is sorted into, up to full scale. */
const classes = 256;

/** Cycles of about one range. */
export interface CycleClass {
  /** mean of the ranges in this class */
  readonly range: number;
  /** half cycles count as 0.5 */
  readonly cycles: number;
}

/**
 * Rain-flow counts of a channel, sample by sample, sorted by range. Ranges within one class of full scale are noise and no
 * reversals.
 *
 * @param full  full scale of the channel
 */
export function loadCycles(full: number): LoadCounter & { readonly step: number; classes(): CycleClass[] } {
  const step = full / classes;
  const sums = new Map<number, { cycles: number; ranges: number }>();
  const counter = rainflowCounter(step, ({ range, count }) => {
    const place = Math.floor(range / step);
    const known = sums.get(place) ?? { cycles: 0, ranges: 0 };
    sums.set(place, { cycles: known.cycles + count, ranges: known.ranges + count * range });
  });
  return {
    step,
    add: counter.push,
    classes() {
      counter.finish();
      return [...sums].sort(([a], [b]) => a - b).map(([, { cycles, ranges }]) => ({ range: ranges / cycles, cycles }));
    },
  };
}
