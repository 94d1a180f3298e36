import { expect, test } from "vitest";
import { seededRandom } from "../../src/numerics/random.ts";
import { reduceLoadDeflectionRun } from "../../src/processing/loadDeflectionRun.ts";
import { plan, preparedRun } from "../helpers/pressRun.ts";

const rate = 20e3;
const loss = 0.15;

/** Cycles to 100 N of a spring that settles with every cycle, and whose unloading lies lower by a share of the force: F = k x up, k x (1 − 4 loss (x/X)(1 − x/X)) down. */
function press(seed: number, cycles = 4, firstSoftness = 1, settlingM = 0): { force: number[]; displacement: number[] } {
  const random = seededRandom(seed);
  const reach = 100 / rate;
  const force: number[] = [];
  const displacement: number[] = [];
  const add = (x: number, f: number): void => {
    displacement.push(0.002 + x);
    force.push(2 + f + 0.2 * random.normal());
  };
  for (let i = 0; i < 200; i++) add(-0.001 + (0.001 * i) / 200, 0);
  for (let cycle = 0; cycle < cycles; cycle++) {
    const soft = cycle === 0 ? firstSoftness : 1;
    for (let i = 0; i < 500; i++) add(cycle * settlingM + (soft * reach * i) / 500, (rate * reach * i) / 500);
    for (let i = 500; i > 0; i--) add(cycle * settlingM + (reach * i) / 500, rate * reach * (i / 500) * (1 - 4 * loss * (1 - i / 500) * (i / 500)));
  }
  add(0, 0);
  return { force, displacement };
}

function reduce(seed: number, setLoadN: number | null, cycles = 4, firstSoftness = 1, settlingM = 0) {
  const { force, displacement } = press(seed, cycles, firstSoftness, settlingM);
  const doubt = (calibration: string) => ({ noise: 0, offset: 0, relativeGain: 0.003, calibration });
  return reduceLoadDeflectionRun(preparedRun(plan("loadDeflection", { wheel: "W1", setLoadN }), { pressForce: { unit: "N", samples: force, doubt: doubt("LC") }, pressDisplacement: { unit: "m", samples: displacement, doubt: doubt("LVDT") } }));
}

test("stiffness, loop and loss come out within their uncertainty, each with its causes", () => {
  const { measures, findings } = reduce(1, 60);
  const of = (name: string) => measures.find((measure) => measure.name === name)?.estimate;
  // ΔW = ∫ k x · 4 loss (x/X)(1 − x/X) dx = k X² · 4 loss (1/3 − 1/4); U = ½ k X² − ΔW/2
  const lost = rate * (100 / rate) ** 2 * 4 * loss * (1 / 3 - 1 / 4);
  const truth: Record<string, number> = { deflection: 60 / rate, secantStiffness: rate, tangentStiffness: rate, loopEnergy: lost, lossFactor: lost / (2 * Math.PI * (0.5 * rate * (100 / rate) ** 2 - lost / 2)) };
  for (const [name, value] of Object.entries(truth)) {
    const estimate = of(name);
    expect(estimate?.standardUncertainty, name).toBeGreaterThan(0);
    expect(Math.abs((estimate?.value ?? 0) - value) / (estimate?.standardUncertainty ?? 0), name).toBeLessThan(3);
  }
  expect(of("secantStiffness")?.budget.map((row) => row.cause)).toEqual(expect.arrayContaining(["calibration LC", "calibration LVDT", "contact point of run1", "noise of single samples, run1"]));
  expect(of("secantStiffness")?.method).toContain("first of 4 left out");
  expect(findings.filter((entry) => entry.severity !== "note")).toEqual([]);
});

test("the greatest load is a state of the wheel: a force gain that is off moves its stiffness whole, its deflection not at all", () => {
  const gain = (setLoadN: number | null, name: string): number => {
    const estimate = reduce(1, setLoadN).measures.find((measure) => measure.name === name)?.estimate;
    return Math.abs(estimate?.budget.find((row) => row.cause === "calibration LC")?.effect ?? 0) / (estimate?.value ?? Number.NaN);
  };
  // the certificate's 0.3 %; at a set load the deflection of a straight spring moves by it instead
  expect(gain(null, "deflection")).toBeLessThan(1e-5);
  for (const name of ["secantStiffness", "tangentStiffness"]) expect(gain(null, name), name).toBeCloseTo(0.003, 5);
  expect(gain(60, "deflection")).toBeCloseTo(0.003, 4);
});

test("the points of the fit carry the deflection at rising loads", () => {
  const fit = reduce(2, 60).fits[0];
  expect(fit?.verdict).toBe("determined");
  expect(fit?.points.length).toBe(25);
  for (const point of fit?.points ?? []) expect(Math.abs(point.y - point.x / rate)).toBeLessThan(3 * (point.yUncertainty ?? 0) + 1e-6);
  expect(Math.abs((fit?.parameters[0]?.estimate.value ?? 0) - rate) / rate).toBeLessThan(0.02);
});

test("a set load that was not reached is rejected, not extrapolated", () => {
  const { measures, findings } = reduce(3, 150);
  expect(findings.find((entry) => entry.code === "set-load-not-reached")?.severity).toBe("reject");
  expect(measures.find((measure) => measure.name === "secantStiffness")?.estimate.standardUncertainty).toBeNull();
});

test("one cycle is used and said", () => {
  const { measures, findings } = reduce(4, null, 1);
  expect(findings.map((entry) => entry.code)).toContain("one-cycle");
  expect(measures.find((measure) => measure.name === "loopEnergy")?.estimate.value).toBeGreaterThan(0);
});

test("of three cycles or more the first is conditioning and does not count", () => {
  const stiffness = (cycles: number) => reduce(5, 60, cycles, 1.2).measures.find((measure) => measure.name === "secantStiffness")?.estimate.value ?? 0;
  expect(Math.abs(stiffness(4) / rate - 1)).toBeLessThan(0.01);
  expect(Math.abs(stiffness(2) / rate - 1)).toBeGreaterThan(0.05);
});

test("a wheel that settles from cycle to cycle is said", () => {
  expect(reduce(6, 60, 2, 1.2).findings.map((entry) => entry.code)).toContain("settling-between-cycles");
});

test("steady settling is a measure of its own, no scatter of the mean deflection, and neither zero nor gain of the force moves it", () => {
  const settlingM = 4e-5;
  const of = (name: string, settles: number) => reduce(7, 60, 4, 1, settles).measures.find((measure) => measure.name === name)?.estimate;
  const scatter = (name: string, settles: number) => of(name, settles)?.budget.find((row) => /^(scatter between|noise of single)/.test(row.cause));
  // about the plain mean three cycles 0.04 mm apart scatter by 0.04 mm, their mean by 0.023 mm
  expect(scatter("deflection", settlingM)?.effect ?? 0).toBeLessThan(2e-6);
  // cycles that scatter no more than their samples' noise explains are known by that, and not by two of them
  expect(scatter("deflection", settlingM)).toMatchObject({ cause: "noise of single samples, run1" });
  expect(scatter("deflection", settlingM)?.degreesOfFreedom).toBeGreaterThan(10);
  for (const name of ["deflection", "secantStiffness"]) expect(scatter(name, settlingM)?.effect, name).toBeCloseTo(scatter(name, 0)?.effect ?? 0, name === "deflection" ? 6 : -2);
  // the mean of the second to fourth cycle: 2 settlings more than the first
  expect(Math.abs((of("deflection", settlingM)?.value ?? 0) - (60 / rate + 2 * settlingM))).toBeLessThan(1e-5);
  for (const name of ["settlingPerCycle", "settlingTotal"]) {
    const estimate = of(name, settlingM);
    expect(Math.abs((estimate?.value ?? 0) - (name === "settlingTotal" ? 3 : 1) * settlingM), name).toBeLessThan(3 * (estimate?.standardUncertainty ?? 0));
    expect(estimate?.budget.map((row) => row.cause), name).toEqual(["scatter about the loading curve, run1", "calibration LVDT"]);
    expect(estimate?.budget[1]?.effect, name).toBeCloseTo(0.003 * (estimate?.value ?? 0), 9);
  }
});

test("missing channels are said", () => {
  expect(reduceLoadDeflectionRun(preparedRun(plan("loadDeflection"), {})).findings[0]?.code).toBe("press-channels-missing");
});
