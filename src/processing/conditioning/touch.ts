import { indexAt, sampleCount, timeAt } from "../../core/recording.ts";
import { standardDeviation } from "../../numerics/statistics.ts";
import { meanOver } from "./slope.ts";
import type { Timed } from "./window.ts";

/** First touch of wheel and ground while the wheel is lowered: where sinkage is counted from. */
export interface Touch {
  readonly timeS: number;
  readonly hubHeightM: number;
  /** what the noise and the unknown shape of the first contact leave open */
  readonly uncertaintyM: number;
}

/** Load is judged over this length [s], so that noise does not hide the first newtons. */
const blockS = 0.02;
/** The second level of load, as a multiple of the first that stands clear of the noise. */
const secondLevel = 4;
/** Exponents of load over indentation between which first contact lies: a straight spring, and soft soil (common practice). */
const exponents = [1, 2] as const;

/**
 * The hub's height at first touch, carried back from two loads that stand clear of the zero's noise.
 *
 *   W = k (h₀ − h)^m   →   h₀ = (h₁ − ρ h₂) / (1 − ρ),   ρ = (W₁/W₂)^(1/m)
 *
 * When the load is first noticed the wheel has already gone in a little. The exponent m is not known; the heights for
 * m = 1 and m = 2 bound the touch, their middle is taken and their distance is the width of a rectangular distribution.
 *
 * @returns the touch, or a reason when the load never rises, or the hub height is missing there
 */
export function firstTouch(load: Timed, hub: Timed, quietToS: number, beforeS: number): Touch | { readonly reason: string } {
  const start = timeAt(load.time, 0);
  const quiet = Array.from(load.samples.subarray(0, indexAt(load.time, quietToS))).filter((value) => !Number.isNaN(value));
  if (quiet.length < 2) return { reason: "the vertical load is missing during the zero block" };
  const perBlock = Math.max(1, indexAt(load.time, start + blockS));
  const threshold = (5 * standardDeviation(quiet)) / Math.sqrt(perBlock);
  const end = Math.min(beforeS, timeAt(load.time, sampleCount(load.time) - 1));
  const firstS = risesThrough(load, threshold, quietToS, end);
  const secondS = risesThrough(load, secondLevel * threshold, firstS, end);
  if (Number.isNaN(firstS) || Number.isNaN(secondS)) return { reason: "the vertical load never rises clear of its zero before the wheel starts" };
  const first = heightAt(hub, firstS);
  const second = heightAt(hub, secondS);
  if (Number.isNaN(first.mean) || Number.isNaN(second.mean)) return { reason: "the hub height is missing at first touch" };
  const [low, high] = exponents.map((m) => {
    const ratio = secondLevel ** (-1 / m);
    return (first.mean - ratio * second.mean) / (1 - ratio);
  }) as [number, number];
  const shape = Math.abs(high - low) / Math.sqrt(12);
  // The noise of one block is a fifth of the first level; between the levels the load rises by (secondLevel − 1) times it.
  const perNewton = Math.abs(first.mean - second.mean) / ((secondLevel - 1) * threshold);
  const middle = secondLevel ** (-2 / (exponents[0] + exponents[1]));
  const noise = (perNewton * threshold) / 5 / (1 - middle);
  return { timeS: firstS, hubHeightM: (low + high) / 2, uncertaintyM: Math.hypot(shape, noise, first.standardError, second.standardError) };
}

/** Time at which the block mean of a channel rises through a level for good; NaN when it does not. */
function risesThrough(timed: Timed, level: number, fromS: number, toS: number): number {
  const step = blockS / 4;
  let before = meanOver(timed.time, timed.samples, fromS - blockS / 2, fromS + blockS / 2).mean;
  for (let at = fromS + step; at < toS; at += step) {
    const here = meanOver(timed.time, timed.samples, at - blockS / 2, at + blockS / 2).mean;
    const later = meanOver(timed.time, timed.samples, at + blockS / 2, at + 3 * blockS).mean;
    if (here > level && later > level) return before < level ? at - step + (step * (level - before)) / (here - before) : at;
    before = here;
  }
  return Number.NaN;
}

function heightAt(hub: Timed, timeS: number): { mean: number; standardError: number } {
  const from = indexAt(hub.time, timeS - blockS / 2);
  const to = indexAt(hub.time, timeS + blockS / 2);
  const present = Array.from(hub.samples.subarray(from, to)).filter((value) => !Number.isNaN(value));
  const mean = present.reduce((sum, value) => sum + value, 0) / present.length;
  // Lowering within the block widens the spread a little: an honest over-estimate.
  return { mean, standardError: present.length > 1 ? standardDeviation(present) / Math.sqrt(present.length) : 0 };
}
