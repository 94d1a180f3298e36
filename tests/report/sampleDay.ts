import type { RunPlan } from "../../src/campaign/campaign.ts";
import { rigSchema } from "../../src/campaign/rigSchema.ts";
import type { Estimate } from "../../src/core/estimate.ts";
import { estimateFrom, undetermined } from "../../src/core/estimate.ts";
import { finding } from "../../src/core/finding.ts";
import type { Fit, FitPoint } from "../../src/core/fit.ts";
import type { Measure } from "../../src/core/measure.ts";
import type { Unit } from "../../src/core/units.ts";
import type { DayResult, RunResult } from "../../src/processing/dayResult.ts";
import { sampleBlock, sampleEndurance } from "./sampleEndurance.ts";
import { sampleWheelSoil } from "./sampleWheelSoil.ts";

export const hostileName = "<script>alert(1)</script>";
export const formulaName = '=cmd("x")';

/** A made-up day with every case a report must show: undetermined, excluded, unread, rejected, hostile names, long names. */
export function sampleDay(): DayResult {
  const rig = rigSchema.parse({
    rig: "Bench <2> & \"co\"",
    laboratory: "Skarvhamn Wheel Laboratory (invented)",
    gravity: 9.819,
    slipRadius: { policy: "effective", lugs: "with" },
    zero: { state: "wheelLifted", beforeS: 2, afterS: 2 },
    massBelowSensor: 1.4,
    loggers: { frame: { files: "logs/{run}.csv", kinds: ["traction"], clock: { kind: "rate", rateHz: 100 }, channels: {} } },
    drop: { filterClass: 1000, filterStandard: "SAE J211", restS: 0.2, carriageMass: 2.5 },
    soil: { circularPlateWidth: "radius" },
    endurance: sampleBlock,
    tolerances: { sideForce: { look: 0.05, reject: 0.1 } },
  });
  const runs = [...tractionRuns(), ...dropRuns(), ...oddRuns()];
  return {
    campaign: {
      rig,
      runs: runs.map((run) => run.plan),
      wheels: ["W1", "W2", hostileName].map((id, index) => ({ id, radiusM: 0.1, widthM: 0.08, massKg: 1.1, lugs: 24 * index, lugHeightM: 0.005, flexible: index > 0, description: "invented", bareFrame: null, factors: { "spoke thickness": { value: 0.8, unit: "mm" }, "core material": { text: "cork & grit" } }, line: index + 2 })),
      beds: [{ id: "B1", densityKgM3: 1620, moisture: 0.004, targetGradientPaM: 3e6, remark: "raked </td>", more: {}, line: 2 }],
      cones: [1, 2, 3, 4].flatMap((step) => ["left", "right"].map((position) => ({ bed: "B1", position, depthM: step * 0.03, indexPa: step * 90000 + (position === "left" ? 9000 : 0), line: step + 1 }))),
      inspections: [],
      issues: [{ code: "unknown-wheel", at: "runs.csv line 19", message: 'expected a wheel of wheels.csv, found "W9"', hint: "Correct the cell", run: "U1" }],
      files: [{ file: "rig.yaml", sha256: "a".repeat(64) }, { file: "runs.csv", sha256: "b".repeat(64) }],
    },
    runs,
    rollingRadii: [{ wheel: "W1", loadN: 60, runs: ["H1"], estimate: estimate(0.1012, 0.0002, "m", 12) }],
    deflections: [{ wheel: "W2", runs: ["L1"], loadN: [0, 20, 40, 60], deflectionM: [0, 0.001, 0.0018, 0.0024], uncertaintyM: [0.0001, 0.0001, 0.0001, 0.0001] }],
    circumferences: [{ wheel: "W2", setLoadN: 60, measure: "secantStiffness", runs: ["L1", "L2"], mean: estimate(24000, 200, "N/m", 5), range: estimate(900, 80, "N/m", 5), amplitude: undetermined("N/m", "2 contact angles; 4 are needed."), fit: fit("one wave round the wheel", "y = y0 + a · cos θ", [], points([0, 1.5, 3, 4.5], (x) => 24000 + 300 * Math.cos(x), 80, "L"), "undetermined"), wave: [] }],
    coreDifferences: [{ wheel: "W2", frame: hostileName, setLoadN: 60, runs: ["L1", "L9"], differences: [{ measure: "loopEnergy", label: "Energy of the load–deflection loop", withCore: estimate(0.06, 0.001, "J", 8), bare: estimate(0.04, 0.001, "J", 8), core: estimate(0.02, 0.0008, "J", 8) }] }],
    conformity: [{ wheel: "W1", setLoadN: 110, from: "pad", ground: "step", runs: ["P2", "P1"], index: estimate(0.94, 0.02, "1", 30), area: estimate(0.52, 0.02, "1", 30) }, { wheel: hostileName, setLoadN: 110, from: "image", ground: "rock", runs: ["P3", "P1"], index: undetermined("1", "no cell is in contact at the declared threshold"), area: estimate(0.4, 0.02, "1", 30) }],
    climbCurves: [climbCurve("W1", false), climbCurve(hostileName, true)],
    pullCurves: ["W1", "W2", hostileName].flatMap((wheel, w) => [40, 80].map((load, l) => pullCurve(wheel, w, load, l))),
    dropFits: [dropFits("W1", false), dropFits(hostileName, true)],
    endurance: sampleEndurance(hostileName),
    covariateEffects: [{ wheel: "W1", covariate: "coneGradient", estimate: estimate(0.012, 0.004, "1", 6), runs: ["T1"], middle: 4e6 }, { wheel: hostileName, covariate: "speed", estimate: undetermined("1", "1 different value of carriage speed; 3 are needed"), runs: [], middle: Number.NaN }],
    repeatability: [
      { measure: "pullCoefficient", unit: "1", pooledSd: 0.0082, degreesOfFreedom: 14, conditions: [{ wheel: "W1", condition: "40 N, slip 20 %", runs: ["T1", "T2"], mean: 0.31, sd: 0.008, scatter: { sd: 0.0082, degreesOfFreedom: 14 }, estimate: estimate(0.31, 0.006, "1", 14) }, { wheel: hostileName, condition: "80 N", runs: ["T3"], mean: 0.28, sd: null, scatter: { sd: 0.0082, degreesOfFreedom: 14 }, estimate: estimate(0.28, 0.009, "1", 14) }] },
      { measure: "sinkageRunning", unit: "m", pooledSd: null, degreesOfFreedom: 0, conditions: [] },
    ],
    rankings: [
      { label: "Pull coefficient at 20 % slip", better: "more", condition: "40 N", repeated: true, unranked: [{ wheel: "W2", why: "no curve" }], places: [{ wheel: "W1", estimate: estimate(0.31, 0.006, "1", 14), behind: null, probability: null, apart: false }, { wheel: hostileName, estimate: estimate(0.28, 0.009, "1", 14), behind: estimate(0.03, 0.005, "1", 14), probability: 0.0002, apart: true }] },
      { label: "Sinkage, running", better: "less", condition: "traction, 40 N, slip 0.2", repeated: false, unranked: [], places: [{ wheel: "W1", estimate: estimate(0.006, 0.0004, "m", 5), behind: null, probability: null, apart: false }, { wheel: "W2", estimate: estimate(0.0061, 0.0004, "m", 5), behind: { ...estimate(0.0001, 0.0004, "m", 5), degreesOfFreedom: 0 }, probability: Number.NaN, apart: false }] },
    ],
    soil: soilResult(),
    wheelSoil: sampleWheelSoil(hostileName),
    coneTrend: null,
    coneIndexTrend: null,
    cones: [{ bed: "B1", acceptance: "look", gradient: estimate(3.05e6, 4e4, "Pa/m", 5), index: estimate(2.3e5, 4e3, "Pa", 1), profiles: [{ position: "left", place: { xM: 0.2, yM: -0.1 }, indexPa: 234000 }, { position: "right", place: { xM: 0.6, yM: 0.1 }, indexPa: 225000 }, { position: hostileName, place: null, indexPa: 229000 }], findings: [finding("cone-target", "look", "the gradient is 12 % off its target", { measured: 0.12, limit: 0.1 })] }],
    findings: [finding("unclaimed-log", "note", "one log belongs to no run")],
    unclaimedFiles: ["logs/<stray>.csv"],
    drawbarVersion: "0.0.0-sample",
  };
}

export function estimate<U extends Unit>(value: number, u: number, unit: U, degreesOfFreedom: number): Estimate<U> {
  const row = { effect: u * 0.6, sharedBy: "calibration SIX-4", degreesOfFreedom: Infinity };
  const whole = estimateFrom(value, unit, "mean over whole revolutions", [{ cause: "calibration SIX-4", ...row }, { cause: "scatter between revolutions", effect: -u * 0.8, sharedBy: null, degreesOfFreedom }, { cause: "slip radius", effect: u * 0.01, sharedBy: null, degreesOfFreedom }]);
  return { ...whole, standardUncertainty: u, degreesOfFreedom };
}

function plan(id: string, kind: RunPlan["kind"], rest: Partial<RunPlan> = {}): RunPlan {
  return { id, sheetId: id, kind, wheel: "W1", bed: "B1", setLoadN: null, setSlip: null, setSpeedMps: null, repeat: "1", pass: null, block: null, dropHeightM: null, plate: null, shearAreaM2: null, normalStressPa: null, contactAngleRad: null, obstacle: null, footprint: null, remark: "", excluded: null, line: 2, more: {}, ...rest };
}

function result(of: RunPlan, rest: Partial<RunResult> = {}): RunResult {
  return { plan: of, verdict: "go", reasons: [], measures: [], curves: [], fits: [], findings: [], issues: [], segments: [], traces: [], sampling: [], alignments: [], windowChoices: [], picture: null, sources: [], steps: [], ...rest };
}

function measure(name: string, label: string, value: Estimate): Measure {
  return { name, label, estimate: value, segment: { kind: "steady", fromS: 4, toS: 9, reason: "whole revolutions" } };
}

function tractionRuns(): RunResult[] {
  return ["W1", "W2", hostileName].flatMap((wheel, w) =>
    [40, 80].flatMap((load, l) =>
      [0.05, 0.1, 0.2, 0.4].map((slip, s) => {
        const id = `T${w * 8 + l * 4 + s + 1}`;
        const times = Array.from({ length: 300 }, (_, i) => i / 25);
        return result(plan(id, "traction", { wheel, setLoadN: load, setSlip: slip, setSpeedMps: 0.05, remark: id === "T1" ? "belt squeaked </script><b>" : "", more: { "room </p>": { text: "=1+1" } } }), {
          verdict: id === "T2" ? "look" : id === "T3" ? "repeat" : "go",
          reasons: id === "T3" ? ["the zero of the drawbar pull drifted by 1.4 % of range", "the load wandered"] : id === "T2" ? ["the load wandered by 4 %"] : [],
          measures: [
            measure("slip", "Slip", estimate(slip, 0.004, "1", 8)),
            measure("pullCoefficient", "Drawbar pull coefficient", estimate(0.4 * (1 - Math.exp(-slip / 0.1)) - 0.05 * w, 0.008, "1", 6)),
            measure("sinkageRunning", "Sinkage, running", id === "T5" ? undetermined("m", "the first touch was not found") : estimate(0.006 + slip * 0.02 + 0.002 * l, 0.0004, "m", 5)),
            measure("tractiveEfficiency", "Tractive efficiency", s === 0 ? undetermined("1", "torque and pull are too close to zero", 0.21) : estimate(0.4, 0.02, "1", 6)),
          ],
          findings: s === 2 ? [finding("zero-drift", "reject", "the zero of the drawbar pull drifted; run again after 30 minutes of warm-up", { channel: "drawbarPull", fromS: 5, toS: 6, measured: 0.014, limit: 0.01 })] : [],
          segments: [{ kind: "preZero", fromS: 0, toS: 2, reason: "as stated" }, { kind: "steady", fromS: 4, toS: 9, reason: "5 whole revolutions" }, { kind: "postZero", fromS: 10, toS: 12, reason: "as stated" }],
          traces: [
            { channel: "drawbarPull", label: "Drawbar pull", unit: "N", timesS: times, values: times.map((t) => (t > 6 && t < 6.3 ? null : t < 2 || t > 10 ? 0.1 * Math.sin(40 * t) : 12 + Math.sin(3 * t))) },
            { channel: "verticalLoad", label: `Vertical load ${hostileName}<!--`, unit: "N", timesS: times, values: times.map((t) => (t < 2 || t > 10 ? 0 : load + Math.cos(7 * t))) },
          ],
          sampling: [
            { logger: "frame", file: "logs/R1_frame.txt", statedRateHz: null, intervals: { count: 4000, median: 0.005, low: 0.0049, high: 0.0051, shortest: 0.0048, longest: 0.025, jitter: 4e-5, gaps: 1, missing: 4, duplicates: 0, backward: 0, rollovers: 0 } },
            { logger: "drive", file: "logs/R1_drive.csv", statedRateHz: 100, intervals: null },
          ],
          alignments: [{ logger: "drive", method: "two shared events", offset: { ...estimate(1.2034, 0.0004, "s", 3), budget: [] }, ratePpm: { value: 41.2, standardUncertainty: 3.1 } }],
          windowChoices: [{ label: "one revolution later", fromS: 5, toS: 9, pullCoefficient: 0.31234 }],
          sources: [{ file: `logs/${id}_frame.txt`, sha256: "c".repeat(64), format: "delimited text; tab", bytes: 123456, rowsRead: 12000, rowsRefused: 1 }],
          steps: [{ name: "zero", version: "1", parameters: { beforeS: 2, state: "wheelLifted" } }],
        });
      }),
    ),
  );
}

function dropRuns(): RunResult[] {
  return [0.05, 0.1, 0.2].map((height, index) =>
    result(plan(`D${index + 1}`, "drop", { wheel: "W2", bed: null, dropHeightM: height }), {
      measures: [
        measure("restitutionFromVelocities", "Restitution from velocities", estimate(0.52 - height, 0.01, "1", 20)),
        measure("restitutionFromHeights", "Restitution from heights", estimate(0.51 - height, 0.02, "1", 20)),
        measure("peakAcceleration", "Peak acceleration", estimate(300 + 2000 * height, 9, "m/s2", 30)),
        measure("dampingRatioDecrement", "Damping ratio, decrement", estimate(0.08, 0.004, "1", 6)),
        measure("dampingRatioLoop", "Damping ratio, loop", undetermined("1", "the wheel stayed down")),
      ],
      curves: dropCurves(height),
    }),
  );
}

function dropCurves(height: number): RunResult["curves"] {
  const turns = Array.from({ length: 20 }, (_, i) => (i * Math.PI) / 19);
  const classes = [30, 100, 300, 1000];
  const curve = (name: string, x: RunResult["curves"][number]["x"], y: RunResult["curves"][number]["y"]): RunResult["curves"][number] => ({ name, x, y, yUncertainty: null, method: "made" });
  const tried = { label: "filter class", unit: "Hz" as const, values: classes };
  return [
    curve("forceCompression", { label: "compression", unit: "m", values: turns.map((t) => 0.05 * height * Math.sin(t)) }, { label: "contact force", unit: "N", values: turns.map((t) => 4000 * height * Math.sin(t) * (1 + 0.2 * Math.cos(t))) }),
    curve("bounceEnergy", { label: "bounces", unit: "1", values: [0, 1, 2] }, { label: "energy of the motion", unit: "J", values: [20 * height, 5 * height, null] }),
    curve("peakByFilter", tried, { label: "peak acceleration", unit: "m/s2", values: classes.map((one) => 300 - 3000 / one) }),
    curve("restitutionByFilter", tried, { label: "restitution from velocities", unit: "1", values: [0.3, 0.45, null, 0.5] }),
  ];
}

function oddRuns(): RunResult[] {
  return [
    result(plan(formulaName, "traction", { wheel: hostileName, excluded: "+the belt tore", remark: "@cell", setLoadN: 40 }), { verdict: "excluded", reasons: ["+the belt tore"] }),
    result(plan("U1", null, { wheel: "W9", remark: "-2 is what he said" }), { verdict: "unread", reasons: [], issues: [{ code: "unknown-wheel", at: "runs.csv line 19", message: 'expected a wheel of wheels.csv, found "W9"', hint: "Correct the cell" }] }),
    result(plan("P1", "plate", { wheel: null, plate: { shape: "circle", widthM: 0.05, lengthM: 0.05 } }), { sources: [{ file: "logs/P1.csv", sha256: "d".repeat(64), format: "delimited text", bytes: 10, rowsRead: 5, rowsRefused: 0 }] }),
    result(plan("S1", "shear", { wheel: null, normalStressPa: 5000, shearAreaM2: 0.01 })),
    result(plan(`Ünïcode-${"long".repeat(12)}`, "hardFloor", { setLoadN: 40 }), { verdict: "look", reasons: ["a name as long as this must not break the page"] }),
  ];
}

function fit(model: string, formula: string, parameters: readonly (readonly [string, string, Estimate])[], points: readonly FitPoint[], verdict: Fit["verdict"] = "determined"): Fit {
  return {
    model,
    formula,
    parameters: parameters.map(([name, symbol, value]) => ({ name, symbol, estimate: value })),
    covariance: parameters.map((_, i) => parameters.map((__, j) => (i === j ? 1e-4 : Number.NaN))),
    points,
    residuals: points.filter((point) => point.kept).map((_, index) => (index % 2 === 0 ? 0.002 : -0.002) * (points[0]?.y ?? 1)),
    degreesOfFreedom: points.length - parameters.length,
    verdict,
    sentence: verdict === "determined" ? "The data hold every constant." : "Fewer than four slips stand apart.",
    findings: [],
  };
}

function points(xs: readonly number[], y: (x: number) => number, u: number, prefix: string): FitPoint[] {
  return xs.map((x, index) => ({ run: `${prefix}${index + 1}`, x, y: y(x), yUncertainty: u, kept: index !== 2, reason: index === 2 ? "rejected: zero drift" : "" }));
}

function dropFits(wheel: string, open: boolean): DayResult["dropFits"][number] {
  const x = Array.from({ length: 10 }, (_, i) => 0.7 + 0.15 * i);
  const e = (v: number, shift = 0): number => 0.7 * v ** -0.1 + shift;
  return {
    wheel,
    restitution: fit("restitution against impact speed", "e = e₁ v^(−q)", open ? [] : [["decline", "q", estimate(0.1, 0.02, "1", 8)]], points([0.7, 1, 1.4, 2], (v) => e(v), 0.01, "D"), open ? "undetermined" : "determined"),
    restitutionBand: open ? null : { x, value: x.map((v) => e(v)), low: x.map((v) => e(v, -0.01)), high: x.map((v) => e(v, 0.01)) },
    contact: fit("contact of a dropped wheel", "F/m = A (d/d₀)^p", open ? [] : [["exponent", "p", estimate(1.4, 0.05, "1", 40)]], points([0.7, 1, 1.4, 2], () => 1.01, 0.02, "D"), open ? "undetermined" : "determined"),
    misfit: open ? Number.NaN : 0.03,
    heldOut: open ? [] : [0.05, 0.1].flatMap((heightM) => ["peak acceleration", "restitution"].map((quantity, i) => ({ heightM, run: "D1", quantity, error: 0.04 * (i - 0.5), inside: i === 0 }))),
    predicted: open ? [] : [{ heightM: 0.3, gravity: 1.62, impactSpeedMps: 0.986, extrapolated: true, cautions: ["extrapolated <beyond>"], acceleration: estimate(120, 4, "m/s2", 40), force: null, compression: estimate(0.009, 0.0004, "m", 40), duration: estimate(0.02, 0.001, "s", 40), restitution: estimate(0.7, 0.02, "1", 40) }],
  };
}

function pullCurve(wheel: string, w: number, load: number, l: number): DayResult["pullCurves"][number] {
  const model = (s: number): number => (0.42 - 0.03 * l) * (1 - Math.exp(-s / 0.09)) - 0.05 * (w + 1);
  const open = w === 2 && l === 1;
  const x = Array.from({ length: 20 }, (_, i) => 0.02 + i * 0.02);
  const nothing = undetermined("1", "Fewer than four slips stand apart.");
  const band = open ? null : { x, value: x.map(model), low: x.map((s) => model(s) - 0.015), high: x.map((s) => model(s) + 0.015) };
  const curve = {
    shape: "saturating" as const,
    knots: [],
    band,
    fit: fit("saturating slip curve", "μ = A·(1 − e^(−s/B)) − C", [["amplitude", "A", open ? undetermined("1", "Fewer than four slips stand apart.") : estimate(0.42, 0.01, "1", 5)]], points([0.05, 0.1, 0.15, 0.2, 0.4], model, 0.008, "T"), open ? "undetermined" : "determined"),
  };
  return {
    wheel,
    setLoadN: load,
    pass: 1,
    ...curve,
    simultaneousBand: band === null ? null : { ...band, low: x.map((s) => model(s) - 0.02), high: x.map((s) => model(s) + 0.02) },
    candidates: [{ ...curve, heldOutError: 0.004, comparable: true, chosen: true }, { ...curve, shape: "monotone", knots: [0.1, 0.2], heldOutError: null, comparable: true, chosen: false }],
    choice: "the simplest within one standard error of the least.",
    scatter: open ? null : { run: 0.004, bed: null, tilt: 0.003, beds: 5, runs: 5, sentence: "Beyond their own uncertainties runs scatter by 0.0040." },
    atPull: [{ pull: 0.1, estimate: open ? nothing : estimate(0.06, 0.004, "1", 5) }],
    grossTraction: curve,
    bestEfficiency: { efficiency: open ? nothing : estimate(0.55, 0.02, "1", 5), slip: open ? nothing : estimate(0.12, 0.01, "1", 5) },
    bothSigns: w === 0 ? { pull: curve, grossTraction: curve } : null,
    selfPropelled: open ? nothing : estimate(0.02, 0.003, "1", 5),
    towed: { slip: nothing, pull: nothing },
    atSlip: [{ slip: 0.2, estimate: open ? undetermined("1", "Fewer than four slips stand apart.") : estimate(model(0.2), 0.006 + 0.002 * l, "1", 5) }],
  };
}

function climbCurve(wheel: string, open: boolean): DayResult["climbCurves"][number] {
  const x = Array.from({ length: 10 }, (_, i) => 0.02 + 0.006 * i);
  const chance = (h: number, shift = 0): number => 1 / (1 + Math.exp((h - 0.05 - shift) / 0.006));
  const why = "The trials are split between 40.0 mm and 50.0 mm.";
  const height = (value: number, low: number, high: number) => (open ? { estimate: undetermined("m", why), low: null, high: null } : { estimate: estimate(value, 0.002, "m", Infinity), low, high });
  return {
    wheel,
    edge: "sharp",
    runs: ["O1", "O2"],
    climbed: 5,
    failed: 5,
    fit: fit("logistic curve of success", "P = 1 / (1 + e^((h − h50) / s))", [], points(x, (h) => (h < 0.05 ? 1 : 0), 0, "O"), open ? "undetermined" : "determined"),
    heights: [{ chance: 0.5, ...height(0.05, 0.046, 0.055) }, { chance: 0.9, ...height(0.037, 0.03, 0.042) }],
    frictionAtHalf: estimate(0.9, 0.05, "1", Infinity),
    heightByFriction: undetermined("m", "no friction between wheel and edge is stated"),
    band: open ? null : { x, value: x.map((h) => chance(h)), low: x.map((h) => chance(h, -0.004)), high: x.map((h) => chance(h, 0.004)) },
  };
}

function soilResult(): DayResult["soil"] {
  const depths = [0.005, 0.01, 0.015, 0.02, 0.03];
  const plate = (width: number): DayResult["soil"]["plateWidths"][number] => {
    const model = (z: number): number => (8e5 + 1e3 / width) * z ** 0.95;
    return { widthM: width, runs: ["P1"], fit: fit("power law", "p = k·zⁿ", [["exponent", "n", estimate(0.95, 0.01, "1", 9)]], points(depths, model, 300, "P"), "determined"), band: { x: depths, value: depths.map(model), low: depths.map((z) => model(z) * 0.95), high: depths.map((z) => model(z) * 1.05) } };
  };
  return {
    pressureSinkage: fit("pressure–sinkage", "p = (k_c/b + k_φ)·zⁿ", [["cohesive modulus", "k_c", estimate(-1040, 900, "N/m^(n+1)", 9)], ["frictional modulus", "k_φ", estimate(812345, 32000, "N/m^(n+2)", 9)], ["exponent", "n", estimate(0.95, 0.01, "1", 9)]], points(depths, (z) => 8e5 * z, 300, "P")),
    plateWidths: [plate(0.05), plate(0.1)],
    shearStrength: fit("Mohr–Coulomb line", "τ = c + σ·tan φ", [["cohesion", "c", estimate(310, 120, "Pa", 6)], ["friction angle", "φ", estimate(0.58, 0.012, "rad", 6)]], points([2000, 5000, 8000, 12000], (s) => 310 + 0.65 * s, 90, "S")),
    jointRegion: Array.from({ length: 24 }, (_, i) => [310 + 240 * Math.cos((i * Math.PI) / 12), 0.58 - 0.02 * Math.cos((i * Math.PI) / 12) + 0.01 * Math.sin((i * Math.PI) / 12)] as const),
    shearCurves: [5000, 12000].map((stress) => ({ normalStressPa: stress, runs: ["S1"], fit: fit("Janosi–Hanamoto curve", "τ = τ_max·(1 − e^(−j/K))", [["shear modulus", "K", estimate(0.0132, 0.0006, "m", 7)]], points([0.002, 0.005, 0.01, 0.02, 0.04], (j) => 0.65 * stress * (1 - Math.exp(-j / 0.0132)), 60, "S")) })),
  };
}
