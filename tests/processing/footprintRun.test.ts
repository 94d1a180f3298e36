import { expect, test } from "vitest";
import type { RunPlan } from "../../src/campaign/campaign.ts";
import { InputError } from "../../src/core/errors.ts";
import { reduceFootprintRun } from "../../src/processing/footprintRun.ts";
import { plan, rig } from "../helpers/pressRun.ts";
import { wheel } from "./recordings.ts";

const noReferences = { rollingRadii: [], drags: [], deflections: [] };
const described = rig({
  footprint: {
    pad: { files: "logs/{run}.csv", along: "rows", delimiter: ";", decimal: ".", unit: "kPa", cell: [0.005, 0.01], cellUncertainty: 0.002, contactAbove: 1000, relativeUncertainty: 0.05, date: "2026-01-01", certificate: "PAD-1" },
    image: { files: "logs/{run}.png", along: "columns", pixel: 0.001, pixelUncertainty: 0.01, contact: "dark", threshold: 128 },
  },
});

/** A grid of the given values as its reader gives it. */
async function reduce(from: "pad" | "image", rows: number, columns: number, of: (row: number, column: number) => number, rest: Partial<RunPlan> = {}) {
  const table = { timesS: Float64Array.from({ length: rows }, (_, row) => row), startedAt: null, metadata: [], evidence: [], findings: [], source: { file: "f", sha256: "", format: "", bytes: 1, rowsRead: rows, rowsRefused: 0 }, columns: Array.from({ length: columns }, (_, column) => ({ name: `#${column + 1}`, unit: null, overloaded: [], samples: Float64Array.from({ length: rows }, (__, row) => of(row, column)) })) };
  return reduceFootprintRun(plan("footprint", { wheel: "W1", setLoadN: 60, footprint: { from, ground: "flat" }, ...rest }), wheel, described, noReferences, () => table);
}

const within = (low: number, high: number, value: number): boolean => value >= low && value < high;
/** 8 cells of 5 mm along the row and 6 of 10 mm across, all at 25 kPa: 2400 mm² and 60 N. */
const block = (kPa: number) => (row: number, column: number): number => (within(2, 8, row) && within(4, 12, column) ? kPa : 0);
const valueOf = (reduced: Awaited<ReturnType<typeof reduce>>, name: string): number => reduced.measures.find((measure) => measure.name === name)?.estimate.value ?? Number.NaN;

test("a pad's block of even pressure, worked by hand", async () => {
  const reduced = await reduce("pad", 10, 16, block(25));
  // 48 cells with 5 · 7 corners between them: 35 · 50 mm²; half a cell off at either end of eight,
  // and half of what may be hidden there back on: 1 kPa of threshold over a quarter of 25 kPa is 0.16 of a cell
  expect(valueOf(reduced, "contactArea")).toBeCloseTo(35 * 50e-6, 12);
  expect(valueOf(reduced, "contactLength")).toBeCloseTo(0.0358, 12);
  const hidden = reduced.measures[1]?.estimate.budget.find((row) => row.cause.startsWith("ends hidden"));
  expect(hidden?.effect).toBeCloseTo((0.16 * 0.005) / Math.sqrt(3), 12);
  expect(hidden?.shape).toBe("rectangular");
  expect(valueOf(reduced, "footprintForce")).toBeCloseTo(60, 9);
  expect(valueOf(reduced, "footprintForceRatio")).toBeCloseTo(1, 9);
  expect(valueOf(reduced, "peakPressure")).toBeCloseTo(25e3, 9);
  expect(valueOf(reduced, "meanPressure")).toBeCloseTo(60 / (35 * 50e-6), 6);
  expect(valueOf(reduced, "conformityIndex")).toBeCloseTo((35 * 50e-6) / (0.0358 * 0.08), 9);
  expect(reduced.findings).toEqual([]);
  const area = reduced.measures[0]?.estimate;
  // 24 sides of the corners' squares: two straight ones of 7, what is left counts as rounded
  const effects = Object.fromEntries((area?.budget ?? []).map(({ cause, effect, shape }) => [cause, [Math.abs(effect) / 50e-6, shape]]));
  expect(effects["longest straight side of the footprint within its cells, run1"]).toEqual([expect.closeTo(7 / Math.sqrt(12), 9), "rectangular"]);
  expect(effects["edge of the footprint within its cells, run1"]?.[0]).toBeCloseTo(Math.hypot(7 / Math.sqrt(12), Math.sqrt(0.0724 * (Math.PI / 4) * 10)), 9);
});

test("pressures that do not add up to the load are looked at, then rejected", async () => {
  expect((await reduce("pad", 10, 16, block(25 * 1.18))).findings.map((found) => `${found.code} ${found.severity}`)).toEqual(["footprint-load look"]);
  // the certificate's 5 % explain an eighth
  expect((await reduce("pad", 10, 16, block(25 * 1.12))).findings).toEqual([]);
  expect((await reduce("pad", 10, 16, block(25 * 0.75))).findings.map((found) => `${found.code} ${found.severity}`)).toEqual(["footprint-load reject"]);
});

test("cells that all stop at one value are rejected, a coarse pad's are not", async () => {
  const round = (row: number, column: number): number => block(25)(row, column) * (1.2 - 0.002 * ((row - 4.7) ** 2 + (column - 7.6) ** 2));
  const codes = async (of: (row: number, column: number) => number) => (await reduce("pad", 10, 16, of)).findings.map(({ code }) => code);
  expect(await codes(round)).not.toContain("pad-cut-off");
  expect(await codes((row, column) => Math.min(round(row, column), 29))).toContain("pad-cut-off");
  // steps of 1 kPa: many alike everywhere
  expect(await codes((row, column) => Math.round(round(row, column)))).not.toContain("pad-cut-off");
});

test("a calibration of the pad moves force and peak alike, so their ratio keeps it out", async () => {
  const { measures } = await reduce("pad", 10, 16, block(25));
  const share = (name: string): number => {
    const estimate = measures.find((measure) => measure.name === name)?.estimate;
    return Math.abs(estimate?.budget.find((row) => row.cause === "calibration PAD-1")?.effect ?? 0) / (estimate?.value ?? 1);
  };
  expect(share("peakPressure")).toBeCloseTo(0.05, 9);
  expect(share("peakOverMean")).toBeLessThan(1e-4);
});

test("a photograph gives area, length across its rows and mean pressure, and says what it cannot give", async () => {
  // a dark patch of 20 by 30 pixels of 1 mm
  const reduced = await reduce("image", 50, 40, (row, column) => (within(10, 40, row) && within(10, 30, column) ? 40 : 210));
  expect(valueOf(reduced, "contactArea")).toBeCloseTo(600e-6, 12);
  expect(valueOf(reduced, "contactLength")).toBeCloseTo(0.03, 12);
  expect(valueOf(reduced, "meanPressure")).toBeCloseTo(60 / 600e-6, 6);
  expect(reduced.measures.find((measure) => measure.name === "peakPressure")?.estimate.method).toContain("not how hard");
  expect(reduced.picture).toMatchObject({ rows: 50, columns: 40, unit: "1", along: "columns" });
});

test("a threshold on a slope of brightness is in the uncertainty", async () => {
  const soft = (row: number, column: number): number => (within(10, 40, row) ? Math.max(40, Math.min(210, 40 + 12 * Math.abs(column - 20))) : 210);
  const hard = (row: number, column: number): number => (within(10, 40, row) && within(13, 28, column) ? 40 : 210);
  const share = async (of: typeof soft): Promise<number> => {
    const area = (await reduce("image", 50, 40, of)).measures[0]?.estimate;
    return Math.abs(area?.budget.find((row) => row.cause.startsWith("threshold"))?.effect ?? 0) / (area?.value ?? 1);
  };
  expect(await share(soft)).toBeGreaterThan(0.02);
  expect(await share(hard)).toBe(0);
});

test("an empty, a cut and a dead print are said", async () => {
  const codesOf = async (of: (row: number, column: number) => number) => (await reduce("pad", 10, 16, of)).findings.map((found) => found.code);
  expect(await codesOf(() => 0)).toContain("footprint-empty");
  expect(await codesOf((row, column) => (within(0, 6, row) && within(4, 12, column) ? 25 : 0))).toEqual(["footprint-cut"]);
  expect(await codesOf((row, column) => (row === 0 && column === 0 ? Number.NaN : block(25)(row, column)))).toEqual(["dead-cells"]);
  expect((await reduce("pad", 10, 16, () => 0)).measures[0]?.estimate.method).toContain("no cell");
  expect((await reduce("pad", 10, 16, (row, column) => (row === 5 && within(4, 12, column) ? 150 : 0))).measures[0]?.estimate.method).toContain("finer pad");
});

test("the length by the deflection needs a press run of a flexible wheel, and what is not described is asked for", async () => {
  const flexible = { ...wheel, flexible: true };
  const table = await reduce("pad", 10, 16, block(25));
  expect(valueOf(table, "contactLengthByDeflection")).toBe(0);
  const press = { wheel: "W1", runs: ["L1"], loadN: [0, 100], deflectionM: [0, 0.005], uncertaintyM: [1e-4, 1e-4] };
  const reduced = await reduceFootprintRun(plan("footprint", { wheel: "W1", setLoadN: 60, footprint: { from: "image", ground: "flat" } }), flexible, described, { ...noReferences, deflections: [press] }, () => ({ timesS: Float64Array.of(0, 1, 2), startedAt: null, metadata: [], evidence: [], findings: [], source: { file: "f", sha256: "", format: "", bytes: 1, rowsRead: 3, rowsRefused: 0 }, columns: [1, 2, 3].map((n) => ({ name: `#${n}`, unit: null, overloaded: [], samples: Float64Array.of(200, n === 2 ? 10 : 200, 200) })) }));
  expect(reduced.measures.find((measure) => measure.name === "contactLengthByDeflection")?.estimate.value).toBeCloseTo(2 * Math.sqrt(0.2 * 0.003 - 0.003 ** 2), 9);
  await expect(reduceFootprintRun(plan("footprint", { wheel: "W1", setLoadN: 60, footprint: { from: "pad", ground: "flat" } }), wheel, rig(), noReferences, () => { throw new Error("not read"); })).rejects.toThrow(InputError);
});
