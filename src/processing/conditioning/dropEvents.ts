import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import type { Segment } from "../../core/segment.ts";
import { median } from "../../numerics/statistics.ts";
import type { DropSignal } from "./dropSignal.ts";
import { contactEdge } from "./contactEdge.ts";
import { crossing } from "./crossing.ts";

/** Shortest flight that is told from a dip of the ringing [s]. */
const shortestFlightS = 0.002;
/** A stretch counts as flight when its median reaches this share of the fall's acceleration: a ringing that just keeps contact has a median of at most 0.87. */
const flightShare = 0.9;
/** Something struck the hub on its way down when this share of the downward speed is left after it: the ground stops a fall. */
const passedOn = 0.2;
/** A touch that changes the speed by less than this share of the impact speed is ringing within a flight, not a contact. */
const leastTouch = 0.05;

/** A point in time found in the data. Its cause names it in budgets, so that everything that hangs on it moves together. */
export interface Instant {
  readonly timeS: number;
  readonly uncertaintyS: number;
  readonly cause: string;
}

/** The hub in the air, from leaving to touching. */
export interface Flight {
  readonly from: Instant;
  readonly to: Instant;
  /** acceleration just after leaving and just before touching [m/s²]; guide friction makes them differ */
  readonly leaving: number;
  readonly touching: number;
}

/** The wheel on the ground; `to` is null when it stays there. */
export interface Contact {
  readonly from: Instant;
  readonly to: Instant | null;
}

export interface DropEvents {
  /** from release to first touch */
  readonly fall: Flight;
  readonly contacts: readonly Contact[];
  readonly flights: readonly Flight[];
  /** from the last moment the wheel may have been off the ground to the end of the log */
  readonly settling: { readonly fromS: number; readonly toS: number };
  readonly segments: readonly Segment[];
  readonly findings: readonly Finding[];
}

/**
 * Release, contacts and flights, from the acceleration alone: in the air it lies at about −g, on the ground above.
 * Touching and leaving are where the acceleration starts to climb from, or has come down to, the level of the flight beside
 * it; the climb is followed back in a straight line.
 *
 * @returns null and the reason as a finding, when the log shows no first touch
 */
export function dropEvents(signal: DropSignal): { readonly events: DropEvents | null; readonly findings: readonly Finding[] } {
  const margin = Math.max(0.1 * signal.gravity, 6 * signal.smoothNoise);
  if (margin > 0.4 * signal.gravity) {
    return { events: null, findings: [finding("noise-hides-contact", "reject", `The acceleration at rest scatters by ${signal.noise.toFixed(2)} m/s²; against that, free fall cannot be told from contact. Look for a loose cable, or take a sensor of smaller range`, { channel: "hubAcceleration", measured: signal.smoothNoise, limit: (0.4 / 6) * signal.gravity })] };
  }
  const stretches = lowStretches(signal);
  const first = stretches[0];
  if (first === undefined || first.to >= signal.smooth.length) {
    return { events: null, findings: [finding("no-contact", "reject", "The log ends, or samples are missing, before the wheel touches the ground. Make the log longer", { channel: "hubAcceleration" })] };
  }
  const down = wholeFall(signal, stretches, margin);
  const [fall, ...flights] = sharpened(signal, [down.fall, ...laterFlights(signal, stretches.slice(down.used), down.fall, margin)]);
  const contacts = [fall, ...flights].map((before, index): Contact => ({ from: before.to, to: flights[index]?.from ?? null }));
  const settling = { fromS: lastLow(signal, fall), toS: signal.timesS[signal.timesS.length - 1] as number };
  const events: DropEvents = { fall, contacts, flights, settling, segments: segmentsOf(signal, fall, contacts, flights, settling.toS), findings: [] };
  return { events, findings: down.findings };
}

/** The fall to the ground, past anything that struck the hub on the way without stopping it. */
function wholeFall(signal: DropSignal, stretches: readonly Stretch[], margin: number): { readonly fall: Flight; readonly used: number; readonly findings: readonly Finding[] } {
  let fall = flightOf(signal, stretches[0] as Stretch, margin, "release", "contact 1");
  const findings: Finding[] = [];
  let used = 1;
  for (const stretch of stretches.slice(1)) {
    const next = flightOf(signal, stretch, margin, "release", "contact 1");
    const before = speedAt(signal, fall.to.timeS);
    const left = speedAt(signal, next.from.timeS);
    // A peak cut off at the range loses impulse and would look the same.
    if (!(left < passedOn * before) || samplesAtRange(signal, fall.to.timeS, next.from.timeS) > 0) break;
    findings.push(finding("struck-in-fall", "reject", `Something struck or held the hub during the fall: its speed changed from ${Math.abs(before).toFixed(3)} to ${Math.abs(left).toFixed(3)} m/s and it fell on. Look at the guide and the release, and repeat`, { channel: "hubAcceleration", fromS: fall.to.timeS, toS: next.from.timeS, measured: left / before, limit: passedOn }));
    fall = { from: fall.from, to: next.to, leaving: fall.leaving, touching: next.touching };
    used++;
  }
  return { fall, used, findings };
}

/** Samples of a stretch at the end of the sensor's range; 0 where no range is stated. */
export function samplesAtRange(signal: DropSignal, fromS: number, toS: number): number {
  const { range } = signal;
  if (range === null) return 0;
  const slack = 1e-6 * (range[1] - range[0]);
  let count = 0;
  signal.acceleration.forEach((value, i) => {
    const timeS = signal.timesS[i] as number;
    if (timeS >= fromS && timeS < toS && (value >= range[1] - slack || value <= range[0] + slack)) count++;
  });
  return count;
}

interface Stretch {
  readonly from: number;
  readonly to: number;
}

/** Stretches below −g/2 from the rest on, the fall first. */
function lowStretches(signal: DropSignal): Stretch[] {
  const { smooth, timesS, gravity, rest } = signal;
  const found: Stretch[] = [];
  let start = -1;
  for (let i = 0; i <= smooth.length; i++) {
    const low = i < smooth.length && (timesS[i] as number) >= rest.toS && (smooth[i] as number) < -gravity / 2;
    if (low && start < 0) start = i;
    if (!low && start >= 0) {
      const needed = found.length === 0 ? 0.01 : shortestFlightS;
      if ((timesS[i - 1] as number) - (timesS[start] as number) >= needed) found.push({ from: start, to: i });
      start = -1;
    }
  }
  return found;
}

function flightOf(signal: DropSignal, stretch: Stretch, margin: number, leaving: string, touching: string): Flight {
  const length = stretch.to - stretch.from;
  const early = level(signal, stretch.from + 0.1 * length, stretch.from + 0.4 * length);
  const late = level(signal, stretch.from + 0.6 * length, stretch.from + 0.9 * length);
  return {
    from: { ...crossing(signal, stretch.from, -1, early, margin), cause: `time of ${leaving}` },
    to: { ...crossing(signal, stretch.to - 1, 1, late, margin), cause: `time of ${touching}` },
    leaving: early,
    touching: late,
  };
}

function level(signal: DropSignal, from: number, to: number): number {
  const start = Math.floor(from);
  return median(signal.smooth.subarray(start, Math.max(start + 1, Math.ceil(to))));
}

function laterFlights(signal: DropSignal, stretches: readonly Stretch[], fall: Flight, margin: number): Flight[] {
  const impactSpeed = Math.abs(speedAt(signal, fall.to.timeS));
  const flights: Flight[] = [];
  for (const stretch of stretches) {
    if (level(signal, stretch.from, stretch.to) > flightShare * fall.touching) continue;
    const n = flights.length + 1;
    const flight = flightOf(signal, stretch, margin, `lift-off ${n}`, `contact ${n + 1}`);
    if (flight.to.timeS - flight.from.timeS < shortestFlightS) continue;
    const before = flights.at(-1) ?? fall;
    const change = speedAt(signal, flight.from.timeS) - speedAt(signal, before.to.timeS);
    if (flights.length > 0 && change < leastTouch * impactSpeed) {
      // Ringing of the wheel in the air: the flight goes on.
      const merged: Flight = { ...before, to: { ...flight.to, cause: before.to.cause }, touching: flight.touching };
      flights[flights.length - 1] = merged;
      continue;
    }
    flights.push(flight);
  }
  // A flight that the log cuts off has no touch to end it.
  return flights.filter((flight) => flight.to.timeS < (signal.timesS[signal.timesS.length - 1] as number) - 2 * signal.intervalS);
}

/** Share of a contact over which its push rises or fades straight. */
const edgeShare = 0.05;

/** Fall and flights with their touches and lift-offs closer than the smoothing shows them; the release stays as found. */
function sharpened(signal: DropSignal, found: readonly [Flight, ...Flight[]]): [Flight, ...Flight[]] {
  const lasts = (i: number): number => (found[i + 1] as Flight).from.timeS - (found[i] as Flight).to.timeS;
  const [fall, ...flights] = found.map((flight, i): Flight => ({
    ...flight,
    from: i === 0 ? flight.from : contactEdge(signal, flight.from, flight.leaving, edgeShare * lasts(i - 1), -1),
    to: contactEdge(signal, flight.to, flight.touching, i + 1 < found.length ? edgeShare * lasts(i) : 0, 1),
  }));
  return [fall as Flight, ...flights];
}

/** ∫a dt from the rest to a time [m/s]. */
export function speedAt(signal: DropSignal, timeS: number): number {
  const { i, since } = besideFlight(signal, timeS);
  return (signal.speed[i] as number) + (signal.acceleration[i] as number) * since;
}

/** ∫∫a dt² from the rest to a time [m]. */
export function pathAt(signal: DropSignal, timeS: number): number {
  const { i, since } = besideFlight(signal, timeS);
  return (signal.path[i] as number) + (signal.speed[i] as number) * since + ((signal.acceleration[i] as number) * since ** 2) / 2;
}

/** Of the two samples around a time the one of lower acceleration: beside a touch or a lift-off that is the flight's, and what jumps in contact does not reach into it. */
function besideFlight({ timesS, acceleration }: DropSignal, timeS: number): { readonly i: number; readonly since: number } {
  let low = 0;
  let high = timesS.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >>> 1;
    if ((timesS[middle] as number) <= timeS) low = middle;
    else high = middle;
  }
  const i = (acceleration[high] as number) < (acceleration[low] as number) ? high : low;
  return { i, since: timeS - (timesS[i] as number) };
}

/** Last time the acceleration comes near −g: after it the ground carries the wheel without a break. */
function lastLow(signal: DropSignal, fall: Flight): number {
  for (let i = signal.smooth.length - 1; i >= 0; i--) {
    const timeS = signal.timesS[i] as number;
    if (timeS <= fall.to.timeS) break;
    if ((signal.smooth[i] as number) <= flightShare * fall.touching) return timeS;
  }
  return fall.to.timeS;
}

function segmentsOf(signal: DropSignal, fall: Flight, contacts: readonly Contact[], flights: readonly Flight[], endS: number): Segment[] {
  const ms = (from: number, to: number): string => `${((to - from) * 1000).toFixed(1)} ms`;
  return [
    signal.rest,
    { kind: "freeFall", fromS: fall.from.timeS, toS: fall.to.timeS, reason: `acceleration at ${fall.touching.toFixed(2)} m/s² for ${ms(fall.from.timeS, fall.to.timeS)}, from the release to the first touch` },
    ...contacts.map((contact, index): Segment => {
      const toS = contact.to?.timeS ?? endS;
      const reason = contact.to === null ? `contact ${index + 1}: the acceleration rises from free fall and the wheel stays on the ground` : `contact ${index + 1}: the acceleration rises from free fall and returns to it after ${ms(contact.from.timeS, toS)}`;
      return { kind: "contact", fromS: contact.from.timeS, toS, reason };
    }),
    ...flights.map((flight, index): Segment => ({ kind: "flight", fromS: flight.from.timeS, toS: flight.to.timeS, reason: `flight ${index + 1}: acceleration at free fall for ${ms(flight.from.timeS, flight.to.timeS)}` })),
  ];
}
