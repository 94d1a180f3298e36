import { lineFit } from "../../numerics/lineFit.ts";
import type { ClockEvent } from "./events.ts";

/** What brings one clock onto another: common = offset + rate · own. */
export interface ClockLine {
  readonly offsetS: number;
  readonly rate: number;
  readonly offsetUncertaintyS: number;
  /** null = not determined */
  readonly rateUncertainty: number | null;
}

/**
 * The line through events that two clocks both saw.
 *
 *   t_common = a + b · t_own        u(b) = max(u_scatter, u / √Σ(t − t̄)²)        u = √(Δ₁² + Δ₂²) / √12
 *
 * [s]; b [–]. An edge lies somewhere within one sampling interval Δ of either logger (rectangular). With two events the line passes
 * through both; with more it is that of least squares, and their scatter counts where it is the larger.
 *
 * @param there  the events on the common clock, at least two
 * @param here   the same events on the other clock, in the same order
 * @returns      offset and rate; the offset's uncertainty is that at the first event
 * @source       least squares; rectangular distribution, JCGM 100:2008, 4.3.7
 * @checked      tests/processing/conditioning/align.test.ts
 */
export function clockLine(there: readonly ClockEvent[], here: readonly ClockEvent[]): ClockLine {
  const u = eventUncertainty(there[0] as ClockEvent, here[0] as ClockEvent);
  const own = here.map((event) => event.timeS);
  const common = there.map((event) => event.timeS);
  const middle = own.reduce((sum, time) => sum + time, 0) / own.length;
  const edges = u / Math.sqrt(own.reduce((sum, time) => sum + (time - middle) ** 2, 0));
  if (own.length === 2) {
    const [x0, x1] = own as [number, number];
    const [y0, y1] = common as [number, number];
    const rate = (y1 - y0) / (x1 - x0);
    return { offsetS: y0 - rate * x0, rate, offsetUncertaintyS: u, rateUncertainty: edges };
  }
  const fit = lineFit(own, common);
  return { offsetS: fit.intercept, rate: fit.slope, offsetUncertaintyS: u, rateUncertainty: Math.max(edges, Math.sqrt(fit.covariance[1]?.[1] ?? 0)) };
}

/**
 * One event that two clocks both saw: the offset there, and nothing about the rate but a stated bound.
 *
 *   b = 1        u(b) = bound · 10⁻⁶ / √3
 *
 * @param there      the event on the common clock
 * @param here       the event on the other clock
 * @param boundPpm   how far the two clocks' rates may differ, either way; undefined = not stated
 * @returns          the offset; the rate's uncertainty is null without a bound
 * @source           rectangular distribution, JCGM 100:2008, 4.3.7
 * @checked          tests/processing/conditioning/alignByTrigger.test.ts
 */
export function clockOffset(there: ClockEvent, here: ClockEvent, boundPpm: number | undefined): ClockLine {
  return { offsetS: there.timeS - here.timeS, rate: 1, offsetUncertaintyS: eventUncertainty(there, here), rateUncertainty: boundPpm === undefined ? null : (boundPpm * 1e-6) / Math.sqrt(3) };
}

function eventUncertainty(a: ClockEvent, b: ClockEvent): number {
  return Math.hypot(a.intervalS, b.intervalS) / Math.sqrt(12);
}
