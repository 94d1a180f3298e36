import { undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import type { DropEvents } from "../conditioning/dropEvents.ts";
import type { DropSignal } from "../conditioning/dropSignal.ts";
import { heightAgainstPath, restHeight } from "./heightAgainstPath.ts";
import { airDeceleration, reboundHeight } from "./reboundHeight.ts";
import { restitutionFromHeights } from "./restitution.ts";
import { fromDetermined } from "./fromDetermined.ts";

/** What the height channel says about a drop; null where it says nothing. */
export interface HeightReadings {
  readonly drop: Estimate<"m"> | null;
  /** downwards */
  readonly impact: Estimate<"m/s"> | null;
  /** upwards */
  readonly rebound: Estimate<"m/s"> | null;
  readonly restitution: Estimate<"1">;
  readonly findings: readonly Finding[];
}

/**
 * Drop height, speeds before and after the first contact, and the restitution from heights, from the height channel.
 * Speeds from the second half of the fall and from lift-off to three quarters of the rise, where the guide's friction keeps
 * one direction. [m], [m/s], [1].
 *
 * @param signal the zeroed acceleration and the height channel
 * @param events its events
 * @param leavingSpeed speed at lift-off from the first flight [m/s], to find its apex
 * @returns      the readings; restitution undetermined without a channel or a flight
 * @source       kinematics
 * @checked      tests/processing/measures/dropMeasures.test.ts
 */
export function heightReadings(signal: DropSignal, events: DropEvents, leavingSpeed: number): HeightReadings {
  const { height } = signal;
  if (height === null) return { drop: null, impact: null, rebound: null, restitution: undetermined("1", "no dropHeight channel was recorded"), findings: [] };
  const touch = events.fall.to.timeS;
  const half = (touch - events.fall.from.timeS) / 2;
  const before = heightAgainstPath(signal, height, touch - half, touch, { instant: events.fall.to, acceleration: events.fall.touching }, "before contact 1");
  const drop = restHeight(signal, height);
  const impact = fromDetermined([before.speed], (v) => -v, "m/s", before.speed.method);
  const findings = touchFinding(before.height);
  const flight = events.flights[0];
  if (flight === undefined) return { drop, impact, rebound: null, restitution: undetermined("1", "the wheel did not leave the ground after first touch, or the log ends in the flight"), findings };
  const apex = reboundHeight(signal, height, flight, leavingSpeed);
  const leave = flight.from.timeS;
  const after = heightAgainstPath(signal, height, leave, leave + 0.75 * (apex.apexS - leave), { instant: flight.from, acceleration: flight.leaving }, "after lift-off 1");
  const risen = fromDetermined([apex.height, after.height], (top, bottom) => top - bottom, "m", "apex above lift-off");
  const rise = airDeceleration(signal, leave, apex.apexS, "rise of flight 1");
  const fall = airDeceleration(signal, touch - half, touch, "second half of the fall");
  return { drop, impact, rebound: after.speed, restitution: restitutionFromHeights(risen, drop, rise, fall), findings };
}

/** The channel is zero at first touch by its definition; the contact that the accelerometer shows must agree. */
function touchFinding(touch: Estimate<"m">): Finding[] {
  if (touch.standardUncertainty === null) return [];
  const limit = Math.max(3 * touch.standardUncertainty, 0.0005);
  if (Math.abs(touch.value) <= limit) return [];
  return [finding("touch-height", "look", `The accelerometer shows first touch when the height channel reads ${(1000 * touch.value).toFixed(2)} mm; it should read 0. Look at the height's zero and at the clocks`, { channel: "dropHeight", measured: Math.abs(touch.value), limit })];
}
