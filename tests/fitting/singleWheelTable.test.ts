import { beforeAll, describe, expect, test } from "vitest";
import type { Estimate } from "../../src/core/estimate.ts";
import { identifiability } from "../../src/fitting/identifiability.ts";
import type { WheelObservation, WheelQuantity, WheelSubject } from "../../src/fitting/wheelObservations.ts";
import { wheelSoilFit } from "../../src/fitting/wheelSoilFit.ts";
import type { Belief, WheelSoilFit } from "../../src/fitting/wheelSoilFit.ts";
import { soilParameters } from "../../src/fitting/wheelSoilParameters.ts";
import { stressIntegralsToFit } from "../../src/fitting/wheelSoilStart.ts";
import { rigidWheel } from "../../src/models/rigidWheel.ts";
import type { WheelSoil, WheelState } from "../../src/models/wheelSoil.ts";
import { curveFit } from "../../src/numerics/curveFit.ts";
import { agrees } from "../helpers/agrees.ts";
import { scipy, scipySource } from "../numerics/scipyReference.ts";

/** L. Ding et al., J. Terramechanics 48 (2011), smooth wheel under 80 N, read off its figures by a third party (public data set): ± 0.5 N, ± 0.5 mm, ± 0.1 N·m. */
const wheel: WheelSubject = { id: "smooth", rimM: 0.15735, widthM: 0.165, lugs: 0, lugHeightM: 0, curve: null };
const loadN = 80;
/** slip, pull [N], sinkage [mm], torque [N·m]; at slip 0 the wheel was towed */
const table = [[0, -6.5, 5, 0], [0.1, 11, 5.5, 3], [0.2, 14.5, 7.5, 4.2], [0.3, 15, 10, 4.8], [0.4, 15, 12.5, 5], [0.6, 15, 17.5, 5.3]] as const;
const driven = table.slice(1);
const slips = driven.map(([slip]) => slip);

/** the same authors' soil, from memory: k_c 15.6 kPa/m^(n−1), k_φ 2407.4 kPa/m^n, n 1.10, c 250 Pa, φ 31.9°, K 9.7 to 13.1 mm */
const soil: WheelSoil = { stiffness: 15.6e3 / wheel.widthM + 2407.4e3, exponent: 1.1, exponentBySlip: 0, cohesionPa: 250, frictionAngleRad: (31.9 * Math.PI) / 180, shearModulusM: 0.0097, stressAngle: 0.4, stressAngleBySlip: 0.2, rebound: 0 };
const drum = { radiusM: wheel.rimM, widthM: wheel.widthM };
const at = (ground: WheelSoil, slip: number): WheelState => {
  const found = rigidWheel(drum, ground, slip, loadN);
  if ("reason" in found) throw new Error(found.reason);
  return found;
};

describe("with the soil as published, torque alone fitted", () => {
  let answers: number[][];
  beforeAll(() => {
    const asked = [[drum.radiusM, drum.widthM], [soil.stiffness, soil.exponent, soil.cohesionPa, soil.frictionAngleRad, 0.0105, 0.4, 0.2, 0], loadN, slips, driven.map(([, , , torque]) => torque)];
    answers = scipy([["wheel_torque_fit", [...asked, [4]]], ["wheel_torque_fit", [...asked, [3, 4]]]]) as number[][];
  });
  const fitted = (free: (p: readonly number[]) => Partial<WheelSoil>, start: readonly number[]) => curveFit({ model: (slip, p) => at({ ...soil, ...free(p) }, slip).torqueNm, x: slips, y: driven.map(([, , , torque]) => torque), start });
  const source = `scipy.optimize.least_squares over the same integrals; ${scipySource}`;
  const rms = (sumOfSquares: number): number => Math.sqrt(sumOfSquares / slips.length);

  test("K comes out where its authors have it", () => {
    const { parameters: [modulus], sumOfSquares } = fitted(([k]) => ({ shearModulusM: k as number }), [0.0105]);
    const [expected, left] = answers[0] as [number, number];
    agrees(modulus as number, { expected, relative: 1e-5, source });
    agrees(rms(sumOfSquares), { expected: left, relative: 1e-5, source });
    agrees(modulus as number, { expected: 0.0114, within: 0.0017, source: "L. Ding et al. 2011: K 9.7 to 13.1 mm (from memory)" });
  });

  test("with φ free as well both move far and the misfit falls to a fifth: a good fit is no proof of its constants", () => {
    const { parameters: [angle, modulus], sumOfSquares, covariance } = fitted(([phi, k]) => ({ frictionAngleRad: phi as number, shearModulusM: k as number }), [0.55, 0.0105]);
    const [expectedAngle, expected, left] = answers[1] as [number, number, number];
    agrees(angle as number, { expected: expectedAngle, relative: 1e-5, source });
    agrees(modulus as number, { expected, relative: 1e-4, source });
    agrees(rms(sumOfSquares), { expected: left, relative: 1e-4, source });
    expect((angle as number) * (180 / Math.PI)).toBeLessThan(31.9 - 5);
    const [[aa, ak], [, kk]] = covariance as [[number, number], [number, number]];
    expect(ak / Math.sqrt(aa * kk)).toBeGreaterThan(0.9);
  });

  test("an exponent that does not know the slip keeps the wheel at one depth while the real one digs in", () => {
    const depths = slips.map((slip) => 1000 * at(soil, slip).sinkageM);
    expect(Math.max(...depths) - Math.min(...depths)).toBeLessThan(1);
    agrees((Math.max(...depths) + Math.min(...depths)) / 2, { expected: 11.7, within: 0.5, source: "sinkage of 11.3 to 12.1 mm at all slips, worked by an independent program" });
    agrees(at(soil, 0.4).pullN, { expected: 19.7, within: 0.05, source: "pull at slip 0.4 with K 9.7 mm, worked by an independent program; measured 15 N" });
  });
});

describe("all three quantities fitted", () => {
  const known = (value: number, u: number, cause: string): Estimate<"1"> => ({ value, standardUncertainty: u, unit: "1", degreesOfFreedom: Infinity, method: "read off a figure", budget: [{ cause, effect: u, sharedBy: null, degreesOfFreedom: Infinity }] });
  const half = 1 / Math.sqrt(3);
  const observations = driven.map(([slip, pull, mm, torque]): WheelObservation => {
    const run = `s${slip}`;
    const measured = { pull: known(pull / loadN, (0.5 * half) / loadN, `pull ${run}`), torque: known(torque / (wheel.rimM * loadN), (0.1 * half) / (wheel.rimM * loadN), `torque ${run}`), sinkage: known(mm / 1000 / wheel.rimM, (0.0005 * half) / wheel.rimM, `sinkage ${run}`) };
    return { run, bed: null, unitWeight: null, wheel, slip: known(slip, 1e-3, `slip ${run}`), loadN, setLoadN: loadN, measured };
  });
  const beliefs = (name: string, belief: Belief): Belief[] => soilParameters.map((parameter) => (parameter.name === name ? belief : parameter.prior));
  const misses = (fit: WheelSoilFit, quantity: WheelQuantity): number[] => fit.data.filter((datum) => datum.quantity === quantity).map(({ measured, predicted }) => measured - predicted);
  const free = wheelSoilFit(observations, stressIntegralsToFit(observations, "wider circle"));
  const constant = wheelSoilFit(observations, stressIntegralsToFit(observations, "wider circle", beliefs("exponentBySlip", { mean: 0, sd: 1e-4 })));

  test("one load, one wheel: the product says what these runs leave open, and what they know in combination only", () => {
    const found = identifiability(soilParameters.map(({ symbol }) => symbol), soilParameters.map(({ prior }) => prior), free.covariance);
    const share = (symbol: string) => found.parameters.find((parameter) => parameter.symbol === symbol)?.share;
    expect(free.converged, free.reason).toBe(true);
    for (const symbol of ["n", "c₁", "c₂"]) expect(share(symbol), symbol).not.toBe("determined");
    for (const symbol of ["χ", "κ", "μ"]) expect(share(symbol), symbol).toBe("undetermined");
    const partners = (symbol: string) => found.parameters.find((parameter) => parameter.symbol === symbol)?.partners.map((partner) => partner.symbol);
    expect(partners("c")).toEqual(["φ"]);
    expect(partners("n")).toEqual(["p₁₀"]);
    expect(found.parameters.find(({ symbol }) => symbol === "φ")?.sentence).toMatch(/moves together with c \(-0\.\d\d\): use them together/);
    expect(found.determinedDirections).toBeLessThan(soilParameters.length / 2);
  });

  test("without slip sinkage the misfit of the depth grows from slip to slip, through zero", () => {
    const left = misses(constant, "sinkage");
    for (let i = 1; i < left.length; i++) expect(left[i] as number).toBeGreaterThan(left[i - 1] as number);
    // ten times what the reading of the figure leaves open, at either end
    const reading = 0.0005 / wheel.rimM / Math.sqrt(3);
    expect(left[0] as number).toBeLessThan(-10 * reading);
    expect(left.at(-1) as number).toBeGreaterThan(10 * reading);
    expect(constant.discrepancy.sinkage).toBeGreaterThan(5 * reading);
  });

  test("an exponent that rises with the slip describes it, and the data ask for it", () => {
    const n1 = soilParameters.findIndex(({ name }) => name === "exponentBySlip");
    expect(free.fitted[n1] as number).toBeGreaterThan(3 * Math.sqrt((free.covariance[n1] as readonly number[])[n1] as number));
    expect(free.discrepancy.sinkage as number).toBeLessThan(0.3 * (constant.discrepancy.sinkage as number));
  });
});
