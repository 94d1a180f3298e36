import { describe, expect, it } from "vitest";
import type { SurfaceScan } from "../../src/campaign/campaign.ts";
import type { Estimate } from "../../src/core/estimate.ts";
import { estimateFrom } from "../../src/core/estimate.ts";
import type { PreparedRun } from "../../src/processing/preparedRun.ts";
import type { References } from "../../src/processing/references.ts";
import { reduceTractionRun } from "../../src/processing/tractionRun.ts";
import { agrees } from "../helpers/agrees.ts";
import { plan } from "./checks/rolled.ts";
import { record, rigWith, wheel } from "./recordings.ts";

const references: References = { rollingRadii: [{ wheel: "W1", loadN: 60, runs: ["H1"], estimate: estimateFrom(0.105, "m", "test", []) }], drags: [], deflections: [] };
const surfaceScan = { relative: 0.01, offset: 0.0001, slope: 0.0003, date: "2026-09-01", certificate: "SCN-3" };
const slope = 0.02;
const beta = Math.atan(slope);
const ground = { pull: 12, load: 60 };
const sunkM = 0.018;
const places = Array.from({ length: 90 }, (_, i) => 0.1 + 0.05 * i);
const point = (positionM: number, heightM: number, acrossM: number | null = null) => ({ positionM, acrossM, heightM });

/** The levelled bed rises along the lane; points beside the wheel stand on a heap that must not count. */
const surface = (rutM: number): SurfaceScan => ({
  before: places.flatMap((x) => [point(x, 0.3 + slope * x), point(x, 0.4, 0.2)]),
  after: places.map((x) => point(x, 0.3 + slope * x - rutM)),
});

/** Rails are level, the bed is not: the sensor feels the ground's force in level components, the hub climbs with the bed. */
function made({ scan, declared = true }: { readonly scan?: SurfaceScan; readonly declared?: boolean }): PreparedRun {
  const driven = (t: number): number => Math.min(Math.max(0, t - 6), 28);
  const moves = (t: number): number => Number(t >= 6 && t < 34);
  const pressed = (t: number): number => (t > 36 ? 0 : Math.min(1, Math.max(0, (t - 2.5) / 2)));
  const noise = (i: number): number => 0.02 * Math.sin(0.7 * i * i + i);
  const recording = record(100, 40, {
    wheelAngle: { unit: "rad", of: (t) => 1.5 * driven(t) },
    carriagePosition: { unit: "m", of: (t) => 0.2 + 0.126 * driven(t) },
    drawbarPull: { unit: "N", of: (t, i) => moves(t) * (ground.pull * Math.cos(beta) - ground.load * Math.sin(beta)) + noise(i) },
    verticalLoad: { unit: "N", of: (t, i) => pressed(t) * (ground.load * Math.cos(beta) + moves(t) * ground.pull * Math.sin(beta)) + noise(i) },
    hubHeight: { unit: "m", of: (t) => 0.15 - Math.min(t, 2.5) * 0.004 - (t < 2.5 ? 0 : sunkM * pressed(t)) + slope * 0.126 * driven(t), doubt: { noise: 0, offset: 0, relativeGain: 0.001, calibration: "POT-17" } },
  });
  return { plan: { ...plan, ...(scan === undefined ? {} : { surface: scan }) }, wheel, rig: rigWith(declared ? { surfaceScan } : {}), recordings: [recording] };
}

function reduced(run: PreparedRun): { readonly of: (name: string) => Estimate; readonly codes: readonly string[] } {
  const { measures, findings } = reduceTractionRun(run, references);
  return { of: (name) => measures.find((measure) => measure.name === name)?.estimate ?? estimateFrom(NaN, "1", "absent", []), codes: findings.map((found) => found.code) };
}

describe("a run on a bed that slopes", () => {
  it("without a scan keeps the level components, and the hub's climb is a finding", () => {
    const { of, codes } = reduced(made({}));
    agrees(of("drawbarPull").value, { expected: ground.pull * Math.cos(beta) - ground.load * Math.sin(beta), within: 0.01, source: "made rig: level component" });
    expect(of("bedSlope").value).toBeNaN();
    expect(codes).toContain("bed-slope");
    expect(codes).not.toContain("surface-unused");
  });

  it("with the scan gives pull and load along the bed, sinkage below its surface and the rut", () => {
    const { of, codes } = reduced(made({ scan: surface(0.016) }));
    const source = "made rig: what was put in";
    agrees(of("bedSlope").value, { expected: beta, within: 1e-9, source });
    agrees(of("drawbarPull").value, { expected: ground.pull, within: 0.01, source });
    agrees(of("verticalLoad").value, { expected: ground.load, within: 0.01, source });
    agrees(of("sinkageRunning").value, { expected: sunkM, within: 2 * (of("sinkageRunning").standardUncertainty ?? NaN), source });
    agrees(of("rutDepth").value, { expected: 0.016, within: 1e-9, source });
    const scanner = of("drawbarPull").budget.find((row) => row.cause === "slope of the scanner, calibration SCN-3");
    agrees(scanner?.effect ?? NaN, { expected: ground.load * surfaceScan.slope, within: 1e-3, source: "by hand: load times the scanner's slope" });
    expect(scanner?.sharedBy).toBe("calibration SCN-3");
    expect(codes.filter((code) => ["bed-slope", "surface-unused", "rut-differs"].includes(code))).toEqual([]);
  });

  it("finds a rut that sinkage cannot explain, either way", () => {
    expect(reduced(made({ scan: surface(0.004) })).codes).toContain("rut-differs");
    expect(reduced(made({ scan: surface(0.026) })).codes).toContain("rut-differs");
    // 5 mm of lugs may leave ridges, so a shallow rut has more room than a deep one
    expect(reduced(made({ scan: surface(0.0105) })).codes).not.toContain("rut-differs");
    expect(reduced(made({ scan: surface(0.0255) })).codes).toContain("rut-differs");
  });

  it("corrects nothing by a scanner that is not described, or by a scan that ends before the run does", () => {
    for (const run of [made({ scan: surface(0.016), declared: false }), made({ scan: { before: surface(0).before.slice(0, 40), after: [] } })]) {
      const { of, codes } = reduced(run);
      agrees(of("drawbarPull").value, { expected: ground.pull * Math.cos(beta) - ground.load * Math.sin(beta), within: 0.01, source: "made rig: level component" });
      expect(codes).toContain("surface-unused");
      expect(of("rutDepth").value).toBeNaN();
    }
  });

  it("gives no rut depth without a second scan", () => {
    const { of } = reduced(made({ scan: { before: surface(0).before, after: [] } }));
    expect(of("rutDepth").value).toBeNaN();
    expect(of("bedSlope").value).toBeCloseTo(beta, 9);
  });
});
