import { describe, expect, it } from "vitest";
import { estimateFrom } from "../../src/core/estimate.ts";
import type { PreparedRun } from "../../src/processing/preparedRun.ts";
import type { References } from "../../src/processing/references.ts";
import { reduceSweepRun } from "../../src/processing/sweepRun.ts";
import { agrees } from "../helpers/agrees.ts";
import { plan } from "../helpers/pressRun.ts";
import { record, rigWith, wheel } from "./recordings.ts";

const references: References = { rollingRadii: [{ wheel: "W1", loadN: 60, runs: ["H1"], estimate: estimateFrom(0.1, "m", "test", []) }], drags: [], deflections: [] };
const pullAt = (slip: number): number => 0.45 * (1 - Math.exp(-slip / 0.15)) - 0.1;
const omega = 2;
const [startS, topS, endS] = [4, 64, 124];
const lagS = 1.2;

/** The wheel turns steadily while the carriage slows down and speeds up again: slip from 2 % to 60 % and back. */
function made(rollingLoadN = 60, hangingN = 0): PreparedRun {
  const slip = (t: number): number => (t < topS ? 0.02 + (0.58 * (t - startS)) / (topS - startS) : 0.6 - (0.58 * (t - topS)) / (endS - topS));
  const rolling = (t: number): boolean => t > startS && t < endS;
  // travel = ∫ rω (1 − s) dt, worked out in steps
  const way = new Map<number, number>();
  let x = 0;
  for (let i = 0; i <= 128 * 100; i++) {
    const t = i / 100;
    way.set(i, x);
    if (rolling(t)) x += (0.1 * omega * (1 - slip(t))) / 100;
  }
  const recording = record(100, 128, {
    wheelAngle: { unit: "rad", of: (t) => omega * Math.min(Math.max(0, t - startS), endS - startS) },
    carriagePosition: { unit: "m", of: (_, i) => way.get(i) ?? x },
    verticalLoad: { unit: "N", of: (t) => (t > 2.5 && t < 126 ? (rolling(t) ? rollingLoadN : 60) : hangingN) },
    drawbarPull: { unit: "N", of: (t) => (rolling(t) ? 60 * (pullAt(slip(t - lagS)) + (t < topS ? 0.01 : -0.01)) + 0.4 * Math.sin(omega * t) : 0) },
  });
  return { plan: plan("sweep", { id: "S1", wheel: "W1", setLoadN: 60 }), wheel, rig: rigWith({ reportPullAtSlip: [0.2] }), recordings: [recording] };
}

describe("a sweep run", () => {
  const source = "made sweep: the numbers put in";
  const reduced = reduceSweepRun(made(), references);
  const of = (name: string) => reduced.measures.find((measure) => measure.name === name)?.estimate;

  it("gives back lag, hysteresis and the pull at a slip from one point a revolution", () => {
    agrees(of("responseLag")?.value ?? 0, { expected: lagS, within: 0.1, source });
    agrees(of("sweepHysteresis")?.value ?? 0, { expected: 0.02, within: 0.002, source });
    agrees(of("pullCoefficientAt20")?.value ?? 0, { expected: pullAt(0.2), within: 0.002, source });
    agrees(of("slipRate")?.value ?? 0, { expected: 0.58 / 60, relative: 0.01, source });
    expect(reduced.fits[0]?.verdict).toBe("determined");
    expect(reduced.fits[0]?.points.length).toBeGreaterThan(30);
    expect(reduced.curves?.map(({ name }) => name)).toEqual(["pullUp", "pullDown", "pullUpLagOff", "pullDownLagOff"]);
  });

  it("is held against what it shows before it starts, like every rolling run", () => {
    expect(reduced.findings).toEqual([]);
    expect(reduceSweepRun(made(66), references).findings.map(({ code }) => code)).toContain("load-shifts");
    expect(reduceSweepRun(made(60, 4), references).findings.map(({ code }) => code)).toContain("hanging-load");
  });

  it("gives no slip without a radius, and says which run is missing", () => {
    const without = reduceSweepRun(made(), { ...references, rollingRadii: [] });
    expect(without.findings.map(({ code }) => code)).toContain("radius-unknown");
    expect(without.fits).toEqual([]);
  });
});
