import { describe, expect, it } from "vitest";
import { levelRises } from "../../../src/processing/conditioning/levelRises.ts";
import { stretches } from "../../../src/processing/conditioning/stretches.ts";
import { wheelTicks } from "../../../src/processing/conditioning/wheelTicks.ts";
import type { TickSums } from "../../../src/processing/conditioning/wheelTicks.ts";

/** 100 samples a second of an angle and the torque T = 2, path 0.1 m a radian. */
function ticksOf(angle: (t: number) => number, lastS: number, torque = (_t: number): number => 2): { ticks: TickSums[]; told: ReturnType<typeof wheelTicks>["told"] } {
  const ticks: TickSums[] = [];
  const counter = wheelTicks(1, (tick) => ticks.push(tick));
  const timesS = Array.from({ length: lastS * 100 + 1 }, (_, i) => i / 100);
  counter.add({ timesS, angleRad: timesS.map(angle), positionM: timesS.map((t) => 0.1 * angle(t)), channels: [timesS.map(torque)] }, 1);
  return { ticks, told: counter.told };
}
const sum = (ticks: readonly TickSums[], of: (tick: TickSums) => number): number => ticks.reduce((all, tick) => all + of(tick), 0);

describe("ticks of a wheel", () => {
  it("sum to what the wheel turned, the time it took and the work of the torque, the first tick apart", () => {
    const { ticks, told } = ticksOf((t) => t, 20);
    const turned = sum(ticks, (tick) => tick.turnedRad);
    expect(turned + told.startRad).toBeGreaterThan(20 - 0.07);
    expect(turned + told.startRad).toBeLessThanOrEqual(20 + 1e-9);
    expect(sum(ticks, (tick) => tick.runningS)).toBeCloseTo(turned, 6);
    expect(sum(ticks, (tick) => tick.byAngle[0] as number)).toBeCloseTo(2 * turned, 6);
    expect(sum(ticks, (tick) => tick.byPath[0] as number)).toBeCloseTo(0.2 * turned, 6);
  });

  it("are none where a standing wheel jitters", () => {
    const { ticks, told } = ticksOf((t) => 0.02 * Math.sin(200 * t), 60);
    expect(ticks).toEqual([]);
    expect(told).toMatchObject({ stops: 0, reversals: 0, startRad: 0 });
    expect(told.standingS).toBeGreaterThan(54);
  });

  it("go either way: path and angle add, work keeps its sign", () => {
    const { ticks, told } = ticksOf((t) => (t < 10 ? t : 20 - t), 20, (t) => (t < 10 ? 2 : -2));
    expect(told.reversals).toBe(1);
    expect(sum(ticks, (tick) => tick.travelledM)).toBeCloseTo(0.1 * sum(ticks, (tick) => tick.turnedRad), 9);
    expect(Math.abs(sum(ticks, (tick) => tick.signedRad))).toBeLessThan(0.2);
    expect(sum(ticks, (tick) => tick.byAngle[0] as number)).toBeCloseTo(2 * sum(ticks, (tick) => tick.turnedRad), 0);
    expect(sum(ticks, (tick) => tick.along[0] as number)).toBeCloseTo(2 * sum(ticks, (tick) => tick.runningS), 0);
  });

  it("leave out missing samples and pauses of the log, and say how long", () => {
    const { ticks, told } = ticksOf((t) => t, 20, (t) => (t > 5 && t < 7 ? Number.NaN : 2));
    expect(told.leftOutS).toBeCloseTo(2, 1);
    expect(sum(ticks, (tick) => tick.integrals[0] as number)).toBeCloseTo(2 * sum(ticks, (tick) => tick.runningS), 9);
  });
});

describe("stretches", () => {
  it("are whole revolutions, and join in pairs before they become too many", () => {
    const rolled = stretches(1);
    const { ticks } = ticksOf((t) => 20 * t, 200);
    ticks.forEach((tick, i) => rolled.add(tick, i));
    // 636 revolutions: 400 of one become 200 of two, and the rest follows in twos.
    expect(rolled.revolutionsEach()).toBe(2);
    expect(rolled.whole.length).toBeGreaterThanOrEqual(200 + Math.floor((636 - 420) / 2) - 5);
    expect(rolled.whole.length).toBeLessThan(400);
    for (const { sums } of rolled.whole) expect(sums.turnedRad / (2 * Math.PI)).toBeGreaterThan(1.98);
    expect(sum(rolled.whole.map(({ sums }) => sums), (sums) => sums.turnedRad)).toBeLessThanOrEqual(rolled.total.turnedRad);
    expect(rolled.whole[1]?.fromM).toBeCloseTo(rolled.whole[0]?.sums.travelledM as number, 9);
  });
});

describe("rises through levels", () => {
  const count = (samples: readonly number[], level: number): number => {
    const rises = levelRises(256);
    rises.add(samples);
    return rises.riseCount(level);
  };

  it("count a rise once, whatever the noise on the level", () => {
    expect(count([0, 9.8, 10.1, 9.9, 10.2, 9.5, 10.3], 10)).toBe(1);
    expect(count([0, 10.1, 8.9, 10.2, 0, 30], 10)).toBe(3);
    expect(count([30, 0], 10)).toBe(0);
    expect(count([0, Number.NaN, 11], 10)).toBe(1);
  });

  it("count a jump at every level it passes, and negative loads too", () => {
    for (const level of [-200, -3, 0, 7, 200]) expect(count([-250, 250], level)).toBe(1);
    expect(count([-250, 250], 251)).toBe(0);
  });

  it("are the same when the samples come in pieces", () => {
    const samples = Array.from({ length: 999 }, (_, i) => 100 * Math.sin(i) + 50 * Math.sin(i / 17));
    const pieces = levelRises(256);
    for (let from = 0; from < samples.length; from += 10) pieces.add(samples.slice(from, from + 10));
    for (let level = -150; level <= 150; level += 10) expect(pieces.riseCount(level)).toBe(count(samples, level));
  });
});
