import { describe, expect, it } from "vitest";
import { forcesOnWheel } from "../../src/processing/forcesOnWheel.ts";
import type { ForcesOnWheel } from "../../src/processing/forcesOnWheel.ts";
import { toEstimate } from "../../src/processing/measures/reading.ts";
import type { PreparedRun } from "../../src/processing/preparedRun.ts";
import { rollingWindow, slopeReading } from "../../src/processing/rolling.ts";
import { reduceTractionRun } from "../../src/processing/tractionRun.ts";
import { agrees } from "../helpers/agrees.ts";
import { plan } from "./checks/rolled.ts";
import { record, rigWith, wheel } from "./recordings.ts";

const g = 9.81;
const startS = 6;
const stopS = 34;
const hubKg = 0.8;
const below = hubKg + wheel.massKg;
const turningKgm2 = 0.012;
/** Centre of the hub's mass and the axle, from the sensor. */
const hub = { x: 0.04, z: -0.05 };
const axle = { x: 0.0, z: -0.12 };
const ground = { pull: 14, load: 70, torque: 2.4 };
const radians = (degrees: number): number => (degrees * Math.PI) / 180;

interface Truth {
  readonly tiltDeg?: (t: number) => number;
  /** gain of wheel speed [rad/s²], and of carriage speed [m/s²] */
  readonly spin?: number;
  readonly gain?: number;
  readonly bare?: boolean;
  readonly leaveOut?: readonly string[];
  readonly tiltOffsetDeg?: number;
}

/**
 * A rig by vectors: the sensor feels ground, weight and inertia of what hangs below it, each turned into the carriage's axes, less what
 * it felt during the zero.
 */
function made({ tiltDeg = () => 0, spin = 0, gain = 0, bare = false, leaveOut = [], tiltOffsetDeg = 0 }: Truth, rig: Readonly<Record<string, unknown>>): PreparedRun {
  const driven = (t: number): number => Math.min(Math.max(0, t - startS), stopS - startS);
  const moves = (t: number): number => Number(t >= startS && t < stopS);
  const onGround = (t: number): number => (t > 36 ? 0 : Math.min(1, Math.max(0, t - 2.5)));
  const sensor = (t: number): readonly [x: number, z: number, torque: number] => {
    const a = radians(tiltDeg(t));
    // Level components of every force on the body below the sensor, then its axes.
    const outer = [moves(t) * ground.pull - below * gain * moves(t), onGround(t) * ground.load - below * g] as const;
    const x = outer[0] * Math.cos(a) + outer[1] * Math.sin(a);
    const z = -outer[0] * Math.sin(a) + outer[1] * Math.cos(a);
    const moment = [[hubKg, hub], [wheel.massKg, axle]] as const;
    const weightMoment = moment.reduce((sum, [kg, at]) => sum + at.z * -kg * g * Math.sin(a) - at.x * -kg * g * Math.cos(a), 0);
    return [x, z, moves(t) * (ground.torque + turningKgm2 * spin) - weightMoment];
  };
  const zeroes = sensor(0);
  const read = (which: 0 | 1 | 2) => (t: number, i: number): number => sensor(t)[which] - (bare ? 0 : zeroes[which]) + (bare && which === 1 ? below * g : 0) + (which === 2 ? 0.005 : 0.05) * Math.sin(0.7 * i * i + i);
  const channels = {
    wheelAngle: { unit: "rad" as const, of: (t: number) => 1.5 * driven(t) + (spin / 2) * driven(t) ** 2 },
    carriagePosition: { unit: "m" as const, of: (t: number) => 0.126 * driven(t) + (gain / 2) * driven(t) ** 2 },
    drawbarPull: { unit: "N" as const, of: read(0) },
    verticalLoad: { unit: "N" as const, of: read(1) },
    wheelTorque: { unit: "N.m" as const, of: read(2), doubt: { noise: 0, offset: 0.003, relativeGain: 0.002, calibration: "CELL-1" } },
    tilt: { unit: "rad" as const, of: (t: number) => radians(tiltDeg(t) + tiltOffsetDeg), doubt: { noise: 0, offset: radians(0.05), relativeGain: 0, calibration: "INC-1" } },
    hubHeight: { unit: "m" as const, of: () => 0.11 },
  };
  const kept = Object.fromEntries(Object.entries(channels).filter(([name]) => !leaveOut.includes(name)));
  return { plan, wheel, rig: rigWith({ massBelowSensor: hubKg, sixAxis: undefined, ...rig }), recordings: [record(100, 40, kept)] };
}

function forces(run: PreparedRun): ForcesOnWheel {
  const { window, findings } = rollingWindow(run, true);
  if (window === null) throw new Error(findings.map((found) => found.message).join());
  const speed = slopeReading(run, "carriagePosition", "m", "m/s", window);
  const turning = slopeReading(run, "wheelAngle", "rad", "rad/s", window);
  const found = speed === null || turning === null ? null : forcesOnWheel(run, window, { speed, turning });
  if (found === null) throw new Error("no forces");
  return found;
}

/** A force against what was put in, within three of its own standard uncertainties and these not larger than said. */
function holds(found: ForcesOnWheel, name: "pull" | "load" | "torque", expected: number, atMost: number): void {
  const reading = found[name];
  if (reading === null) throw new Error(`no ${name}`);
  const u = toEstimate(reading, "R1", "").standardUncertainty ?? NaN;
  expect(u).toBeLessThan(atMost);
  agrees(reading.value, { expected, within: 3 * u, source: "made rig: the ground's force put in" });
}

const sixAxis = {
  logger: "main", matrix: Array.from({ length: 6 }, (_, i) => Array.from({ length: 6 }, (_, j) => Number(i === j))), relativeUncertainty: 0.002, offsetUncertainty: 0.1, date: "2026-10-01", certificate: "SIX", range: [500, 500, 1000, 50, 50, 50],
  gives: { drawbarPull: { output: "forceX", sign: 1 }, verticalLoad: { output: "forceZ", sign: 1 }, wheelTorque: { output: "momentY", sign: -1 } },
};
const stated = { massUncertainty: 0.005, centreOfMass: { forward: hub.x, up: hub.z }, centreUncertainty: 0.001 };
const tare = { axes: "level", axle: { forward: axle.x, up: axle.z }, stated };
const tilted = (t: number): number => (t < 3 || t > 36 ? 1 : 5);

describe("tare and attitude", () => {
  it("zeroed at 1°, run at 5°: the ground's forces come back, level and along the carriage", () => {
    const level = forces(made({ tiltDeg: tilted }, { tare, sixAxis }));
    holds(level, "pull", ground.pull, 0.15);
    holds(level, "load", ground.load, 0.3);
    holds(level, "torque", ground.torque, 0.03);
    expect(level.says.pull).toEqual({ what: "mean", then: ", weight below the sensor at its tilt taken off, turned level" });
    const along = forces(made({ tiltDeg: tilted }, { tare: { ...tare, axes: "carriage" }, sixAxis }));
    holds(along, "pull", ground.pull * Math.cos(radians(5)) + ground.load * Math.sin(radians(5)), 0.15);
    // Along the carriage only the change of tilt counts: the inclinometer's offset of 0.05° would bring w u(α) = 17 mN if it did not cancel.
    expect(Math.abs(along.pull.rows.find((row) => row.cause === "zero of tilt, R1")?.effect ?? 0)).toBeLessThan(1e-3);
    // Without the tare the pull is off by the load's share and the weight's.
    const bare = forces(made({ tiltDeg: tilted }, { sixAxis }));
    expect(Math.abs(bare.pull.value - ground.pull)).toBeGreaterThan(4);
    expect(bare.says.pull).toEqual({ what: "mean", then: "" });
  });

  it("the other choices of window hold what was taken off too", () => {
    const reduced = reduceTractionRun(made({ tiltDeg: tilted }, { tare, sixAxis, carriageFriction: [{ speed: 0.1, forward: -2, reverse: 2, uncertainty: 0.1 }, { speed: 0.2, forward: -2, reverse: 2, uncertainty: 0.1 }] }), { rollingRadii: [], drags: [], deflections: [] });
    // 2 N of the carriage's friction stand in the reading beside the 14 N put in.
    for (const choice of reduced.windowChoices) agrees(choice.pullCoefficient, { expected: (ground.pull + 2) / ground.load, within: 2e-3, source: "made rig: the ground's forces put in" });
    expect(reduced.windowChoices).toHaveLength(4);
  });

  it("a sensor zeroed bare has the whole weight taken off at the run's attitude", () => {
    const found = forces(made({ tiltDeg: tilted, bare: true }, { tare, sixAxis, zero: { state: "sensorBare", beforeS: 2, afterS: 2 } }));
    holds(found, "pull", ground.pull, 0.15);
    holds(found, "load", ground.load, 0.3);
    holds(found, "torque", ground.torque, 0.03);
  });

  it("an inclinometer's offset within its statement is covered by the uncertainty", () => {
    const found = forces(made({ tiltDeg: tilted, tiltOffsetDeg: 0.1 }, { tare, sixAxis }));
    holds(found, "pull", ground.pull, 0.15);
    holds(found, "load", ground.load, 0.3);
  });

  it("attitudes may be stated, and the weight read from the sensor itself with another wheel on", () => {
    const otherKg = 0.5;
    const at = [-20, 0, 20].map((tilt) => {
      const a = radians(tilt);
      const w = (hubKg + otherKg) * g;
      const q = { x: hubKg * g * hub.x + otherKg * g * axle.x, z: hubKg * g * hub.z + otherKg * g * axle.z };
      return { tilt, drawbarPull: 2 - w * Math.sin(a), verticalLoad: -1 - w * Math.cos(a), wheelTorque: 0.3 - q.x * Math.cos(a) + q.z * Math.sin(a) };
    });
    const readings = { wheelMass: otherKg, forceUncertainty: 0.02, torqueUncertainty: 0.002, at };
    const attitude = { zero: 1, run: 5, uncertainty: 0.05 };
    const found = forces(made({ tiltDeg: tilted, leaveOut: ["tilt"] }, { tare: { axes: "level", axle: tare.axle, readings, attitude }, sixAxis }));
    holds(found, "pull", ground.pull, 0.15);
    holds(found, "load", ground.load, 0.3);
    holds(found, "torque", ground.torque, 0.03);
    expect(found.findings).toEqual([]);
    const heavier = forces(made({ tiltDeg: tilted, leaveOut: ["tilt"] }, { tare: { axes: "level", axle: tare.axle, readings, attitude }, sixAxis, massBelowSensor: hubKg + 0.3 }));
    expect(heavier.findings).toMatchObject([{ code: "tare-mass-differs", severity: "look" }]);
  });

  it("says what it cannot take off", () => {
    const codes = (run: PreparedRun): string[] => forces(run).findings.map((found) => `${found.code} ${found.severity}`);
    expect(codes(made({ leaveOut: ["tilt"] }, { tare, sixAxis }))).toEqual(["tare-unknown look"]);
    expect(codes(made({}, { tare: { axes: "level", stated: { massUncertainty: 0.005 } }, sixAxis }))).toEqual(["tare-torque-unknown note"]);
    // A torque that no six-axis sensor gives feels no weight.
    expect(codes(made({}, { tare: { axes: "level", stated: { massUncertainty: 0.005 } } }))).toEqual([]);
  });
});

describe("inertia", () => {
  const inertia = { mass: hubKg, massUncertainty: 0.02, turning: { W1: turningKgm2 }, turningUncertainty: 0.05 };
  const gaining = { gain: 0.03, spin: 0.3 };
  it("gaining speed, the ground's pull and torque come back with a row for what is stated", () => {
    const found = forces(made(gaining, { inertia }));
    holds(found, "pull", ground.pull, 0.15);
    holds(found, "torque", ground.torque, 0.01);
    expect(found.says).toMatchObject({ pull: { then: ", inertia taken out" }, load: { then: "" } });
    const effect = (cause: string): number => found.pull.rows.find((row) => row.cause === cause)?.effect ?? NaN;
    agrees(effect("mass that gains speed"), { expected: 0.03 * 0.02, relative: 0.02, source: "a u(m), by hand" });
    agrees(found.pull.value - forces(made(gaining, {})).pull.value, { expected: 0.03 * below, relative: 0.02, source: "m a, 2 kg · 0.03 m/s²" });
  });

  it("not stated where it matters it is asked for; at a steady speed nothing is", () => {
    const codes = (truth: Truth, rig = {}): string[] => forces(made(truth, { ...rig })).findings.map((found) => `${found.code} ${found.severity}`);
    expect(codes({ gain: 0.2, spin: 2 })).toEqual(["inertia-unknown look", "turning-inertia-unknown look"]);
    expect(codes({ gain: 0.2, spin: 2 }, { inertia })).toEqual([]);
    expect(codes({})).toEqual([]);
    // 2 kg · 1 mm/s² is below what the pull's own uncertainty hides.
    expect(codes({ gain: 0.001 })).toEqual([]);
  });
});

describe("ropes", () => {
  const offLoad = { mass: 3, massUncertainty: 0.003, ratio: 1, friction: 0.02, weighed: 10, weighedUncertainty: 0.01, ropeAngle: 10, ropeAngleUncertainty: 1 };
  const netN = 10 * g - 3 * g * Math.cos(radians(10));
  it("without a load sensor the load is what the counterweight leaves, with friction and angle in its budget", () => {
    const found = forces(made({ leaveOut: ["verticalLoad"] }, { offLoad }));
    agrees(found.load.value, { expected: netN, relative: 1e-9, source: "10 kg g − 3 kg g cos 10°" });
    expect(found.load.rows.map((row) => row.cause)).toEqual(expect.arrayContaining(["friction of the pulleys, off-loading", "angle of the off-loading rope", "mass on the rope, off-loading", "weighed mass, off-loading"]));
    expect(found.says.load.what).toBe("weighed mass less the off-loading rope");
  });

  it("a measured load is held against it, and a mistaken unit named", () => {
    const codes = (weighed: number): string[] => forces(made({}, { offLoad: { ...offLoad, weighed } })).findings.map((found) => found.code);
    expect(codes(3 * Math.cos(radians(10)) + 70 / g)).toEqual([]);
    expect(codes(12)).toEqual(["off-load-disagrees"]);
    expect(forces(made({}, { offLoad: { ...offLoad, weighed: 3 * Math.cos(radians(10)) + 70 / g / 4.448 } })).findings[0]?.message).toContain("pound-force");
  });

  it("a hanging mass sets the pull, more of it while the carriage gains speed", () => {
    const hangingPull = { mass: 1.4, massUncertainty: 0.002, ratio: 1, friction: 0.03, pulls: "backwards" };
    const pull = (gain: number, more = {}): number => forces(made({ gain, leaveOut: ["drawbarPull"] }, { hangingPull: { ...hangingPull, ...more } })).pull.value;
    agrees(pull(0), { expected: 1.4 * g, relative: 1e-6, source: "weight m g, by hand" });
    agrees(pull(0.05), { expected: 1.4 * (g + 0.05), relative: 1e-4, source: "F = m (g + a), Newton" });
    agrees(pull(0.05, { pulls: "forwards" }), { expected: -1.4 * (g - 0.05), relative: 1e-4, source: "the mass falls with a: F = m (g − a)" });
    const reduced = reduceTractionRun(made({ leaveOut: ["drawbarPull"] }, { hangingPull }), { rollingRadii: [], drags: [], deflections: [] });
    expect(reduced.measures.find((measure) => measure.name === "drawbarPull")?.estimate.method).toMatch(/^hanging mass over \d+ whole revolutions$/);
  });
});
