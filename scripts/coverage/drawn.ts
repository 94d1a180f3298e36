import { dice } from "../demo/dice.ts";
import type { PlannedRun } from "../demo/dayPlan.ts";
import { stated } from "../demo/rigTruth.ts";
import type { DropUnknowns, GridUnknowns, Seating, Unknowns } from "../demo/unknowns.ts";
import { wheels } from "../demo/wheelTruth.ts";
import type { WheelTruth } from "../demo/wheelTruth.ts";

/**
 * Coverage is an average over what the doubts allow, so each made day draws it: the power of the first touch between a
 * straight spring and the square of the indentation, a zero that leaves the straight line by up to a quarter of its drift,
 * a speed ripple at any point of its cycle.
 */
export function drawnUnknowns(seed: number, run: PlannedRun): Unknowns {
  const random = dice(seed, `unknowns ${run.id}`);
  const between = (low: number, high: number): number => low + (high - low) * random.uniform();
  return { touchPower: between(1, 2), driftBend: Array.from({ length: 6 }, () => between(-0.25, 0.25)), ripple: { rateRadS: between(3, 8), phaseRad: between(0, 2 * Math.PI) } };
}

/** A wheel of the demo day whose rolling radius takes any share of its deflection. */
export function drawnWheel(seed: number, id: string | null): WheelTruth | undefined {
  const wheel = wheels.find((candidate) => candidate.id === id);
  return wheel === undefined ? undefined : { ...wheel, radiusShare: dice(seed, `radius share ${wheel.id}`).uniform() };
}

/** The first contact of a press or a shear box, alike in all runs of a day: a force that sets in along the way to the power 0.5 … 1.3, until it is clear of the sensor's noise; a shear box with up to 0.2 mm of play and, run by run, the normal force's zero as its stated doubt has it. */
export function drawnSeating(seed: number, { id, kind }: PlannedRun): Seating {
  return { power: 0.5 + 0.8 * dice(seed, `seating ${kind}`).uniform(), untilN: kind === "shear" ? 1.2 : 6, playM: kind === "shear" ? 2e-4 * dice(seed, "play").uniform() : 0, normalZeroN: stated.shearOffsetN * dice(seed, `normal zero ${id}`).normal() };
}

/** A cell's size as its stated doubt has it, alike in all footprints of a day; a wheel set down anywhere within a pixel. */
export function drawnGrid(seed: number, { id, footprint }: PlannedRun): GridUnknowns {
  const place = dice(seed, `place ${id}`);
  return { cellShare: 1 + (footprint?.from === "pad" ? stated.padCell : stated.photoPixel) * dice(seed, `cell size ${footprint?.from}`).normal(), placeCells: [place.uniform(), place.uniform()] };
}

/** The zero of the height channel as its stated doubt has it; a wheel that comes down again with any share of its compression at lift-off, or as much stretched. */
export function drawnDrop(seed: number, id: string): DropUnknowns {
  const random = dice(seed, `drop unknowns ${id}`);
  return { heightZeroM: (stated.dropHeightOffsetMm / 1000) * random.normal(), stillIn: [1, 2].map(() => 2 * random.uniform() - 1) };
}
