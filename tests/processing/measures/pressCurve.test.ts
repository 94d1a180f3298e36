import { expect, test } from "vitest";
import { normalPress, pressCurve } from "../../../src/processing/measures/pressCurve.ts";
import { plan, preparedRun } from "../../helpers/pressRun.ts";

const displacement = Array.from({ length: 300 }, (_, index) => 0.01 + index * 1e-5);
const force = displacement.map((x, index) => 5 + 0.01 * ((index % 3) - 1) + 2e4 * Math.max(0, x - 0.011));

test("force and displacement are counted from contact, and each calibration is one cause", () => {
  const doubt = (calibration: string) => ({ noise: 0, offset: 0, relativeGain: 0.002, calibration });
  const run = preparedRun(plan("plate"), { pressForce: { unit: "N", samples: force, doubt: doubt("LC-1") }, pressDisplacement: { unit: "m", samples: displacement, doubt: doubt("LVDT-2") } });
  const reading = pressCurve(run, normalPress);
  expect(reading?.curve.displacement[0]).toBeLessThanOrEqual(0);
  expect(reading?.curve.displacement[0]).toBeGreaterThan(-1e-5);
  expect(Math.abs((reading?.curve.force.at(-1) ?? 0) - 2e4 * (0.01299 - 0.011))).toBeLessThan(0.02);
  expect(reading?.causes.map((cause) => cause.cause)).toEqual(["contact point of run1", "shape of the first contact", "zero of the force of run1", "calibration LC-1", "calibration LVDT-2"]);
  // of the power along which a force sets in only the bounds are known
  expect(reading?.causes.filter(({ shape }) => shape === "rectangular").map(({ cause }) => cause)).toEqual(["shape of the first contact"]);
  expect(reading?.unknownCause).toBeNull();
});

test("a log that begins in contact says so and does not invent the uncertainty of its zero", () => {
  const run = preparedRun(plan("plate"), { pressForce: { unit: "N", samples: force.slice(150) }, pressDisplacement: { unit: "m", samples: displacement.slice(150) } });
  const reading = pressCurve(run, normalPress);
  expect(reading?.findings.map((entry) => entry.code)).toContain("contact-not-recorded");
  expect(reading?.unknownCause).toContain("begins in contact");
  expect(reading?.curve.displacement[0]).toBe(displacement[150]);
});

test("a log that ends before the press touches is rejected as that, not taken for one that begins in contact", () => {
  const run = preparedRun(plan("plate"), { pressForce: { unit: "N", samples: force.slice(0, 90) }, pressDisplacement: { unit: "m", samples: displacement.slice(0, 90) } });
  const reading = pressCurve(run, normalPress);
  expect(reading?.findings.map(({ code, severity }) => [code, severity])).toContainEqual(["press-never-touches", "reject"]);
  expect(reading?.findings.map(({ code }) => code)).not.toContain("contact-not-recorded");
  expect(reading?.unknownCause).toContain("never rises clear of its noise");
});
