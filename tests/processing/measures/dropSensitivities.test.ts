import { describe, expect, test } from "vitest";
import { estimateFrom } from "../../../src/core/estimate.ts";
import type { Estimate } from "../../../src/core/estimate.ts";
import { dropEvents } from "../../../src/processing/conditioning/dropEvents.ts";
import type { Contact, DropEvents, Flight, Instant } from "../../../src/processing/conditioning/dropEvents.ts";
import { dropSignal } from "../../../src/processing/conditioning/dropSignal.ts";
import type { DropSignal } from "../../../src/processing/conditioning/dropSignal.ts";
import { impactSpeed } from "../../../src/processing/measures/impactSpeed.ts";
import { flightSpeed, reboundSpeed, returnSpeed, riseOfFlight } from "../../../src/processing/measures/reboundSpeed.ts";
import { restitutionFromVelocities } from "../../../src/processing/measures/restitution.ts";
import { timedSpeeds } from "../../../src/processing/measures/timedSpeeds.ts";
import { velocityChange } from "../../../src/processing/measures/velocityChange.ts";
import { agrees } from "../../helpers/agrees.ts";
import { shapedDrop } from "../shapedDrop.ts";

// a long pulse, so that the wheel leaves well below where it touched and all effects are large
const run = shapedDrop({ heightM: 0.1, restitution: 0.7, pulseS: 0.03, rateHz: 20_000 });
const signal = dropSignal(run).signal as DropSignal;
const events = dropEvents(signal).events as DropEvents;
const source = "the same evaluation done again with its cause moved: JCGM 100:2008, 5.1.3 note 2";

/** All speeds and ratios; `further`: by how much more the first flight rises than thought. */
function evaluate(data: DropSignal, { contacts, flights, fall }: DropEvents, further = 0): Readonly<Record<string, Estimate>> {
  const [one, two] = flights as [Flight, Flight];
  const happened = { contacts, flights, fall } as DropEvents;
  const impact = impactSpeed(data, happened);
  const change = velocityChange(data, happened, false);
  const first = riseOfFlight(data, contacts[0] as Contact, impact);
  const rise = { ...first, value: first.value + further };
  const leaving = flightSpeed(data, { flight: one, index: 1, rise });
  const before = returnSpeed(data, { flight: one, index: 1, rise });
  const second = riseOfFlight(data, contacts[1] as Contact, before);
  const after = flightSpeed(data, { flight: two, index: 2, rise: second });
  const timed = timedSpeeds(data, happened, estimateFrom(0.1, "m", "set", []), impact, leaving);
  return { impact, change, rebound: reboundSpeed(impact, change), first, leaving, before, second, after, byFlight: restitutionFromVelocities(leaving, impact, ""), bySecond: restitutionFromVelocities(after, before, ""), timedImpact: timed.impact, timedRebound: timed.rebound };
}

const plain = evaluate(signal, events);
const effectOf = (name: string, cause: string, from = plain): number => (from[name] as Estimate).budget.find((row) => row.cause.startsWith(cause))?.effect ?? 0;

/** Holds the row of a cause against what the results do when it moves by one standard uncertainty, up or down. */
function holdsRows(cause: string, moved: Readonly<Record<string, Estimate>>, names: readonly string[], direction: 1 | -1 = 1, slack = 2e-8, from = plain): void {
  for (const name of names) {
    const change = direction * ((moved[name] as Estimate).value - (from[name] as Estimate).value);
    agrees(effectOf(name, cause, from), { expected: change, within: 0.03 * Math.abs(change) + slack, source: `${name}, ${cause}: ${source}` });
  }
}

/** All samples higher by so much, integrated anew. */
function raised(by: number): DropSignal {
  const after = (i: number): number => Math.max(0, (signal.timesS[i] as number) - signal.rest.toS);
  return { ...signal, acceleration: signal.acceleration.map((value) => value + by), speed: signal.speed.map((value, i) => value + by * after(i)), path: signal.path.map((value, i) => value + (by * after(i) ** 2) / 2) };
}

/** The events with one instant moved by so much. */
function moved(cause: string, byS: number): DropEvents {
  const at = <I extends Instant | null>(instant: I): I => (instant?.cause === cause ? { ...instant, timeS: instant.timeS + byS } : instant);
  const flights = events.flights.map((flight) => ({ ...flight, from: at(flight.from), to: at(flight.to) }));
  return { ...events, flights, fall: { ...events.fall, to: at(events.fall.to) }, contacts: events.contacts.map((contact) => ({ from: at(contact.from), to: at(contact.to) })) };
}

const doubtOf = (cause: string): number => events.flights.flatMap(({ from, to }) => [from, to]).find((instant) => instant.cause === cause)?.uncertaintyS ?? Number.NaN;

describe("rows of a drop's budget have the size and the sign of what their cause does", () => {
  test("a zero that is off moves a fall and a contact in opposite ways: it all but drops out of a ratio of flight and fall", () => {
    holdsRows("zero of the acceleration", evaluate(raised(signal.zeroUncertainty), events), ["impact", "change", "rebound", "first", "leaving", "before", "second", "after", "byFlight", "bySecond", "timedImpact", "timedRebound"]);
    const [fall, flight] = [effectOf("impact", "zero"), effectOf("leaving", "zero")];
    expect(fall).toBeLessThan(0);
    expect(flight).toBeLessThan(0);
    expect(Math.abs(effectOf("byFlight", "zero"))).toBeLessThan(0.5 * Math.abs(fall / (plain["impact"] as Estimate).value));
  });

  test("how far the wheel comes back to its shape in the first flight goes into the speed of its return and into the height of the next lift-off", () => {
    const row = (plain["leaving"] as Estimate).budget.find((one) => one.cause.startsWith("height at lift-off 1"));
    expect(row?.shape).toBe("rectangular");
    const further = (plain["first"] as Estimate).value / Math.sqrt(3);
    holdsRows("height at lift-off 1", evaluate(signal, events, further), ["leaving", "before", "second", "after", "bySecond"]);
    // on its own the return would move the ratio by much more
    expect(Math.abs(effectOf("bySecond", "height at lift-off 1"))).toBeLessThan(0.6 * Math.abs(effectOf("before", "height at lift-off 1") / (plain["before"] as Estimate).value));
  });

  // each from two samples inside the flight further into it, where the acceleration is even: these contacts end in a jump
  test.each([["time of lift-off 1", 1], ["time of contact 2", -1], ["time of lift-off 2", 1], ["time of contact 3", -1]] as const)("%s", (cause, direction) => {
    // the rows take a flight's path as that of a flight from level to level: off by the rise over it, here a thirtieth
    const slack = 0.05 * 9.81 * (events.flights[0] as Flight).to.uncertaintyS;
    const inside = 2 * signal.intervalS * direction;
    holdsRows(cause, evaluate(signal, moved(cause, inside + direction * doubtOf(cause))), ["leaving", "before", "second", "after", "bySecond"], direction, slack, evaluate(signal, moved(cause, inside)));
  });

  test("a height at lift-off that is itself doubtful is doubtful by the root of its mean square: one that came out as nothing keeps its doubt", () => {
    const [, two] = events.flights as unknown as [Flight, Flight];
    const doubt = 0.002;
    const rise = estimateFrom(0, "m", "given", [{ cause: "given", effect: doubt, sharedBy: null, degreesOfFreedom: Infinity }]);
    const row = flightSpeed(signal, { flight: two, index: 2, rise }).budget.find((one) => one.cause.startsWith("height at lift-off 2"));
    agrees(Math.abs(row?.effect ?? 0), { expected: doubt / Math.sqrt(3) / (two.to.timeS - two.from.timeS), relative: 1e-9, source: "E[r²] = r̂² + u²(r), half-width of a rectangle, over the flight's duration" });
  });

  test("a contact without an end has no rise", () => {
    expect(riseOfFlight(signal, { ...(events.contacts[0] as Contact), to: null }, plain["impact"] as Estimate<"m/s">).method).toContain("stays on the ground");
  });
});
