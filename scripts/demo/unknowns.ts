/**
 * What no recording of a rolling run shows, and what the results' doubts therefore allow for. The demo day keeps one
 * choice; the coverage days draw from what the doubts allow.
 */
export interface Unknowns {
  /** a standing wheel's load goes with this power of its sinkage; null = what the soil's own law gives */
  readonly touchPower: number | null;
  /** share of its drift by which the zero of each sensor output leaves the straight line in between */
  readonly driftBend: readonly number[];
  /** the drive's slow speed ripple: rate [rad/s], and where in its cycle it starts [rad] */
  readonly ripple: { readonly rateRadS: number; readonly phaseRad: number };
}

export const usual: Unknowns = { touchPower: null, driftBend: [0, 0, 0, 0, 0, 0], ripple: { rateRadS: 5.1, phaseRad: 0 } };

/**
 * How a press or a shear box meets its specimen: below `untilN` the force sets in with another power of the way than the
 * specimen's own law, because the surfaces seat. A shear box moves by its play before it takes hold, and
 * nothing shows the zero of its normal force, which rests on it from the start.
 */
export interface Seating {
  readonly power: number;
  readonly untilN: number;
  readonly playM: number;
  readonly normalZeroN: number;
}

/**
 * What a log of a drop does not show: the zero of its height channel [m], and with which share of its compression at
 * lift-off the wheel comes down again, because the ground has given way (above 0) or its rim still swings (either way).
 */
export interface DropUnknowns {
  readonly heightZeroM: number;
  /** of the flights that are measured */
  readonly stillIn: readonly number[];
}

/** What no footprint shows: its cell's true size over the stated one, and where within a pixel a photographed wheel stands. */
export interface GridUnknowns {
  readonly cellShare: number;
  readonly placeCells: readonly [number, number];
}

export const asStated: GridUnknowns = { cellShare: 1, placeCells: [0, 0] };

/** The force of a specimen whose law near contact goes with `lawPower`, seated. */
export function seated(forceN: number, lawPower: number, seating: Seating | null): number {
  return seating === null || forceN >= seating.untilN || forceN <= 0 ? forceN : seating.untilN * (forceN / seating.untilN) ** (seating.power / lawPower);
}
