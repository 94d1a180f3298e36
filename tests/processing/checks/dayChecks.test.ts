import { describe, expect, test } from "vitest";
import type { BedRecord, Campaign, RunPlan, WheelRecord } from "../../../src/campaign/campaign.ts";
import { estimateFrom } from "../../../src/core/estimate.ts";
import type { Finding } from "../../../src/core/finding.ts";
import type { Unit } from "../../../src/core/units.ts";
import { bedRecordFindings } from "../../../src/processing/checks/bedRecords.ts";
import { dayChecks } from "../../../src/processing/checks/dayChecks.ts";
import { deflectionDiffers } from "../../../src/processing/checks/deflectionDiffers.ts";
import { floorOffset } from "../../../src/processing/checks/floorOffset.ts";
import { recordRadius } from "../../../src/processing/checks/recordRadius.ts";
import { repeatsFindings } from "../../../src/processing/checks/repeats.ts";
import { torqueAgainstPull } from "../../../src/processing/checks/torqueAgainstPull.ts";
import type { RunResult } from "../../../src/processing/dayResult.ts";
import type { References } from "../../../src/processing/references.ts";
import { agrees } from "../../helpers/agrees.ts";
import { runResult } from "../../helpers/runResult.ts";
import { rigWith, wheel as rigid } from "../recordings.ts";
import { plan } from "./rolled.ts";

const wheel: WheelRecord = { ...rigid, flexible: true };
const bed = (id: string, more: BedRecord["more"] = {}, moisture: number | null = null): BedRecord => ({ id, densityKgM3: null, moisture, targetGradientPaM: null, remark: "", more, line: 2 });
const campaign = (beds: readonly BedRecord[] = []): Campaign => ({ rig: rigWith(), runs: [], wheels: [wheel], beds, cones: [], inspections: [], issues: [], files: [] });
const exact = <U extends Unit>(value: number, unit: U, u = 0) => estimateFrom(value, unit, "test", [{ cause: "test", effect: u, sharedBy: null, degreesOfFreedom: Infinity }]);
const references: References = {
  rollingRadii: [{ wheel: "W1", loadN: 60, runs: ["H1"], estimate: exact(0.1035, "m") }],
  drags: [{ wheel: "W1", run: "F1", wheelSpeed: exact(2.5, "rad/s"), torque: exact(0.1, "N.m") }],
  deflections: [{ wheel: "W1", runs: ["L1"], loadN: [0, 120], deflectionM: [0, 0.008], uncertaintyM: [0, 0] }],
};
const codes = (found: readonly Finding[]): string[] => found.map((one) => `${one.code} ${one.severity}`);
const units: Readonly<Record<string, Unit>> = { drawbarPull: "N", verticalLoad: "N", wheelTorque: "N.m", floorTorque: "N.m", slipRadius: "m", rollingRadius: "m", wheelSpeed: "rad/s", pullCoefficient: "1", hubDrop: "m", sinkageRunning: "m" };
/** A reduced run of given values, each known to `u`. */
const run = (part: Partial<RunPlan>, values: Readonly<Record<string, number>>, u = 1e-4): RunResult =>
  runResult({ ...plan, ...part }, Object.fromEntries(Object.entries(values).map(([name, value]) => [name, { value, unit: units[name] as Unit, rows: [{ cause: `own ${part.id ?? ""}`, effect: u, sharedBy: null, degreesOfFreedom: Infinity }] }])));

describe("record and rolled radius", () => {
  const rolledOn = (m: number): Finding[] => recordRadius(campaign(), { ...references, rollingRadii: [{ wheel: "W1", loadN: 60, runs: ["H1"], estimate: exact(m, "m") }] });
  test("between the tips and the tips less the deflection: nothing", () => {
    // Tips at 105 mm, 4 mm of deflection at 60 N, a hundredth either way.
    for (const m of [0.1055, 0.103, 0.1005]) expect(rolledOn(m)).toEqual([]);
  });
  test("beyond: look", () => {
    for (const m of [0.107, 0.0995]) expect(codes(rolledOn(m))).toEqual(["record-radius look"]);
  });
  test("a diameter for a radius, or an inch for a millimetre, is named", () => {
    expect(rolledOn(0.0525)[0]?.message).toContain("diameter and radius");
    expect(rolledOn(0.105 / 25.4)[0]?.message).toContain("inch and millimetre");
  });
});

describe("hard floor", () => {
  const floor = (id: string, loadN: number, frictionN: number): RunResult => run({ id, kind: "hardFloor", setLoadN: loadN }, { floorTorque: 0.1 + 0.1 * 0.02 * loadN, rollingRadius: 0.1, drawbarPull: -frictionN, verticalLoad: loadN, wheelSpeed: 2.5, hubDrop: (0.008 * loadN) / 120 });
  test("resistance in step with the load says nothing; with one load nothing can be said", () => {
    expect(floorOffset([floor("H1", 40, 0), floor("H2", 70, 0)], campaign(), references)).toEqual([]);
    expect(floorOffset([floor("H1", 40, 5), floor("H2", 45, 5)], campaign(), references)).toEqual([]);
  });
  test("what is left at no load is found", () => {
    const [found] = floorOffset([floor("H1", 40, 1.1), floor("H2", 70, 1.1)], campaign(), references);
    expect(found?.code).toBe("floor-offset");
    agrees(found?.measured ?? NaN, { expected: 1.1 / 55, relative: 1e-9, source: "1.1 N over the mean of 40 and 70 N" });
  });
  test("hub drop and press agree, or a unit is named", () => {
    const far = run({ id: "H1", kind: "hardFloor" }, { hubDrop: 0.0102, verticalLoad: 60 });
    expect(deflectionDiffers([floor("H1", 60, 0)], campaign(), references)).toEqual([]);
    expect(deflectionDiffers([far], campaign(), references)[0]).toMatchObject({ code: "deflection-differs", message: expect.stringContaining("inch and centimetre") as string });
  });
});

describe("torque against pull", () => {
  const slips = [-0.1, 0.1, 0.2, 0.4];
  const group = (gain: number, sign = 1): RunResult[] => slips.map((setSlip, i) => run({ id: `T${i}`, setSlip }, { drawbarPull: (sign * (12 * i - 10)) / gain, wheelTorque: 0.1 * (12 * i + 1), slipRadius: 0.1, verticalLoad: 60 }));
  test("growing together: nothing", () => expect(torqueAgainstPull(group(1), campaign())).toEqual([]));
  test("pound-force in one of them is named", () => expect(torqueAgainstPull(group(4.448), campaign())[0]).toMatchObject({ code: "torque-against-pull", severity: "reject", message: expect.stringContaining("pound-force") as string }));
  test("a reversed sign", () => expect(torqueAgainstPull(group(1, -1), campaign())[0]?.message).toContain("opposite"));
  test("two slips, or hardly any growth, say nothing", () => {
    expect(torqueAgainstPull(group(4).slice(0, 2), campaign())).toEqual([]);
    expect(torqueAgainstPull(group(1).map((one) => ({ ...one, measures: one.measures.map((m) => (m.name === "drawbarPull" || m.name === "wheelTorque" ? { ...m, estimate: exact(1, m.estimate.unit) } : m)) })), campaign())).toEqual([]);
  });
});

describe("repeats", () => {
  const pulls = (values: readonly number[], beds: readonly string[]): RunResult[] => values.map((value, i) => run({ id: `C${i + 1}`, bed: beds[i] ?? null }, { pullCoefficient: value }, 0.001));
  test("scatter is no trend", () => expect(repeatsFindings(pulls([0.15, 0.16, 0.149, 0.158, 0.151], ["B1", "B2", "B3", "B4", "B5"]), campaign())).toEqual([]));
  test("a drift through the day", () => {
    const [found] = repeatsFindings(pulls([0.15, 0.161, 0.169, 0.181, 0.19], ["B1", "B2", "B3", "B4", "B5"]), campaign());
    expect(found).toMatchObject({ code: "order-trend", severity: "look" });
    agrees(found?.measured ?? NaN, { expected: 0.04, within: 1e-9, source: "least squares of 0, 11, 19, 31, 40 on 0 … 4: 10 a step" });
  });
  test("one bed used twice", () => expect(codes(repeatsFindings(pulls([0.15, 0.2], ["B1", "B1"]), campaign()))).toEqual(["bed-changed look"]));
  test("what their own uncertainty explains is not held against a bed", () => {
    const wide = pulls([0.15, 0.2], ["B1", "B1"]).map((one) => ({ ...one, measures: one.measures.map((m) => ({ ...m, estimate: exact(m.estimate.value, "1", 0.02) })) }));
    expect(repeatsFindings(wide, campaign())).toEqual([]);
  });
  test("rejected runs do not count", () => expect(repeatsFindings(pulls([0.15, 0.2], ["B1", "B1"]).map((one) => ({ ...one, verdict: "repeat" as const })), campaign())).toEqual([]));
});

describe("bed records", () => {
  const used = [run({ id: "T1", bed: "B1" }, { sinkageRunning: 0.012 })];
  const mm = (value: number) => ({ value, unit: "mm" as const });
  const of = (...beds: readonly BedRecord[]): string[] => codes(bedRecordFindings(used, campaign(beds)));
  test("deep and wide enough, or not stated: nothing", () => {
    expect(of(bed("B1", { "soil depth": mm(215), "side clearance": mm(90) }))).toEqual([]);
    expect(of(bed("B1"))).toEqual([]);
  });
  test("too shallow and too narrow, each said", () => expect(of(bed("B1", { "soil depth": mm(200), "side clearance": mm(70) }))).toEqual(["bed-too-small look", "bed-too-small look"]));
  test("a wheel that sinks deep needs more", () => {
    const sunk = [run({ id: "T1", bed: "B1" }, { sinkageRunning: 0.05 })];
    expect(codes(bedRecordFindings(sunk, campaign([bed("B1", { "soil depth": mm(240) })])))).toEqual(["bed-too-small look"]);
  });
  test("a bed no wheel ran on is not judged", () => expect(of(bed("B9", { "soil depth": mm(10) }))).toEqual([]));
  test("cone: worn, new, small, hurried", () => {
    expect(of(bed("B1", { "cone diameter": mm(19.5) }))).toEqual(["cone-worn look"]);
    expect(of(bed("B1", { "cone diameter": mm(20.2) }), bed("B2", { "cone diameter": mm(12.7) }))).toEqual([]);
    expect(of(bed("B1", { "cone rate": { value: 60, unit: "mm/s" } }))).toEqual(["cone-rate look"]);
  });
  test("moisture that differs between beds", () => {
    expect(of(bed("B1", {}, 0.003), bed("B2", {}, 0.0035))).toEqual([]);
    expect(of(bed("B1", {}, 0.003), bed("B2", {}, 0.005))).toEqual(["moisture-spread look"]);
  });
});

test("a day without runs has nothing to say", () => expect(dayChecks([], campaign(), { rollingRadii: [], drags: [], deflections: [] })).toEqual([]));
