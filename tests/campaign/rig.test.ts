import { describe, expect, it } from "vitest";
import { exampleDay } from "./exampleDay.ts";
import { changed, lineOf, reading, stopping } from "./issuesOf.ts";

const rig = exampleDay["rig.yaml"];
const places = (changes: Record<string, string>) => stopping(changes).map((issue) => [issue.code, issue.at]);
/** The only issue of a changed rig description. */
function only(from: string | RegExp, to: string) {
  const issues = stopping(changed("rig.yaml", from, to));
  expect(issues).toHaveLength(1);
  return issues[0] as (typeof issues)[number];
}

/** The place of a key on the line on which `text` stands once the description is changed; no text = no line. */
function place(from: string | RegExp, to: string, text: string, path: string): string {
  return `rig.yaml${text === "" ? "" : ` line ${lineOf(changed("rig.yaml", from, to)["rig.yaml"] as string, text)}`}, ${path}`;
}

describe("slip radius", () => {
  it("has no default", () => {
    const issue = only(/slipRadius.*\n/, "");
    expect(issue).toMatchObject({ code: "no-radius-policy", at: "rig.yaml, slipRadius" });
    for (const word of ["no default", "unloaded =", "loaded =", "effective =", "lugs: with"]) expect(issue.hint).toContain(word);
    expect(only("policy: effective, ", "")).toMatchObject({ code: "no-radius-policy", at: "rig.yaml line 4, slipRadius.policy" });
    expect(only(", lugs: with }", " }")).toMatchObject({ code: "no-radius-policy", at: "rig.yaml line 4, slipRadius.lugs" });
    expect(only("policy: effective", "policy: efective")).toMatchObject({ code: "unknown-choice", at: "rig.yaml line 4, slipRadius.policy", hint: "Did you mean effective?" });
  });
});

describe("units", () => {
  const position = "{ column: X, unit: mm, sign: 1, uncertainty: { relative: 0.0005, offset: 0.2 } }";
  const at = "rig.yaml line 36, loggers.drive.channels.carriagePosition";
  it("unknown", () => expect(only(position, "{ column: X, unit: milimetre, sign: 1 }")).toMatchObject({ code: "unknown-unit", at: `${at}.unit`, message: 'expected a unit drawbar knows, found "milimetre"' }));
  it("near another", () => expect(only(position, "{ column: X, unit: MM, sign: 1 }")).toMatchObject({ code: "unknown-unit", hint: expect.stringContaining("Did you mean mm?") }));
  it("of the wrong dimension", () => expect(only(position, "{ column: X, unit: N, sign: 1 }")).toMatchObject({ code: "wrong-dimension", at: `${at}.unit`, message: "expected a unit of length like m, km, cm for carriagePosition, found N (force)" }));
  it("of the wrong dimension after calibration", () => expect(only("gives: kN", "gives: mm")).toMatchObject({ code: "wrong-dimension", at: place("gives: kN", "gives: mm", "gives: mm, table", "loggers.press.channels.pressForce.calibration.gives") }));
  it("a mass where a force is wanted is asked about, not converted", () => {
    const shear = "{ column: S, unit: N, sign: 1 }";
    const issue = only(shear, "{ column: S, unit: kg, sign: 1 }");
    expect(issue).toMatchObject({ code: "mass-for-force", message: "expected a unit of force like N, mN, kN for shearForce, found kg, which is a mass" });
    for (const word of ["standardGravity", "localGravity"]) expect(issue.hint).toContain(word);
    expect(only(shear, "{ column: S, unit: N, sign: 1, massAsForce: localGravity }")).toMatchObject({ code: "not-a-mass" });
    expect(stopping(changed("rig.yaml", position, "{ column: X, unit: kg, sign: 1, massAsForce: localGravity }")).map((found) => found.code)).toEqual(["wrong-dimension", "not-a-mass"]);
    expect(reading(changed("rig.yaml", shear, "{ column: S, unit: lb, sign: 1, massAsForce: standardGravity }")).rig.loggers["box"]?.channels["shearForce"]?.massAsForce).toBe("standardGravity");
  });
  it.each([
    ["volts without a supply", "unit: V", "sensitivity: { output: 2, load: 500 }", "bridge-supply"],
    ["volts with half a supply", "unit: V", "sensitivity: { output: 2, load: 500, excitation: 5 }", "bridge-supply"],
    ["mV/V with a supply", "unit: mV/V", "sensitivity: { output: 2, load: 500, excitation: 5 }", "bridge-supply"],
    ["no bridge", "unit: mm", "sensitivity: { output: 2, load: 500 }", "not-a-bridge"],
    ["no output", "unit: mV/V", "sensitivity: { output: 0, load: 500 }", "calibration-flat"],
    ["two ways", "unit: mV/V", "gain: 2, sensitivity: { output: 2, load: 500 }", "calibration-way"],
    ["gauges that give a force", "unit: mV/V", "strainGauge: { gaugeFactor: 2, bridge: full }", "wrong-dimension"],
  ])("of a bridge: %s", (_, unit, way, code) => {
    expect(only("{ column: S, unit: N, sign: 1 }", `{ column: S, ${unit}, sign: 1, calibration: { gives: N, ${way}, date: 2026-10-01, certificate: SH-1 } }`).code).toBe(code);
  });
  it("of the time column", () => expect(only("column: t, unit: s }", "column: t, unit: mm }")).toMatchObject({ code: "unknown-choice", at: "rig.yaml line 33, loggers.drive.clock.unit" }));
});

describe("channels", () => {
  it.each([
    ["misspelt name", "hubHeight:", "hubHeigth:", "unknown-channel", "hubHeigth", "loggers.frame.channels.hubHeigth"],
    ["unknown name", "boxTemperature: { column: T1, unit: °C, extra: true }", "boxTemperature: { column: T1, unit: °C }", "unknown-channel", "boxTemperature", "loggers.drive.channels.boxTemperature"],
    ["extra on a known quantity", "sync: { column: Trig, unit: V }", "sync: { column: Trig, unit: V, extra: true }", "not-extra", "Trig", "loggers.drive.channels.sync.extra"],
    ["no sign", "{ column: S, unit: N, sign: 1 }", "{ column: S, unit: N }", "missing-sign", "shearForce", "loggers.box.channels.shearForce"],
    ["sign of another size", "{ column: S, unit: N, sign: 1 }", "{ column: S, unit: N, sign: 2 }", "unknown-choice", "shearForce", "loggers.box.channels.shearForce.sign"],
    ["no encoder", /encoder: .*\n/, "", "missing-encoder", "wheelAngle", "loggers.drive.channels.wheelAngle.unit"],
    ["two ways of calibration", "gain: 30.02,", "gain: 30.02, polynomial: [0, 1],", "calibration-way", "gives: mm", "loggers.frame.channels.hubHeight.calibration"],
    ["no way of calibration", "gain: 30.02, offset: 0, ", "", "calibration-way", "gives: mm", "loggers.frame.channels.hubHeight.calibration"],
    ["flat calibration", "gain: 30.02", "gain: 0", "calibration-flat", "gain: 0", "loggers.frame.channels.hubHeight.calibration.gain"],
    ["falling table", "[5, 0.25]", "[-5, 0.25]", "table-not-rising", "[-5, 0.25]", "loggers.press.channels.pressForce.calibration.table.1"],
    ["table with a reading twice", "[5, 0.25]", "[0, 0.25]", "table-not-rising", "[0, 0.25]", "loggers.press.channels.pressForce.calibration.table.1"],
    ["range the wrong way round", "range: [0, 300]", "range: [300, 0]", "range-order", "range: [300", "loggers.frame.channels.hubHeight.range"],
    ["a date that is none", "date: 2026-10-01", "date: 2026-13-01", "out-of-range", "2026-13-01", "loggers.frame.channels.hubHeight.calibration.date"],
    ["a certificate number without quotes", "certificate: POT-17", "certificate: 17", "wrong-type", "certificate: 17", "loggers.frame.channels.hubHeight.calibration.certificate"],
    ["a name with markup", "boxTemperature:", '"<script>":', "bad-name", "<script>", "loggers.drive.channels.<script>"],
    ["a name like a formula", "boxTemperature:", '"=1+1":', "bad-name", "=1+1", "loggers.drive.channels.=1+1"],
  ])("%s", (_, from, to, code, text, path) => expect(only(from, to)).toMatchObject({ code, at: place(from, to, text, path) }));

  it("one mistake elsewhere hides none in channels", () => {
    expect(places({ "rig.yaml": rig.replace("gravity: 9.819\n", "").replace("sign: -1\n", "\n") })).toEqual([
      ["missing", "rig.yaml, gravity"],
      ["missing-sign", `rig.yaml line ${lineOf(rig, "hubHeight:") - 1}, loggers.frame.channels.hubHeight`],
    ]);
  });
});

describe("loggers", () => {
  it.each([
    ["no {run}", "logs/{run}_box.csv", "logs/box.csv", "files-without-run", "files: logs/box.csv", "loggers.box.files"],
    ["another placeholder", "logs/{run}_box.csv", "logs/{run}_{wheel}.csv", "unknown-placeholder", "files: logs/{run}_{wheel}.csv", "loggers.box.files"],
    ["leaves the day folder", "logs/{run}_box.csv", "logs/../../{run}.csv", "path-leaves-folder", "files: logs/../../{run}.csv", "loggers.box.files"],
    ["absolute path", "logs/{run}_box.csv", "/data/{run}.csv", "path-leaves-folder", "files: /data/{run}.csv", "loggers.box.files"],
    ["drive letter", "logs/{run}_box.csv", "C:/data/{run}.csv", "path-leaves-folder", "files: C:/data/{run}.csv", "loggers.box.files"],
    ["backslashes", "logs/{run}_box.csv", "logs\\{run}.csv", "backslash-in-path", "files: logs\\{run}.csv", "loggers.box.files"],
    ["files of another logger", "logs/{run}_drive.csv", "logs/{run}_FRAME.txt", "same-files", "_FRAME", "loggers.drive.files"],
    ["unknown zone", "zone: UTC }", "zone: Europe/Skarvhamn }", "unknown-zone", "kind: wall", "loggers.frame.clock.zone"],
    ["zone of the computer", "zone: UTC }", "zone: local }", "unknown-zone", "kind: wall", "loggers.frame.clock.zone"],
    ["a quantity from two loggers", "boxTemperature: { column: T1, unit: °C, extra: true }", "hubHeight: { column: T1, unit: mm, sign: 1 }", "channel-twice", "column: T1", "loggers.drive.channels.hubHeight"],
    ["unknown kind of clock", "kind: elapsed, column: t, unit: s }\n    channels:\n      wheel", "kind: elapse, column: t, unit: s }\n    channels:\n      wheel", "unknown-choice", "elapse,", "loggers.drive.clock.kind"],
  ])("%s", (_, from, to, code, text, path) => expect(only(from, to)).toMatchObject({ code, at: place(from, to, text, path) }));

  it("takes two parts of one file as two loggers, each with its clock", () => {
    const same = rig.replace("logs/{run}_drive.csv", "logs/{run}_frame.txt");
    const parts = same.replace("    files: logs/{run}_frame.txt\n", "    files: logs/{run}_frame.txt\n    part: /wrench\n").replace("    clock: { kind: elapsed, column: t, unit: s }\n    channels:\n      wheel", "    part: /joint_states\n    storedGain: ignore\n    clock: { kind: message, stamp: header, epoch: unix }\n    channels:\n      wheel");
    expect(reading({ "rig.yaml": parts }).rig.loggers["drive"]).toMatchObject({ part: "/joint_states", storedGain: "ignore", clock: { kind: "message", stamp: "header", epoch: "unix" } });
    expect(places({ "rig.yaml": parts.replace("/joint_states", "/wrench") }).map(([code]) => code)).toEqual(["same-files"]);
    expect(reading(changed("rig.yaml", "kind: elapsed, column: t, unit: s }\n    channels:\n      wheel", "kind: stamp, column: Time, zone: Europe/Oslo }\n    channels:\n      wheel")).rig.loggers["drive"]?.clock).toEqual({ kind: "stamp", column: "Time", zone: "Europe/Oslo" });
  });

  it("takes zones by name and by offset", () => {
    for (const zone of ["Europe/Oslo", "UTC+2", "UTC-03:30"]) expect(reading(changed("rig.yaml", "zone: UTC }", `zone: ${zone} }`)).issues).toEqual([]);
  });
});

describe("blocks that need each other", () => {
  it.each([
    ["alignment absent", /alignment: .*\n/, "", "missing-alignment", "", "alignment"],
    ["alignment's reference unknown", "reference: frame", "reference: frames", "unknown-logger", "alignment:", "alignment.reference"],
    ["alignment's reference elsewhere", "reference: frame", "reference: box", "reference-absent", "alignment:", "alignment.reference"],
    ["alignment's channel absent", "      sync: { column: Trig, unit: V }\n", "", "missing-channel", "channels:\n      wheelAngle", "loggers.drive.channels"],
    ["six-axis logger unknown", "logger: frame", "logger: fram", "unknown-logger", "  logger: ", "sixAxis.logger"],
    ["bridge absent", "      bridge4: { column: B4, unit: mV/V }\n", "", "missing-channel", "  logger: ", "sixAxis.logger"],
    ["singular matrix", "[0, 500, 1, 2, 0, 0]", "[1000, 2, 0, 0, 4, 0]", "singular-matrix", "  matrix:", "sixAxis.matrix"],
    ["moment given as a force", "output: forceX", "output: momentX", "wrong-dimension", "drawbarPull:", "sixAxis.gives.drawbarPull.output"],
    ["output used twice", "output: forceY", "output: forceX", "output-twice", "sideForce: {", "sixAxis.gives.sideForce.output"],
    ["quantity from sensor and channel", "boxTemperature: { column: T1, unit: °C, extra: true }", "sideForce: { column: T1, unit: N, sign: 1 }", "channel-twice", "sideForce: { output", "sixAxis.gives.sideForce"],
    ["zero absent", /zero: .*\n/, "", "missing-zero", "", "zero"],
    ["drop absent", /drop: .*\n/, "", "missing-drop", "", "drop"],
    ["soil absent", /soil: .*\n/, "", "missing-soil", "", "soil"],
    ["no logger for a kind", "kinds: [drop]", "kinds: [loadDeflection]", "kind-without-logger", "loggers:", "loggers"],
    ["limits the wrong way round", "soil: {", "tolerances: { impulse: { look: 0.2, reject: 0.1 } }\nsoil: {", "tolerance-order", "tolerances", "tolerances.impulse"],
  ])("%s", (_, from, to, code, text, path) => expect(stopping(changed("rig.yaml", from, to)).map((issue) => [issue.code, issue.at])).toContainEqual([code, place(from, to, text, path)]));

  it("asks for nothing that only excluded runs would need", () => {
    const day = reading({ ...changed("rig.yaml", /drop: .*\n/, ""), "runs.csv": exampleDay["runs.csv"].replace("C,250,,,,,,,,,IS", "C,250,,,,,,,yes,cable broke,IS") });
    expect(day.runs.find((run) => run.id === "D01")?.excluded).toBe("cable broke");
  });
});

describe("YAML", () => {
  it("refuses anchors that explode, at once", () => {
    const bomb = `a0: &a0 [x, x]\n${Array.from({ length: 9 }, (_, i) => `a${i + 1}: &a${i + 1} [${Array.from({ length: 9 }, () => `*a${i}`).join(", ")}]\n`).join("")}`;
    const started = performance.now();
    expect(places({ "rig.yaml": bomb + rig })).toEqual([["too-many-aliases", "rig.yaml line 3"]]);
    expect(performance.now() - started).toBeLessThan(4000);
  });
  it("allows a block to be repeated", () => {
    const day = reading({ "rig.yaml": rig.replace("uncertainty: { relative: 0.0005, offset: 0.2 }", "uncertainty: &u { relative: 0.0005, offset: 0.02 }").replace("unit: mm, sign: 1, uncertainty: { relative: 0.0005, offset: 0.02 }", "unit: mm, sign: 1, uncertainty: *u") });
    expect(day.rig.loggers["press"]?.channels["pressDisplacement"]?.uncertainty).toEqual({ relative: 0.0005, offset: 0.02 });
  });
  it.each([
    ["an anchor inside itself", "a: &a [*a]\n", "bad-alias", "rig.yaml line 1"],
    ["an anchor nobody set", "a: *b\n", "bad-alias", "rig.yaml line 1"],
    ["a custom tag", "a: !thing 1\n", "bad-yaml", "rig.yaml line 1"],
    ["a binary tag", "a: !!binary aGVsbG8=\n", "bad-yaml", "rig.yaml line 1"],
    ["a key twice", "gravity: 9.8\n", "bad-yaml", "rig.yaml line 4"],
    ["two documents", "a: 1\n---\n", "bad-yaml", "rig.yaml line 2"],
    ["an unclosed bracket", "a: [1, 2\n", "bad-yaml", "rig.yaml line 2"],
    ["a misspelt key", "gravitiy: 9.8\n", "unknown-key", "rig.yaml line 1, gravitiy"],
    ["a key named __proto__", "__proto__: { a: 1 }\n", "unknown-key", "rig.yaml line 1, __proto__"],
  ])("refuses %s", (_, top, code, at) => expect(places({ "rig.yaml": top + rig })[0]).toEqual([code, at]));
  it("refuses a file that is no description", () => {
    expect(places({ "rig.yaml": "" })).toEqual([["empty-file", "rig.yaml"]]);
    expect(places({ "rig.yaml": `${rig}#${"x".repeat(1_000_001)}\n` })).toEqual([["file-too-large", "rig.yaml"]]);
  });
});

describe("alignment by trigger", () => {
  const shared = "alignment: { method: sharedEvents, reference: frame, channel: sync, level: 2.5 }";
  const edge = "{ channel: sync, level: 2.5, edge: rising }";
  const trigger = (frame: string, drive: string) => `alignment: { method: trigger, reference: frame, triggers: { frame: ${frame}, drive: ${drive} } }`;
  it("takes an edge of one log and the declared time of another", () => {
    expect(reading(changed("rig.yaml", shared, trigger(edge, "{ atS: [0], uncertaintyS: 0.001 }"))).rig.alignment?.method).toBe("trigger");
  });
  it.each([
    ["half an edge", "{ channel: sync, level: 2.5 }", "trigger-way"],
    ["an edge and a time", "{ channel: sync, level: 2.5, edge: rising, atS: [0], uncertaintyS: 0.1 }", "trigger-way"],
    ["a time without its uncertainty", "{ atS: [0] }", "trigger-way"],
    ["nothing", "{}", "trigger-way"],
    ["a channel that is not there", "{ channel: sink, level: 2.5, edge: rising }", "missing-channel"],
    ["times out of order", "{ atS: [3, 1], uncertaintyS: 0.001 }", "trigger-order"],
  ])("refuses %s", (_, drive, code) => {
    expect(only(shared, trigger(edge, drive))).toMatchObject({ code, at: expect.stringContaining("alignment.triggers.drive") as string });
  });
  it("asks for the trigger of a logger that has none", () => {
    expect(only(shared, `alignment: { method: trigger, reference: frame, triggers: { frame: ${edge} } }`)).toMatchObject({ code: "missing-trigger" });
  });
});

describe("tare, inertia and ropes", () => {
  const after = "gravity: 9.819\n";
  const added = (block: string) => stopping(changed("rig.yaml", after, `${after}${block}\n`)).map((issue) => [issue.code, issue.at.replace(/ line \d+/, "")]);
  const stated = "stated: { massUncertainty: 0.01 }";
  const attitude = "attitude: { zero: 0, run: 2, uncertainty: 0.1 }";
  const at = (tilts: readonly number[], more = "") => `[${tilts.map((tilt) => `{ tilt: ${tilt}, drawbarPull: 0, verticalLoad: -20${more} }`).join(", ")}]`;
  it("read as written", () => {
    const { rig: read } = reading(changed("rig.yaml", after, `${after}tare: { axes: level, ${stated}, ${attitude} }\ninertia: { mass: 12, massUncertainty: 0.1 }\noffLoad: { mass: 3, massUncertainty: 0.01, ratio: 1, friction: 0.02, weighed: 10, weighedUncertainty: 0.01, ropeAngle: 0, ropeAngleUncertainty: 1 }\n`));
    expect([read.tare?.axes, read.inertia?.mass, read.offLoad?.weighed]).toEqual(["level", 12, 10]);
  });
  it.each([
    ["no axes", `tare: { ${stated}, ${attitude} }`, "missing", "rig.yaml, tare.axes"],
    ["no way to know the weight", `tare: { axes: level, ${attitude} }`, "tare-way", "rig.yaml, tare"],
    ["no way to know the attitude", `tare: { axes: level, ${stated} }`, "missing-attitude", "rig.yaml, tare.attitude"],
    ["a centre without its uncertainty", `tare: { axes: level, axle: { forward: 0, up: 0 }, ${attitude}, stated: { massUncertainty: 0.01, centreOfMass: { forward: 0, up: -0.1 } } }`, "tare-centre", "rig.yaml, tare.stated"],
    ["a centre without the axle", `tare: { axes: level, ${attitude}, stated: { massUncertainty: 0.01, centreOfMass: { forward: 0, up: -0.1 }, centreUncertainty: 0.01 } }`, "missing-axle", "rig.yaml, tare.axle"],
    ["two attitudes", `tare: { axes: level, ${attitude}, readings: { wheelMass: 1, forceUncertainty: 0.1, at: ${at([0, 10, 10])} } }`, "tare-attitudes", "rig.yaml, tare.readings.at"],
    ["torques without their uncertainty", `tare: { axes: level, axle: { forward: 0, up: 0 }, ${attitude}, readings: { wheelMass: 1, forceUncertainty: 0.1, at: ${at([-10, 0, 10], ", wheelTorque: 1")} } }`, "tare-torque", "rig.yaml, tare.readings"],
    ["moments of inertia without theirs", "inertia: { mass: 1, massUncertainty: 0.1, turning: { W1: 0.01 } }", "inertia-turning", "rig.yaml, inertia"],
    ["a rope that lies flat", "offLoad: { mass: 3, massUncertainty: 0.01, ratio: 1, friction: 0.02, weighed: 10, weighedUncertainty: 0.01, ropeAngle: 90, ropeAngleUncertainty: 1 }", "out-of-range", "rig.yaml, offLoad.ropeAngle"],
    ["a pull without its direction", "hangingPull: { mass: 3, massUncertainty: 0.01, ratio: 1, friction: 0.02 }", "missing", "rig.yaml, hangingPull.pulls"],
  ])("asks: %s", (_, block, code, place) => expect(added(block)).toEqual([[code, place]]));
});
