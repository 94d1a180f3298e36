import { expect, it } from "vitest";
import { pullWithInertia, torqueWithInertia } from "../../../src/processing/measures/inertialForce.ts";
import type { Reading } from "../../../src/processing/measures/reading.ts";
import type { Unit } from "../../../src/core/units.ts";
import { agrees } from "../../helpers/agrees.ts";

const reading = <U extends Unit>(value: number, unit: U, effect: number, cause: string): Reading<U> => ({ unit, value, perRevolution: [value, value], rows: [{ cause, effect, sharedBy: null, degreesOfFreedom: Infinity }] });

it("while speed is gained the ground gives more than the sensor reads, and the torque less", () => {
  const pull = pullWithInertia(reading(10, "N", 0, "p"), reading(0.5, "m/s2", 0.02, "a"), reading(4, "kg", 0.1, "m"));
  agrees(pull.value, { expected: 12, relative: 1e-12, source: "10 N + 4 kg · 0.5 m/s²" });
  const torque = torqueWithInertia(reading(2, "N.m", 0, "t"), reading(5, "rad/s2", 0.1, "alpha"), reading(0.02, "kg.m2", 0.002, "i"));
  agrees(torque.value, { expected: 1.9, relative: 1e-12, source: "2 N·m − 0.02 kg·m² · 5 rad/s²" });
  const effect = (found: Reading, cause: string): number => found.rows.find((row) => row.cause === cause)?.effect ?? Number.NaN;
  agrees(effect(pull, "m"), { expected: 0.05, relative: 1e-6, source: "a u(m), by hand" });
  agrees(effect(pull, "a"), { expected: 0.08, relative: 1e-6, source: "m u(a), by hand" });
  agrees(effect(torque, "i"), { expected: -0.01, relative: 1e-6, source: "−α u(I), by hand" });
  agrees(effect(torque, "alpha"), { expected: -0.002, relative: 1e-6, source: "−I u(α), by hand" });
  expect(pullWithInertia(reading(10, "N", 0, "p"), reading(-0.5, "m/s2", 0, "a"), reading(4, "kg", 0, "m")).value).toBeLessThan(10);
});
