import { describe, expect, it } from "vitest";
import { InputError } from "../../../src/core/errors.ts";
import type { RawTable } from "../../../src/importers/contract.ts";
import { calibrate } from "../../../src/processing/conditioning/calibrate.ts";
import { decouple } from "../../../src/processing/conditioning/decouple.ts";
import { check } from "../../../src/processing/conditioning/check.ts";
import type { Rig } from "../../../src/campaign/rigSchema.ts";
import { agrees } from "../../helpers/agrees.ts";
import { record, rigWith } from "../recordings.ts";

function table(timesS: readonly number[], columns: Readonly<Record<string, readonly number[]>>, unit: string | null = null): RawTable {
  return {
    timesS: Float64Array.from(timesS),
    startedAt: null,
    columns: Object.entries(columns).map(([name, values]) => ({ name, unit, samples: Float64Array.from(values), overloaded: [] })),
    metadata: [],
    evidence: [],
    source: { file: "logs/R1.csv", sha256: "0", format: "text", bytes: 1, rowsRead: timesS.length, rowsRefused: 0 },
    findings: [],
  };
}

function rigOf(channel: Record<string, unknown>, name = "hubHeight"): Rig {
  return rigWith({ loggers: { main: { files: "logs/{run}.csv", kinds: ["traction"], clock: { kind: "elapsed", column: "t", unit: "s" }, channels: { [name]: channel } } } });
}

function calibrated(channel: Record<string, unknown>, values: readonly number[], unit: string | null = null) {
  const rig = rigOf(channel);
  return calibrate(table(values.map((_, i) => i), { Pot: values }, unit), rig.loggers.main as NonNullable<Rig["loggers"]["main"]>, rig);
}

const record1 = { date: "2026-10-01", certificate: "POT-1" };

describe("calibrate", () => {
  it("straight line, sign and unit", () => {
    const { recording } = calibrated({ column: "Pot", unit: "V", sign: -1, calibration: { gives: "mm", gain: 30, offset: 5, ...record1 }, uncertainty: { relative: 0.001, offset: 0.2 } }, [1, 2]);
    expect(Array.from(recording.channels[0]?.samples ?? [])).toEqual([-0.035, -0.065]);
    expect(recording.channels[0]?.doubt).toMatchObject({ offset: 2e-4, relativeGain: 0.001, calibration: "POT-1" });
  });

  it("polynomial and table; beyond a table's ends the value is missing", () => {
    const polynomial = calibrated({ column: "Pot", unit: "V", sign: 1, calibration: { gives: "mm", polynomial: [1, 2, 3], ...record1 } }, [2]);
    agrees(polynomial.recording.channels[0]?.samples[0] ?? NaN, { expected: 0.017, within: 1e-12, source: "1 + 2·2 + 3·4 = 17 mm" });
    const tabled = calibrated({ column: "Pot", unit: "V", sign: 1, calibration: { gives: "mm", table: [[0, 0], [1, 10], [3, 50]], ...record1 } }, [0.5, 2, 3.5]);
    expect(tabled.recording.channels[0]?.samples[0]).toBeCloseTo(0.005, 12);
    expect(tabled.recording.channels[0]?.samples[1]).toBeCloseTo(0.03, 12);
    expect(tabled.recording.channels[0]?.samples[2]).toBeNaN();
  });

  it("a unit at the end of a column's name that rig.yaml does not state is told where it is of the same kind", () => {
    const codes = (column: string, unit: string, fileUnit: string | null = null): string[] => {
      const rig = rigOf({ column, unit, sign: 1 }, "hubHeight");
      return calibrate(table([0, 1], { [column]: [1, 2] }, fileUnit), rig.loggers.main as NonNullable<Rig["loggers"]["main"]>, rig).findings.map(({ code }) => code);
    };
    expect(codes("Z_cm", "mm")).toEqual(["unit-in-name"]);
    expect([codes("Z_mm", "mm"), codes("Z_N", "mm"), codes("Z_raw", "mm"), codes("_cm", "mm"), codes("Z_cm", "mm", "mm")]).toEqual([[], [], [], [], []]);
  });

  it("a bridge in volts and a scale in kilograms become newton", () => {
    const bridge = rigOf({ column: "Pot", unit: "V", sign: 1, calibration: { gives: "kN", sensitivity: { output: 2, load: 1, excitation: 10, amplification: 250 }, ...record1 } }, "verticalLoad");
    const force = (rig: Rig, value: number) => calibrate(table([0, 1], { Pot: [value, value] }), rig.loggers.main as NonNullable<Rig["loggers"]["main"]>, rig).recording.channels[0];
    agrees(force(bridge, 2)?.samples[0] ?? NaN, { expected: 400, relative: 1e-13, source: "2 V / (10 V · 250) = 0.8 mV/V of 2 mV/V: 0.4 of 1 kN" });
    const scale = (massAsForce: string, unit: string) => rigOf({ column: "Pot", unit, sign: -1, massAsForce, uncertainty: { relative: 0, offset: 0.1 } }, "verticalLoad");
    agrees(force(scale("standardGravity", "kg"), 2)?.samples[0] ?? NaN, { expected: -19.6133, relative: 1e-14, source: "2 kgf, standard gravity 9.80665 m/s² (3rd CGPM, 1901)" });
    agrees(force(scale("localGravity", "kg"), 2)?.samples[0] ?? NaN, { expected: -19.62, relative: 1e-14, source: "2 kg · 9.81 m/s², the bench's gravity" });
    agrees(force(scale("standardGravity", "lb"), 1)?.samples[0] ?? NaN, { expected: -4.4482216152605, relative: 1e-14, source: "NIST Special Publication 811, B.8: 1 lbf; from memory" });
    agrees(force(scale("localGravity", "kg"), 2)?.doubt?.offset ?? NaN, { expected: 0.981, relative: 1e-14, source: "0.1 kg · 9.81 m/s²" });
  });

  it("refuses a file whose own unit differs from the rig description", () => {
    expect(() => calibrated({ column: "Pot", unit: "mm", sign: 1 }, [1, 2], "in")).toThrow(/expected the unit "mm" that rig.yaml states, found "in"/);
    expect(() => calibrated({ column: "Pot", unit: "N.m", sign: 1 }, [1, 2], "Nm")).toThrow(/expected a unit of length/);
  });

  it.each([
    [[0, 0, 0], "time-constant"],
    [[0, 1, 0.5, 2], "time-backwards"],
    [[0, 1, 1, 2], "time-repeated"],
  ])("a clock %j is an issue: %s", (times, code) => {
    const rig = rigOf({ column: "Pot", unit: "mm", sign: 1 });
    try {
      calibrate(table(times, { Pot: times }), rig.loggers.main as NonNullable<Rig["loggers"]["main"]>, rig);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
      expect((error as InputError).issues[0]?.code).toBe(code);
      expect((error as InputError).issues[0]?.at).toContain("logs/R1.csv");
    }
  });

  it("a counter that began again is named", () => {
    const rig = rigOf({ column: "Pot", unit: "mm", sign: 1 });
    const times = [65.52, 65.53, 0.004, 0.014];
    expect(() => calibrate(table(times, { Pot: times }), rig.loggers.main as NonNullable<Rig["loggers"]["main"]>, rig)).toThrow(/16-bit counter of milliseconds/);
  });

  it("counts samples at the end of the range", () => {
    const { findings } = calibrated({ column: "Pot", unit: "mm", sign: 1, range: [0, 100] }, [1, 100, 100, 4]);
    expect(findings[0]).toMatchObject({ code: "clipped", severity: "reject", measured: 0.5 });
  });
});

describe("decouple", () => {
  const matrix = [[100, 2, 0, 0, 0, 0], [0, 100, 0, 0, 0, 0], [0, 0, 200, 0, 0, 5], [0, 0, 0, 10, 0, 0], [0, 0, 0, 0, 10, 0], [0, 0, 0, 0, 0, 10]];
  const sixAxis = { logger: "main", matrix, relativeUncertainty: 0.003, offsetUncertainty: 0.1, date: "2026-09-01", certificate: "SIX-1", range: [500, 500, 1000, 50, 50, 50], bridgeRange: 2, gives: { drawbarPull: { output: "forceX", sign: -1 }, verticalLoad: { output: "forceZ", sign: 1 } } };
  const rig = rigWith({ sixAxis });
  const bridges = (values: readonly number[]) => record(10, 1, Object.fromEntries(values.map((value, i) => [`bridge${i + 1}`, { unit: "mV/V" as const, of: () => value }])));

  it("multiplies by the matrix row and the declared sign", () => {
    const { recording } = decouple(bridges([0.1, 0.5, 0.3, 0, 0, 0.2]), rig.sixAxis as NonNullable<Rig["sixAxis"]>);
    const value = (name: string): number => recording.channels.find((channel) => channel.name === name)?.samples[0] ?? NaN;
    agrees(value("drawbarPull"), { expected: -(100 * 0.1 + 2 * 0.5), within: 1e-12, source: "matrix row by hand" });
    agrees(value("verticalLoad"), { expected: 200 * 0.3 + 5 * 0.2, within: 1e-12, source: "matrix row by hand" });
    expect(recording.channels.some((channel) => channel.name === "bridge1")).toBe(false);
  });

  it("rejects a run with a clipped bridge", () => {
    expect(decouple(bridges([0, 2, 0, 0, 0, 0]), rig.sixAxis as NonNullable<Rig["sixAxis"]>).findings[0]).toMatchObject({ code: "clipped", severity: "reject", channel: "bridge2" });
  });
});

describe("check", () => {
  it("names gaps with their length and place", () => {
    const whole = record(100, 10, { hubHeight: { unit: "m", of: (t) => t } });
    const kept = Array.from({ length: 1001 }, (_, i) => i).filter((i) => i < 400 || i > 550);
    const holed = { ...whole, time: { kind: "stamped" as const, timesS: Float64Array.from(kept, (i) => i / 100) }, channels: [{ ...(whole.channels[0] as (typeof whole.channels)[number]), samples: Float64Array.from(kept, (i) => i / 100) }] };
    expect(check(holed, "main", rigWith())[0]).toMatchObject({ code: "gap", fromS: 3.99 });
    expect(check(whole, "main", rigWith())).toEqual([]);
  });

  it("finds a channel that stands still while it used to move", () => {
    const stuck = record(100, 10, { verticalLoad: { unit: "N", of: (t, i) => (t > 4 && t < 6 ? 7 : 60 + Math.sin(i * 1.7)) } });
    expect(check(stuck, "main", rigWith())[0]).toMatchObject({ code: "stuck", severity: "reject", channel: "verticalLoad" });
  });

  it("counts missing samples", () => {
    const missing = record(100, 10, { verticalLoad: { unit: "N", of: (t) => (t < 1 ? NaN : t) } });
    expect(check(missing, "main", rigWith())[0]).toMatchObject({ code: "missing-samples", severity: "reject" });
  });
});
