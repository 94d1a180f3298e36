import { describe, expect, test } from "vitest";
import { profileSentence, wheelSoilConstants } from "../../src/fitting/wheelSoilConstants.ts";
import { identifiability } from "../../src/fitting/identifiability.ts";
import { soilBeliefs } from "../../src/fitting/soilBeliefs.ts";
import { soilParameters } from "../../src/fitting/wheelSoilParameters.ts";
import type { WheelSoilFit } from "../../src/fitting/wheelSoilFit.ts";
import { agrees } from "../helpers/agrees.ts";

const beliefs = soilBeliefs(null, 0.1, {});
const sds = soilParameters.map(({ prior }) => 0.2 * prior.sd);
const diagonal = (of: readonly number[]): number[][] => of.map((sd, i) => of.map((_, j) => (i === j ? sd ** 2 : 0)));
const fit: WheelSoilFit = {
  fitted: soilParameters.map(({ prior, name }) => (name === "cohesion" ? 0.1 : prior.mean)), ownCovariance: diagonal(sds.map((sd) => 0.8 * sd)), covariance: diagonal(sds),
  discrepancy: {}, misfit: { single: {}, beds: { pull: 0, torque: 0, sinkage: 0 }, wheels: { pull: 0, torque: 0, sinkage: 0 } },
  data: [], jacobian: [], converged: true, atLimit: [], agreeingStarts: 1, reason: "",
};
const known = identifiability(soilParameters.map(({ symbol }) => symbol), beliefs, fit.covariance);
const place = (name: string): number => soilParameters.findIndex((parameter) => parameter.name === name);

describe("intervals side by side, in the constant's unit", () => {
  const profiles = new Map([[place("pressureAt10mm"), { best: 3, low: Math.log(10), high: null }]]);
  const replicates = Array.from({ length: 20 }, (_, i) => soilParameters.map(({ prior }) => prior.mean + (i % 2 === 0 ? 0.1 : -0.1)));
  const constants = wheelSoilConstants(fit, beliefs, known, profiles, replicates);
  const of = (name: string) => constants[place(name)];

  test("covariance, profile and refits, through the logarithm", () => {
    const pressure = of("pressureAt10mm");
    agrees(pressure?.interval[1] ?? 0, { expected: 20e3 * Math.exp(1.959964 * 0.3), relative: 1e-6, source: "20 kPa times e^(1.96 · 0.2 · 1.5), by hand" });
    agrees(pressure?.profile?.low ?? 0, { expected: 10e3, relative: 1e-12, source: "10 kPa as given" });
    expect(pressure?.profile?.high).toBeNull();
    agrees(pressure?.bootstrap?.[0] ?? 0, { expected: 20e3 * Math.exp(-1.959964 * 0.1 * Math.sqrt(20 / 19)), relative: 1e-6, source: "standard deviation of ±0.1 twenty times, by hand" });
    expect(pressure?.sentence).toContain("The data alone leave p₁₀ open above: it is not determined on that side.");
  });

  test("an interval ends at the bound", () => expect(of("cohesion")?.interval[0]).toBe(0));

  test("a constant at its bound says so", () => {
    const bounded = wheelSoilConstants({ ...fit, atLimit: soilParameters.map(({ name }) => name === "lugShare") }, beliefs, known, new Map(), replicates);
    expect(bounded.filter(({ sentence }) => sentence.includes("at the bound")).map(({ symbol }) => symbol)).toEqual(["κ"]);
  });

  test("not asked for: none", () => {
    expect(of("stressAngle")?.profile).toBeNull();
    expect(wheelSoilConstants(fit, beliefs, known, new Map(), replicates.slice(0, 9))[0]?.bootstrap).toBeNull();
  });
});

describe("a profile in words", () => {
  const say = (low: number | null, high: number | null): string => profileSentence("n", { best: 1, low, high }, [0.8, 1.2]);
  test.each([
    [null, null, "The data alone leave n open on both sides."],
    [null, 1.2, "The data alone leave n open below: it is not determined on that side."],
    [0.8, 1.21, "The data hold it on both sides, as far as the covariance says."],
    [0.8, 1.4, "The data hold it on both sides; the upper end lies farther out than the covariance says."],
    [0.9, 1.4, "The data hold it on both sides; the upper end lies farther out than the covariance says, the lower end lies nearer."],
    [0.5, 1.5, "The data hold it on both sides; both ends lie farther out than the covariance says."],
  ] as const)("%s … %s", (low, high, sentence) => expect(say(low, high)).toBe(sentence));
});
