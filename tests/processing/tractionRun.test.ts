import { describe, expect, it } from "vitest";
import type { RunPlan } from "../../src/campaign/campaign.ts";
import { estimateFrom } from "../../src/core/estimate.ts";
import type { PreparedRun } from "../../src/processing/preparedRun.ts";
import type { References } from "../../src/processing/references.ts";
import { reduceTractionRun } from "../../src/processing/tractionRun.ts";
import { agrees } from "../helpers/agrees.ts";
import { record, rigWith, wheel } from "./recordings.ts";

const plan: RunPlan = { id: "R1", sheetId: "R1", kind: "traction", wheel: "W1", bed: "B1", setLoadN: 60, setSlip: 0.2, setSpeedMps: 0.12, repeat: null, pass: null, block: null, dropHeightM: null, plate: null, shearAreaM2: null, normalStressPa: null, contactAngleRad: null, obstacle: null, footprint: null, remark: "", excluded: null, line: 2, more: {} };
const references: References = {
  rollingRadii: [{ wheel: "W1", loadN: 60, runs: ["H1"], estimate: estimateFrom(0.1, "m", "test", []) }],
  drags: [{ wheel: "W1", run: "S1", wheelSpeed: estimateFrom(1.5, "rad/s", "test", []), torque: estimateFrom(0.1, "N.m", "test", []) }],
  deflections: [],
};

interface Made {
  readonly pull?: number;
  readonly torque?: number;
  readonly load?: (t: number) => number;
  readonly speed?: number;
  readonly side?: number;
}

/** A run with ripple of the wheel's own frequency in every force, so that only whole revolutions give the truth. */
function made({ pull = 12, torque = 2.2, load = () => 60, speed = 0.12, side = 0 }: Made): PreparedRun {
  const omega = 1.5;
  const started = (t: number): number => Math.min(Math.max(0, t - 5), 30);
  const ripple = (t: number): number => 0.3 * Math.sin(omega * started(t));
  const recording = record(200, 40, {
    wheelAngle: { unit: "rad", of: (t) => omega * started(t) },
    carriagePosition: { unit: "m", of: (t) => speed * started(t) },
    verticalLoad: { unit: "N", of: (t) => (t > 3 && t < 37 ? load(t) + ripple(t) : 0) },
    drawbarPull: { unit: "N", of: (t) => (t > 5 && t < 35 ? pull + ripple(t) : 0) },
    wheelTorque: { unit: "N.m", of: (t) => (t > 5 && t < 35 ? torque + 0.1 * ripple(t) : 0) },
    sideForce: { unit: "N", of: () => side },
    hubHeight: { unit: "m", of: (t) => (t < 3 ? 0.15 - 0.01 * t : 0.11) },
  });
  return { plan, wheel, rig: rigWith(), recordings: [recording] };
}

const value = (run: PreparedRun, name: string): number => reduceTractionRun(run, references).measures.find((measure) => measure.name === name)?.estimate.value ?? NaN;
const codes = (run: PreparedRun): string[] => reduceTractionRun(run, references).findings.filter((found) => found.severity !== "note").map((found) => `${found.code} ${found.severity}`);

describe("a traction run", () => {
  const source = "made record: the numbers put in, ripple averaged out over whole turns";
  it("gives back what was put in", () => {
    const run = made({});
    // One sample in 840 of a ripple of 0.3 N.
    agrees(value(run, "drawbarPull"), { expected: 12, within: 2e-3, source });
    agrees(value(run, "verticalLoad"), { expected: 60, within: 2e-3, source });
    agrees(value(run, "slip"), { expected: 0.2, within: 1e-6, source });
    agrees(value(run, "wheelTorque"), { expected: 2.1, within: 1e-3, source: "2.2 N·m less 0.1 N·m of free-spin drag" });
    agrees(value(run, "tractiveEfficiency"), { expected: (12 * 0.12) / (2.1 * 1.5), within: 1e-3, source: "TE = DP·v/(T·ω)" });
    expect(codes(run).filter((code) => !code.startsWith("touch"))).toEqual([]);
  });

  it("counts skid from the carriage when the wheel is braked", () => {
    const run = made({ speed: 0.165, pull: -8, torque: -0.3 });
    agrees(value(run, "skid"), { expected: 1 - 0.15 / 0.165, within: 1e-6, source: "1 − rω/v" });
    expect(value(run, "slip")).toBeNaN();
    // DP·v/(T·ω) would be above 1 here, and mean nothing.
    expect(value(run, "tractiveEfficiency")).toBeNaN();
  });

  it("rejects power from nowhere", () => {
    expect(codes(made({ pull: 30, torque: 1.5 }))).toContain("energy-excess reject");
  });

  it("holds an excess of power against its doubt before it calls it one", () => {
    // torque at the wheel for a share of power out over power in; 0.1 N·m of drag beside
    const excess = (share: number): PreparedRun => made({ torque: (12 * 0.12) / (1.5 * (1 + share)) + 0.1 });
    const sure = (run: PreparedRun): PreparedRun => ({ ...run, recordings: run.recordings.map((recording) => ({ ...recording, channels: recording.channels.map((channel) => ({ ...channel, doubt: null })) })) });
    const energyCodes = (run: PreparedRun): string[] => codes(run).filter((code) => code.startsWith("energy"));
    // the zero of the torque alone is in doubt by 0.1 of 0.9 N·m
    expect(energyCodes(excess(0.1))).toEqual([]);
    expect(energyCodes(excess(0.6))).toEqual(["energy-excess reject"]);
    expect(energyCodes(sure(excess(0.015)))).toEqual(["energy-excess look"]);
    expect(energyCodes(sure(excess(0.1)))).toEqual(["energy-excess reject"]);
    expect(energyCodes(sure(excess(-0.015)))).toEqual([]);
  });

  it("notices side force, a wrong load and a load that wanders", () => {
    expect(codes(made({ side: 3 }))).toContain("side-force look");
    agrees(value(made({ side: 3 }), "sideForceStanding"), { expected: 3, within: 1e-9, source: "made record: the side force put in" });
    expect(codes(made({ load: () => 66 }))).toContain("load-off look");
    expect(codes(made({ load: (t) => 45 + t }))).toContain("load-spread reject");
  });

  it("notices a pull that keeps changing", () => {
    const run = made({});
    const recording = run.recordings[0] as PreparedRun["recordings"][number];
    const channels = recording.channels.map((channel) => (channel.name === "drawbarPull" ? { ...channel, samples: Float64Array.from(channel.samples, (sample, i) => (i > 1000 && i < 7000 ? sample + i / 100 : sample)) } : channel));
    const codesNow = codes({ ...run, recordings: [{ ...recording, channels }] });
    expect(codesNow).toContain("pull-trend reject");
    expect(codesNow).toContain("window-sensitive reject");
  });

  it("gives no slip without a radius, and says which run is missing", () => {
    const reduced = reduceTractionRun(made({}), { ...references, rollingRadii: [] });
    expect(reduced.measures.find((measure) => measure.name === "slip")?.estimate.standardUncertainty).toBeNull();
    expect(reduced.findings.map((found) => found.code)).toContain("radius-unknown");
    // What needs no radius is still there.
    expect(reduced.measures.find((measure) => measure.name === "pullCoefficient")?.estimate.standardUncertainty).not.toBeNull();
  });

  it("shows what the choice of window matters", () => {
    expect(reduceTractionRun(made({}), references).windowChoices.map((choice) => choice.label)).toEqual(["as chosen", "without the first revolution", "without the last revolution", "shifted by half a revolution"]);
  });

  it("states the slip under every policy of the radius side by side, each from its own radius", () => {
    const run = made({});
    const at = (radiusM: number): number => 1 - 0.12 / (1.5 * radiusM);
    agrees(value(run, "slipByRim"), { expected: at(0.1), within: 1e-6, source: "1 − v/(rω) with the rim's 100 mm" });
    agrees(value(run, "slipByLugTips"), { expected: at(0.105), within: 1e-6, source: "1 − v/(rω) with the tips' 105 mm" });
    agrees(value(run, "slipByLoadedRadius"), { expected: at(0.105), within: 1e-6, source: "a rigid wheel does not deflect" });
    agrees(value(run, "slipByRollingRadius"), { expected: at(0.1), within: 1e-6, source: "1 − v/(rω) with the hard floor's 100 mm" });
    const without = reduceTractionRun(run, { ...references, rollingRadii: [] }).measures.find(({ name }) => name === "slipByRollingRadius");
    expect(without?.estimate.method).toContain("no usable hard-floor run");
  });

  it("says with the slip which of the four zero-slip conditions it is counted from", () => {
    const slipOf = (policy: string): string => reduceTractionRun({ ...made({}), rig: rigWith({ slipRadius: { policy, lugs: "with" } }) }, references).measures.find(({ name }) => name === "slip")?.estimate.method ?? "";
    expect(slipOf("effective")).toContain("effective radius from the hard floor at 60 N (H1)");
    expect(slipOf("unloaded")).toContain("unloaded radius with lugs, from the wheel record");
    expect(slipOf("loaded")).toContain("loaded radius");
  });

  it("finds the ripple that comes once a revolution, and none at the lugs", () => {
    const run = made({});
    agrees(value(run, "pullRippleRevolution"), { expected: 0.3, within: 2e-3, source });
    agrees(value(run, "torqueRippleRevolution"), { expected: 0.03, within: 2e-4, source });
    expect(value(run, "pullRippleLug")).toBeLessThan(2e-3);
    // load and torque swing in phase here: 0.3 N for 0.03 N·m
    agrees(value(run, "loadPerTorque"), { expected: 10, within: 0.05, source });
    agrees(value(run, "loadTorqueCorrelation"), { expected: 1, within: 1e-3, source });
  });

  it("keeps the mean revolution and the spectrum, each with its own numbers", () => {
    const { curves = [] } = reduceTractionRun(made({}), references);
    expect(curves.map(({ name }) => name)).toEqual(["pullByAngle", "loadByAngle", "torqueByAngle", "pullSpectrum"]);
    const [pull, , , spectrum] = curves;
    expect(pull?.x.values.length).toBeLessThanOrEqual(200);
    pull?.y.values.forEach((at, i) => agrees(at ?? 0, { expected: 12 + 0.3 * Math.sin(pull.x.values[i] as number), within: 5e-3, source }));
    const amplitudes = (spectrum?.y.values ?? []) as number[];
    const top = amplitudes.indexOf(Math.max(...amplitudes));
    agrees(spectrum?.x.values[top] ?? 0, { expected: 1.5 / (2 * Math.PI), within: 0.05, source: "made signal: one line at ω/2π" });
    agrees(amplitudes[top] as number, { expected: 0.3, relative: 0.03, source });
  });

  it("gives side force as a share of the load, and what a degree would bring", () => {
    agrees(value(made({ side: 3 }), "sideForceRatio"), { expected: 0.05, within: 1e-5, source });
    agrees(value(made({ side: 3 }), "pullPerDegreeOfYaw"), { expected: 0.05236, within: 1e-5, source: "3 N · sin 1°" });
  });
});
