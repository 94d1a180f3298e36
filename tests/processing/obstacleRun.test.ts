import { expect, test } from "vitest";
import type { Obstacle } from "../../src/campaign/campaign.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import { reduceObstacleRun } from "../../src/processing/obstacleRun.ts";
import { driveWork, workNoise } from "../../src/processing/measures/driveWork.ts";
import { peakTorque } from "../../src/processing/measures/peakTorque.ts";
import { agrees } from "../helpers/agrees.ts";
import { plan, preparedRun } from "../helpers/pressRun.ts";
import { wheel } from "./recordings.ts";

const rateHz = 200;
const load = 60;
const doubt = (calibration: string, relativeGain = 0.003) => ({ noise: 0, offset: 0.01, relativeGain, calibration });

/** Two seconds standing, then driving until `stopS`: the hub rises by `rise` in between while torque follows a hump of `peak`. */
function drive(obstacle: Partial<Obstacle>, rise: number, peak = 4, drop: readonly string[] = [], stopS = 10) {
  const random = seededRandom(2);
  const series = (of: (t: number) => number, noise: number): number[] => Array.from({ length: 10 * rateHz }, (_, i) => of(i / rateHz) + noise * random.normal());
  const moving = (t: number): number => Math.min(Math.max(0, t - 2), stopS - 2);
  const hump = (t: number): number => (t > 4 && t < 6 ? Math.sin(((t - 4) * Math.PI) / 2) ** 2 : 0);
  const channels = {
    wheelAngle: { unit: "rad" as const, samples: series((t) => 0.5 * moving(t), 1e-4), doubt: doubt("ENC", 0) },
    wheelTorque: { unit: "N.m" as const, samples: series((t) => (t < 2 || t > stopS ? 0 : 0.5 + (peak - 0.5) * hump(t)), 0.02), doubt: doubt("TQ") },
    hubHeight: { unit: "m" as const, samples: series((t) => 0.1 + rise * Math.min(1, Math.max(0, (t - 4) / 2)), 1e-4), doubt: doubt("POT") },
    carriagePosition: { unit: "m" as const, samples: series((t) => 0.05 * moving(t), 1e-4), doubt: doubt("WIRE") },
    verticalLoad: { unit: "N" as const, samples: series(() => load, 0.2), doubt: doubt("SIX") },
    hubAcceleration: { unit: "m/s2" as const, samples: series((t) => 9.81 + (t > 2 ? 3 * Math.sin(2 * Math.PI * 10 * t) : 0), 0.05), doubt: doubt("ACC", 0.01) },
  };
  const kept = Object.fromEntries(Object.entries(channels).filter(([name]) => !drop.includes(name)));
  const prepared = preparedRun(plan("obstacle", { wheel: "W1", obstacle: { heightM: 0.04, edge: "sharp", friction: null, climbed: null, ...obstacle } }), kept, rateHz);
  return reduceObstacleRun({ ...prepared, wheel });
}

const value = (reduced: ReturnType<typeof drive>, name: string): number => reduced.measures.find((measure) => measure.name === name)?.estimate.value ?? Number.NaN;

test("outcome, torque, energy and acceleration of a climb", () => {
  const reduced = drive({ climbed: true }, 0.04);
  const of = (name: string) => reduced.measures.find((measure) => measure.name === name)?.estimate;
  expect(value(reduced, "climbed")).toBe(1);
  // ∫ T dθ at 0.5 rad/s: 8 s of 0.5 N·m and a hump of 3.5 N·m whose mean over 2 s is a half
  const truth: Record<string, number> = { hubRise: 0.04, peakTorque: 4, driveEnergy: 0.5 * (8 * 0.5 + 2 * 3.5 * 0.5), peakHubAcceleration: 3, rmsHubAcceleration: 3 / Math.SQRT2 };
  for (const [name, expected] of Object.entries(truth)) {
    expect(of(name)?.standardUncertainty, name).toBeGreaterThan(0);
    // the greatest of a thousand noisy samples lies up to four of them high; the turning stretch is found to a quarter second
    expect(Math.abs((of(name)?.value ?? 0) / expected - 1), name).toBeLessThan(0.08);
  }
  expect(reduced.findings).toEqual([]);
});

test("the work of a drive is whole, though its end is known to a quarter second only", () => {
  for (const stopS of [5.02, 5.04, 5.15]) {
    const energy = drive({ climbed: true }, 0.04, 4, [], stopS).measures.find(({ name }) => name === "driveEnergy")?.estimate;
    const noise = energy?.budget.find(({ cause }) => cause.startsWith("noise of the torque"))?.effect;
    // at 0.5 rad/s: 0.5 N·m until it stops, near the top of a hump of 3.5 N·m; the sample in which it stops is a two-hundredth of a second wide
    const hump = (stopS - 4) / 2 - Math.sin(Math.PI * (stopS - 4)) / (2 * Math.PI);
    expect(Math.abs((energy?.value ?? Number.NaN) - 0.5 * (0.5 * (stopS - 2) + 3.5 * hump))).toBeLessThan(3 * (noise ?? Number.NaN) + (0.5 * 4) / rateHz);
  }
});

test("what statics asks for stands beside it", () => {
  const reduced = drive({ climbed: true }, 0.04);
  const arm = Math.sqrt(2 * 0.1 * 0.04 - 0.04 ** 2);
  expect(value(reduced, "staticTorque")).toBeCloseTo(load * arm, 1);
  expect(value(reduced, "frictionNeeded")).toBeCloseTo(arm / 0.06, 9);
  expect(value(reduced, "peakOverStaticTorque")).toBeCloseTo(4 / (load * arm), 1);
  expect(value(drive({ heightM: 0.12, climbed: false }, 0), "staticTorque")).toBeNaN();
  expect(drive({ edge: "rock", climbed: true }, 0.04).measures.some((measure) => measure.name === "staticTorque")).toBe(false);
  expect(value(drive({ climbed: true }, 0.04, 4, ["verticalLoad"]), "staticTorque")).toBeNaN();
});

test("a torque that brakes all the way, and a step that is not as high as the sheet says, are pointed out", () => {
  expect(drive({ climbed: true }, 0.04, -8).findings.map(({ code, severity }) => `${code} ${severity}`)).toEqual(["torque-sign reject"]);
  expect(drive({ climbed: true }, 0.048).findings.map(({ code, severity }) => `${code} ${severity}`)).toEqual(["obstacle-height look"]);
  expect(drive({ climbed: true }, 0.06).findings.map(({ severity }) => severity)).toEqual(["reject"]);
  expect(drive({ climbed: true }, 0.044).findings).toEqual([]);
});

test("sheet and hub are held against each other, and neither overrules the other", () => {
  const differs = drive({ climbed: true }, 0);
  expect(differs.findings.map((found) => found.code)).toEqual(["climb-outcome-differs"]);
  expect(differs.measures[0]?.estimate.standardUncertainty).toBeNull();
  expect(value(drive({ climbed: null }, 0.04), "climbed")).toBe(1);
  expect(value(drive({ climbed: null }, 0), "climbed")).toBe(0);
  expect(value(drive({ climbed: false }, 0, 4, ["hubHeight"]), "climbed")).toBe(0);
  const open = drive({ climbed: null }, 0, 4, ["hubHeight"]);
  expect(open.findings.map((found) => found.code)).toEqual(["climb-outcome-open"]);
});

test("without an angle, or with a wheel that never turns, nothing is measured", () => {
  expect(drive({}, 0.04, 4, ["wheelAngle"]).findings[0]?.code).toBe("obstacle-channels-missing");
  const still = preparedRun(plan("obstacle", { wheel: "W1", obstacle: { heightM: 0.04, edge: "sharp", friction: null, climbed: null } }), { wheelAngle: { unit: "rad", samples: new Array<number>(500).fill(1) } });
  expect(reduceObstacleRun({ ...still, wheel }).findings[0]?.code).toBe("wheel-does-not-turn");
});

test("work that is given back is taken off", () => {
  expect(driveWork([2, 2, 2], [0, 1, 0.5])).toBeCloseTo(1, 12);
  expect(driveWork([0, 2], [0, 1])).toBeCloseTo(1, 12);
});

test("noise of the torque stands in the work, sample by sample", () => {
  // inner samples bear a whole step of 0.1 rad, the two ends half of one
  agrees(workNoise(0.02, [0, 0.1, 0.2, 0.3]), { expected: 0.02 * Math.sqrt(2 * 0.05 ** 2 + 2 * 0.1 ** 2), within: 1e-12, source: "by hand: trapezoids" });
  const random = seededRandom(11);
  const angle = Array.from({ length: 400 }, (_, i) => 0.01 * i);
  const works = Array.from({ length: 300 }, () => driveWork(angle.map(() => 2 + 0.05 * random.normal()), angle));
  const scatter = Math.sqrt(works.reduce((sum, work) => sum + (work - 2 * 3.99) ** 2, 0) / works.length);
  agrees(workNoise(0.05, angle), { expected: scatter, relative: 0.15, source: "scatter of 300 made drives; three standard errors of a scatter from 300" });
});

test("a plateau of torque reads no higher than it is, and a lone peak is found", () => {
  const random = seededRandom(12);
  const noisy = (level: number, length: number): number[] => Array.from({ length }, () => level + 0.05 * random.normal());
  const errors = Array.from({ length: 200 }, () => {
    const peak = peakTorque(noisy(3, 800), noisy(0, 200), rateHz, null, "R1");
    return (peak.value - 3) / (peak.standardUncertainty ?? Number.NaN);
  });
  // of 80 independent means the greatest lies 2.4 of their σ high; chosen and read apart it does not
  expect(Math.abs(errors.reduce((sum, z) => sum + z, 0) / errors.length)).toBeLessThan(0.2);
  expect(errors.filter((z) => Math.abs(z) > 2).length).toBeLessThan(20);
  const one = peakTorque([0, 0, ...new Array<number>(10).fill(5), 0, 0], noisy(0, 200), rateHz, null, "R1");
  agrees(one.value, { expected: 5, within: 1e-12, source: "made record: one stretch of 50 ms at 5 N·m" });
  const hump = peakTorque(Array.from({ length: 400 }, (_, i) => 4 * Math.sin((Math.PI * i) / 400) + 0.02 * random.normal()), noisy(0, 200), rateHz, null, "R1");
  agrees(hump.value, { expected: 4, within: 3 * (hump.standardUncertainty ?? NaN), source: "made hump of two seconds, 4 N·m high" });
});
