import { describe, expect, test } from "vitest";
import { seededRandom } from "../../../src/numerics/random.ts";
import type { PeakSize } from "../../../src/processing/measures/dampingByDecrement.ts";
import { decayCharacter } from "../../../src/processing/measures/decayCharacter.ts";
import { agrees } from "../../helpers/agrees.ts";

function peaks(sizeOf: (cycle: number) => number, count: number, noise: number, seed = 1): PeakSize[] {
  const random = seededRandom(seed);
  return Array.from({ length: count }, (_, k) => ({ cycle: k / 2, size: sizeOf(k / 2) + noise * random.normal(), uncertainty: noise === 0 ? null : noise }));
}

const viscous = (n: number): number => 9 * Math.exp(-0.5 * n);
const frictional = (n: number): number => 9 - 2 * n;
const mixed = (n: number): number => 12 * Math.exp(-0.5 * n) - 3;

function kinds(sizeOf: (cycle: number) => number, count: number, noise: number): Record<string, number> {
  const counts: Record<string, number> = { viscous: 0, frictional: 0, mixed: 0, "cannot tell": 0 };
  for (let seed = 1; seed <= 200; seed++) {
    const { kind } = decayCharacter(peaks(sizeOf, count, noise, seed));
    counts[kind] = (counts[kind] ?? 0) + 1;
  }
  return counts;
}

describe("viscous or frictional", () => {
  test("noise-free envelopes are told apart", () => {
    expect(decayCharacter(peaks(viscous, 8, 0))).toMatchObject({ kind: "viscous", findings: [] });
    expect(decayCharacter(peaks(frictional, 8, 0)).kind).toBe("frictional");
  });
  test("the loss per cycle of dry friction", () => {
    // Straight envelope in displacement: 4 μ g/ω² a cycle.
    const omega = (2 * Math.PI * 5) / 2;
    agrees(((0.1 - 0.01) * omega ** 2) / (4 * 5 * 9.81), { expected: 0.1132, within: 5e-5, source: "S. S. Rao, Mechanical Vibrations, Coulomb damping example: 10 cm to 1 cm in 5 cycles of 2 s in all, μ 0.1132 (from memory)" });
    const envelope = peaks((n) => 0.1 - (4 * 0.113184 * 9.81 * n) / omega ** 2, 11, 0);
    agrees((envelope[10] as PeakSize).size, { expected: 0.01, within: 1e-6, source: "S. S. Rao, Mechanical Vibrations, Coulomb damping example (from memory)" });
    expect(decayCharacter(envelope).kind).toBe("frictional");
  });
  test("with noise the wrong answer is rare", () => {
    const v = kinds(viscous, 8, 0.1);
    expect(v.frictional).toBe(0);
    // The mixed rule is one-sided at three standard deviations: 0.13 % expected, 200 seeds.
    expect(v.mixed).toBeLessThanOrEqual(2);
    expect(v.viscous).toBeGreaterThanOrEqual(190);
    const f = kinds(frictional, 8, 0.1);
    expect(f.viscous).toBe(0);
    expect(f.frictional).toBeGreaterThanOrEqual(190);
    expect(kinds(mixed, 5, 0.02).mixed).toBeGreaterThanOrEqual(190);
  });
  test("few or noisy peaks cannot tell, and say so", () => {
    const three = decayCharacter(peaks(viscous, 3, 0.1));
    expect(three).toMatchObject({ kind: "cannot tell", evidence: null });
    expect(three.findings[0]).toMatchObject({ code: "decay-undecided", severity: "note" });
    const noisy = kinds(viscous, 4, 1);
    expect(noisy["cannot tell"]).toBeGreaterThanOrEqual(150);
  });
  test("a frictional or mixed decay asks for a look", () => {
    expect(decayCharacter(peaks(frictional, 8, 0.05)).findings[0]).toMatchObject({ code: "decay-frictional", severity: "look" });
    expect(decayCharacter(peaks(mixed, 5, 0.02)).findings[0]).toMatchObject({ code: "decay-mixed", severity: "look" });
  });
});
