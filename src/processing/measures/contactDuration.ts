import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import type { Instant } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import { timeRow } from "./dropRows.ts";

/**
 * Duration of the first contact, from first touch to lift-off.
 *
 *   t_c = t₂ − t₁
 *
 * [s]. Unlike the pulse's duration at 10 % of its peak it hangs on no filter, but on two instants that are harder to see.
 *
 * @param signal the zeroed acceleration
 * @param touch  first touch
 * @param end    lift-off; null when the wheel stays on the ground
 * @returns      t_c; undetermined without a lift-off
 * @source       definition
 * @checked      tests/processing/measures/dropContact.test.ts
 */
export function contactDuration(signal: DropSignal, touch: Instant, end: Instant | null): Estimate<"s"> {
  if (end === null) return undetermined("s", "the wheel did not leave the ground after first touch, so the contact has no end");
  return estimateFrom(end.timeS - touch.timeS, "s", "from first touch to lift-off", [timeRow(signal, touch, -1), timeRow(signal, end, 1)]);
}
