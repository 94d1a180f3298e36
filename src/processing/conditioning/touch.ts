import { indexAt, sampleCount, timeAt } from "../../core/recording.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import { mean, standardDeviation } from "../../numerics/statistics.ts";
import type { Timed } from "./window.ts";

/** First touch of wheel and ground while the wheel is lowered: where sinkage is counted from. */
export interface Touch {
  readonly timeS: number;
  readonly hubHeightM: number;
  /** standard uncertainty that the unknown shape of the first contact leaves: rectangular */
  readonly shapeM: number;
  /** what the noise leaves */
  readonly noiseM: number;
  readonly noiseDegreesOfFreedom: number;
}

/** Samples are averaged over about this length [s] first; a slower logger's stand as they are. */
const blockS = 0.01;
/** Standard deviations of a block before touch that a load must pass to count as clear of its zero. */
const clear = 5;
/** Blocks in a row that must be clear, so that no single spike is a touch. */
const inARow = 5;
/** How far the first rise is followed: this many times the clear load, and at least so many blocks. */
const follow = 4;
const fewestRising = 8;
/** Share of the heights' scatter that the load explains, above which the hub follows the load clear of its own noise. */
const hubFollows = 0.9;
/** Exponents of load over indentation between which first contact lies: a straight spring, and soft soil (common practice). */
const exponents = [1, 2] as const;

/** Mean load and hub height over a short time; NaN where missing. */
interface Block {
  readonly timeS: number;
  readonly load: number;
  readonly height: number;
}

/**
 * The hub's height at first touch, carried back from the first loads that stand clear of the zero's noise.
 *
 *   W = k (h₀ − h)^m   →   h = h₀ − a W^(1/m): straight line of W^(1/m) over h, read where W = 0
 *
 * When the load is first noticed the wheel has already gone in a little. The exponent m is not known; the heights for
 * m = 1 and m = 2 bound the touch, their middle is taken and their distance is the width of a rectangular distribution.
 *
 * @returns the touch, or a reason when the load never rises, or the hub height is missing there
 */
export function firstTouch(load: Timed, hub: Timed, quietToS: number, beforeS: number): Touch | { readonly reason: string } {
  const blocks = blocksOf(load, hub, beforeS);
  const quiet = blocks.filter((block) => block.timeS < quietToS && !Number.isNaN(block.load)).map((block) => block.load);
  if (quiet.length < 2) return { reason: "the vertical load is missing during the zero block" };
  const threshold = clear * standardDeviation(quiet);
  const first = firstClear(blocks, threshold, quietToS);
  if (first === -1) return { reason: "the vertical load never rises clear of its zero before the wheel starts" };
  const rising: Block[] = [];
  for (const block of blocks.slice(first)) {
    if (block.load > follow * threshold && rising.length >= fewestRising) break;
    if (block.load > 0 && !Number.isNaN(block.height)) rising.push(block);
  }
  if (rising.length < fewestRising || rising.every((block) => block.load === rising[0]?.load)) return { reason: "the hub height is missing at first touch, or the load stands still there" };
  const read = exponents.map((m) => readAtZero(rising, m));
  const [low, high] = read.map((one) => one.heightM) as [number, number];
  const shape = Math.abs(high - low) / Math.sqrt(12);
  // The better line's own scatter is that of the samples; the other's holds its misfit as well.
  const noiseM = Math.min(...read.map((one) => one.standardError));
  return { timeS: (blocks[first] as Block).timeS, hubHeightM: (low + high) / 2, shapeM: shape, noiseM, noiseDegreesOfFreedom: rising.length - 2 };
}

/**
 * Noise in the abscissa flattens a line, so the noisier of the two is the ordinate: the load, clear of its noise by a few
 * times only, unless the hub hardly sinks while the load rises (a rigid wheel on a hard floor); then the height is.
 */
function readAtZero(rising: readonly Block[], m: number): { readonly heightM: number; readonly standardError: number } {
  const loads = rising.map((block) => block.load ** (1 / m));
  const heights = rising.map((block) => block.height);
  const overLoad = lineFit(loads, heights);
  if (!(overLoad.rSquared > hubFollows)) return { heightM: overLoad.intercept, standardError: Math.sqrt(overLoad.covariance[0][0]) };
  const middle = mean(heights);
  const { intercept, slope, covariance } = lineFit(heights.map((height) => height - middle), loads);
  const [[aa, ab], [, bb]] = covariance;
  const below = -intercept / slope;
  return { heightM: middle + below, standardError: Math.sqrt(Math.max(0, aa + 2 * below * ab + below ** 2 * bb)) / Math.abs(slope) };
}

function blocksOf(load: Timed, hub: Timed, beforeS: number): Block[] {
  const end = Math.min(indexAt(load.time, beforeS), sampleCount(load.time));
  const size = Math.max(1, indexAt(load.time, timeAt(load.time, 0) + blockS));
  const blocks: Block[] = [];
  for (let i = 0; i + size <= end; i += size) {
    const times = Array.from({ length: size }, (_, k) => timeAt(load.time, i + k));
    blocks.push({ timeS: mean(times), load: mean(Array.from(load.samples.subarray(i, i + size))), height: mean(times.map((timeS) => heightAt(hub, timeS))) });
  }
  return blocks;
}

/** First of several blocks in a row above a level; −1 when there is none. */
function firstClear(blocks: readonly Block[], level: number, fromS: number): number {
  let run = 0;
  for (const [i, block] of blocks.entries()) {
    if (block.timeS < fromS || Number.isNaN(block.load)) continue;
    run = block.load > level ? run + 1 : 0;
    if (run === inARow) return i - inARow + 1;
  }
  return -1;
}

/** Hub height at a time, on a straight line between its samples; NaN beside a missing one. */
function heightAt(hub: Timed, timeS: number): number {
  const after = Math.min(Math.max(1, indexAt(hub.time, timeS)), sampleCount(hub.time) - 1);
  const [t0, t1] = [timeAt(hub.time, after - 1), timeAt(hub.time, after)];
  const share = (timeS - t0) / (t1 - t0);
  // At the very time of a sample that one stands alone, whatever its neighbour is.
  if (share === 1) return hub.samples[after] as number;
  return (hub.samples[after - 1] as number) * (1 - share) + (hub.samples[after] as number) * share;
}
