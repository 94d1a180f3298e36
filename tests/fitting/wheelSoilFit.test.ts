import { describe, expect, test } from "vitest";
import type { Estimate } from "../../src/core/estimate.ts";
import type { WheelObservation } from "../../src/fitting/wheelObservations.ts";
import { wheelSoilFit } from "../../src/fitting/wheelSoilFit.ts";
import type { WheelSoilFit } from "../../src/fitting/wheelSoilFit.ts";
import { soilParameters } from "../../src/fitting/wheelSoilParameters.ts";
import { drivenPulls, groundUnder, plainCurvesToFit, resistiveForceToFit, stressIntegralsToFit } from "../../src/fitting/wheelSoilStart.ts";
import { madeSoil, madeWheel, madeWheelRuns } from "../helpers/madeWheelRuns.ts";

const slips = [-0.1, 0.05, 0.1, 0.2, 0.4, 0.6];
const truths: Readonly<Record<string, number>> = { pressureAt10mm: Math.log(9), sinkageExponent: 1.05, cohesion: 0.4, frictionAngle: 33, shearModulus: Math.log(12), stressAngle: 0.4, stressAngleBySlip: 0.18, exponentBySlip: 0.2 };
const at = (fit: WheelSoilFit, name: string): { readonly value: number; readonly u: number } => {
  const j = soilParameters.findIndex((parameter) => parameter.name === name);
  return { value: fit.fitted[j] as number, u: Math.sqrt((fit.covariance[j] as readonly number[])[j] as number) };
};
const priorSd = (name: string): number => soilParameters.find((parameter) => parameter.name === name)?.prior.sd ?? Number.NaN;

describe("made runs of one wheel, forces summed by another program", () => {
  const three = madeWheelRuns({ seed: 1, loads: [30, 60, 100], slips });
  const fit = wheelSoilFit(three, stressIntegralsToFit(three, "wider circle"));

  test("three loads bring the constants back", () => {
    expect(fit.converged, fit.reason).toBe(true);
    for (const [name, truth] of Object.entries(truths)) {
      const { value, u } = at(fit, name);
      expect(Math.abs(value - truth) / u, `${name}: ${value} ± ${u}, truth ${truth}`).toBeLessThan(3);
    }
    for (const name of ["pressureAt10mm", "sinkageExponent", "cohesion", "frictionAngle", "shearModulus"]) expect(at(fit, name).u, name).toBeLessThan(0.15 * priorSd(name));
  });

  test("what these runs do not touch keeps its belief: one width, no lugs, rigid", () => {
    for (const name of ["widthShare", "lugShare", "flattening"]) expect(at(fit, name).u).toBeCloseTo(priorSd(name), 3);
  });

  test("every start ends at the same soil", () => expect(fit.agreeingStarts).toBe(5));

  test("a right model misses nothing beyond the noise", () => {
    for (const delta of Object.values(fit.discrepancy)) expect(delta).toBeLessThan(0.006);
  });

  test("one load leaves n where belief put it, however well its runs are met", () => {
    const one = madeWheelRuns({ seed: 1, loads: [60], slips });
    const poor = wheelSoilFit(one, stressIntegralsToFit(one, "wider circle"));
    expect(at(poor, "sinkageExponent").u).toBeGreaterThan(0.8 * priorSd("sinkageExponent"));
    expect(at(poor, "frictionAngle").u).toBeGreaterThan(5 * at(fit, "frictionAngle").u);
    for (const { measured, predicted } of poor.data) expect(Math.abs(measured - predicted)).toBeLessThan(0.03);
  });

  test("a wrong model is seen to be wrong: what it misses is many times the noise", () => {
    const wrong = wheelSoilFit(three, resistiveForceToFit);
    expect(wrong.converged).toBe(true);
    expect(wrong.discrepancy.torque).toBeGreaterThan(10 * 0.008);
  });
});

test("plain curves know one wheel's pull and nothing else", () => {
  const runs = madeWheelRuns({ seed: 4, loads: [60], slips });
  const driven = drivenPulls(runs);
  expect(driven.map(({ slip }) => slip.value)).toEqual([0.05, 0.1, 0.2, 0.4, 0.6]);
  const fit = wheelSoilFit(driven, plainCurvesToFit(driven));
  expect(fit.converged, fit.reason).toBe(true);
  for (const { measured, predicted } of fit.data) expect(Math.abs(measured - predicted)).toBeLessThan(0.03);
  expect(plainCurvesToFit(driven).model(fit.fitted, { ...madeWheel, id: "another" }, 0.2, 60)).toEqual({ reason: "a plain curve says nothing of a wheel that was not tested (another)" });
});

test("what runs share counts as the shift it would cause", () => {
  const runs = madeWheelRuns({ seed: 2, loads: [30, 60, 100], slips });
  const effect = (value: number): number => 0.02 * value;
  const change = (f: (estimate: Estimate<"1">) => Estimate<"1">): WheelObservation[] => runs.map((run) => ({ ...run, measured: { ...run.measured, sinkage: f(run.measured.sinkage as Estimate<"1">) } }));
  const shared = change((estimate) => ({ ...estimate, budget: [...estimate.budget, { cause: "calibration S", effect: effect(estimate.value), sharedBy: "calibration S", degreesOfFreedom: Infinity }] }));
  const moved = change((estimate) => ({ ...estimate, value: estimate.value + effect(estimate.value) }));
  const fit = wheelSoilFit(shared, stressIntegralsToFit(shared, "wider circle"));
  const other = wheelSoilFit(moved, stressIntegralsToFit(moved, "wider circle"));
  // the constants that move most; with the others the change of the discrepancy weighs as much
  for (const name of ["cohesion", "shearModulus", "stressAngle", "rebound"]) {
    const j = soilParameters.findIndex((parameter) => parameter.name === name);
    const stated = Math.sqrt((fit.covariance[j] as number[])[j]! - (fit.ownCovariance[j] as number[])[j]!);
    const ratio = stated / Math.abs((other.fitted[j] as number) - (fit.fitted[j] as number));
    expect(ratio, name).toBeGreaterThan(0.85);
    expect(ratio, name).toBeLessThan(1.15);
  }
});

test("lugs few and many tell how much of their height shears and how much pushes", () => {
  const wheels = [0, 10, 30].map((lugs, i) => ({ ...madeWheel, id: `L${i}`, lugs, lugHeightM: lugs === 0 ? 0 : 0.012 }));
  const soil = { ...madeSoil, cohesionPa: 1500, lugs: { share: 0.3, unitWeight: 15_700 } };
  const runs = madeWheelRuns({ seed: 2, loads: [40, 90], slips: [0.1, 0.3, 0.5], wheels, soil });
  expect(groundUnder(runs).unitWeight).toBeCloseTo(15_700, 9);
  const fit = wheelSoilFit(runs, stressIntegralsToFit(runs, "wider circle"));
  expect(fit.converged, fit.reason).toBe(true);
  for (const [name, truth] of Object.entries({ lugShare: 0.3, cohesion: 1.5, frictionAngle: 33 })) {
    const { value, u } = at(fit, name);
    expect(Math.abs(value - truth) / u, `${name}: ${value} ± ${u}, truth ${truth}`).toBeLessThan(3);
    expect(u, name).toBeLessThan(0.4 * priorSd(name));
  }
});

test("two wheels share one soil; their mean width is the reference", () => {
  const wheels = [madeWheel, { ...madeWheel, id: "M2", widthM: 0.16, rimM: 0.12 }];
  const runs = madeWheelRuns({ seed: 3, loads: [40, 90], slips: [0.1, 0.3], wheels });
  expect(groundUnder(runs)).toEqual({ referenceWidthM: expect.closeTo(Math.sqrt(0.1 * 0.16), 12) as number, unitWeight: null });
  const fit = wheelSoilFit(runs, stressIntegralsToFit(runs, "wider circle"));
  // the maker's soil has no share that goes with the width
  expect(Math.abs(at(fit, "widthShare").value) / at(fit, "widthShare").u).toBeLessThan(3);
  expect(at(fit, "widthShare").u).toBeLessThan(0.9 * priorSd("widthShare"));
});

test("no start gives an answer: said, not thrown", () => {
  const runs = madeWheelRuns({ seed: 1, loads: [30], slips: [0.1] });
  const fit = wheelSoilFit(runs, { ...resistiveForceToFit, model: () => ({ reason: "never" }) });
  expect(fit.converged).toBe(false);
  expect(fit.reason).toBe("the model has no answer at any start");
});

