import { describe, expect, test } from "vitest";
import { dropEvents, speedAt } from "../../../src/processing/conditioning/dropEvents.ts";
import type { DropEvents } from "../../../src/processing/conditioning/dropEvents.ts";
import { dropSignal } from "../../../src/processing/conditioning/dropSignal.ts";
import type { DropSignal } from "../../../src/processing/conditioning/dropSignal.ts";
import { movingMean } from "../../../src/processing/conditioning/movingMean.ts";
import { madeDrop, usual } from "../madeDrop.ts";
import { shapedDrop } from "../shapedDrop.ts";

function found(run: Parameters<typeof dropSignal>[0]): { readonly signal: DropSignal; readonly events: DropEvents } {
  const { signal } = dropSignal(run);
  const events = signal === null ? null : dropEvents(signal).events;
  if (signal === null || events === null) throw new Error("no drop found");
  return { signal, events };
}

describe("events of a drop", () => {
  test("times of touch and lift-off of exact pieces", () => {
    const { signal, events } = found(shapedDrop({ heightM: 0.1, gravity: 9.81, restitution: 0.7, pulseS: 0.01, restS: 0.5 }));
    const fallS = Math.sqrt(0.2 / 9.81);
    const v = Math.sqrt(2 * 9.81 * 0.1);
    // Sampling at 50 kHz: two intervals.
    expect(Math.abs(events.fall.to.timeS - (0.5 + fallS))).toBeLessThan(4e-5);
    expect(Math.abs((events.flights[0]?.from.timeS ?? 0) - (0.51 + fallS))).toBeLessThan(1e-4);
    expect(Math.abs((events.flights[0]?.to.timeS ?? 0) - (0.51 + fallS + (1.4 * v) / 9.81))).toBeLessThan(4e-5);
    expect(events.flights.length).toBe(3);
    expect(events.contacts.length).toBe(4);
    expect(events.contacts.at(-1)?.to).toBeNull();
    expect(speedAt(signal, events.fall.to.timeS)).toBeCloseTo(-v, 2);
  });
  test("event times hold the truth within three of their uncertainties, with noise", () => {
    for (const seed of [1, 2, 3, 4, 5]) {
      const { run, truth } = madeDrop({ ...usual, seed, rateHz: 10000, noise: 1 });
      const { events } = found(run);
      const contact = (events.contacts[0]?.to?.timeS ?? 0) - (events.contacts[0]?.from.timeS ?? 0);
      const u = Math.hypot(events.contacts[0]?.from.uncertaintyS ?? 0, events.contacts[0]?.to?.uncertaintyS ?? 0);
      expect(Math.abs(contact - truth.contactS)).toBeLessThan(3 * u);
      expect(u).toBeLessThan(1e-3);
    }
  });
  test("guide friction shows as different accelerations of rise and fall", () => {
    const { events } = found(madeDrop({ ...usual, friction: 0.8, rateHz: 10000 }).run);
    const [flight] = events.flights;
    expect(flight?.leaving).toBeLessThan(-10.3);
    expect(flight?.touching).toBeGreaterThan(-9.3);
  });
  test("the ringing does not count as flights", () => {
    const { run, truth } = madeDrop({ ...usual, friction: 0, rateHz: 10000, durationS: 3 });
    const { events } = found(run);
    expect(events.flights.length).toBe(truth.flightsS.length);
    expect(events.settling.fromS).toBeGreaterThanOrEqual(events.flights.at(-1)?.to.timeS as number);
  });
  test("noise as large as gravity is refused, not worked through", () => {
    const { signal } = dropSignal(madeDrop({ ...usual, noise: 6, rateHz: 10000 }).run);
    const result = signal === null ? null : dropEvents(signal);
    expect(result?.events ?? null).toBeNull();
    expect(result?.findings[0]?.code).toBe("noise-hides-contact");
  });
  test("the zero comes from the rest, with its standard error", () => {
    const { signal } = found(madeDrop({ ...usual, zero: 9.81, rateHz: 10000 }).run);
    // 0.2 s at 10 kHz: 0.5/√2000.
    expect(signal.zeroUncertainty).toBeGreaterThan(0.008);
    expect(signal.zeroUncertainty).toBeLessThan(0.016);
    expect(Math.abs(signal.acceleration[100] as number)).toBeLessThan(3);
  });
});

describe("moving mean", () => {
  test("values, ends, missing", () => {
    expect(Array.from(movingMean([1, 2, 3, 4, 10], 1))).toEqual([1.5, 2, 3, 17 / 3, 7]);
    expect(Array.from(movingMean([1, 2, 3], 0))).toEqual([1, 2, 3]);
    expect(Array.from(movingMean([1, Number.NaN, 3, 5, 7], 1))).toEqual([Number.NaN, Number.NaN, Number.NaN, 5, 6]);
    expect(movingMean([], 2).length).toBe(0);
  });
});
