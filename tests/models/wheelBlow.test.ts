import { beforeAll, describe, expect, test } from "vitest";
import { contactPush, wheelBlow } from "../../src/models/wheelBlow.ts";
import type { WheelContact } from "../../src/models/wheelBlow.ts";
import { agrees } from "../helpers/agrees.ts";
import { scipy, scipySource } from "../numerics/scipyReference.ts";

const spring: WheelContact = { push: 200, exponent: 1, loss: 0, viscous: 0, referenceM: 0.005, referenceMps: 1 };

describe("blows in closed form, without gravity", () => {
  test("a linear spring: half a period, v ω, v/ω, all speed back", () => {
    const omega = Math.sqrt(200 / 0.005);
    const blow = wheelBlow(spring, 1.4, 0);
    const source = "half a period of a harmonic oscillator: t = π/ω, a = v ω, d = v/ω";
    agrees(blow.duration, { expected: Math.PI / omega, relative: 1e-4, source });
    agrees(blow.peakAcceleration, { expected: 1.4 * omega, relative: 1e-4, source });
    agrees(blow.compression, { expected: 1.4 / omega, relative: 1e-4, source });
    agrees(blow.restitution, { expected: 1, within: 1e-4, source });
  });
  test("p = 3/2: 2.9432 times compression over speed", () => {
    const blow = wheelBlow({ ...spring, exponent: 1.5 }, 2, 0);
    agrees((blow.duration * 2) / blow.compression, { expected: 2.9432, within: 5e-4, source: "impact of spheres: K. L. Johnson, Contact Mechanics, 11.4: T = 2.94 δ/V; 2.9432 = 0.8 B(0.4, 0.5) (from memory)" });
    agrees(blow.compression, { expected: 0.005 * ((0.5 * 4 * 2.5) / (200 * 0.005)) ** 0.4, relative: 1e-4, source: "½ v² = A d₀ (d/d₀)^(p+1)/(p+1)" });
  });
  test.each([0.05, 0.1, 0.3])("spring and damper, ζ = %f: the ground lets go where the push ends", (zeta) => {
    const root = Math.sqrt(1 - zeta * zeta);
    const angle = Math.PI - Math.atan2(2 * zeta * root, 1 - 2 * zeta * zeta);
    const source = "T. Schwager and T. Pöschel, Granular Matter 9 (2007) 465: e = exp(−ζ/√(1−ζ²) (π − arctan(2ζ√(1−ζ²)/(1−2ζ²)))) (from memory, worked out)";
    for (const speed of [0.5, 2]) agrees(wheelBlow({ ...spring, viscous: zeta }, speed, 0).restitution, { expected: Math.exp((-zeta / root) * angle), within: 2e-4, source });
  });
  test.each([[1, 0.2], [1.5, 0.2], [3, 0.2], [1.5, 0.8]])("Hunt and Crossley, p = %f, β = %f: the loss depends on the speed alone", (exponent, loss) => {
    for (const speed of [0.3, 1, 2.5]) {
      const { restitution } = wheelBlow({ ...spring, exponent, loss }, speed, 0);
      const side = (x: number): number => x - Math.log(1 + x);
      agrees(side(-loss * speed * restitution), { expected: side(loss * speed), relative: 2e-3, source: "∫ v dv/(1 + βv) from touch to turn and back, the same for both ways: βv − ln(1 + βv) is equal at both ends" });
    }
    agrees(wheelBlow({ ...spring, exponent, loss: 0.01 }, 1, 0).restitution, { expected: 1 - (2 / 3) * 0.01, within: 2e-4, source: "K. H. Hunt and F. R. E. Crossley 1975: e = 1 − (2/3)(λ/k) v for small speeds (from memory)" });
  });
});

describe("with everything at once, against SciPy", () => {
  const cases = [
    [{ push: 150, exponent: 1.3, loss: 0.1, viscous: 0.08, referenceM: 0.006, referenceMps: 1.2 }, 1.4, 9.81],
    [{ push: 900, exponent: 1, loss: 0.3, viscous: 0.12, referenceM: 0.002, referenceMps: 2 }, 0.7, 9.81],
    [{ push: 150, exponent: 2.4, loss: 0.2, viscous: 0.05, referenceM: 0.006, referenceMps: 1.2 }, 2, 1.62],
  ] as const satisfies readonly (readonly [WheelContact, number, number])[];
  let answers: [number, number, number, number][];
  beforeAll(() => {
    answers = scipy(cases.map(([c, speed, gravity]) => ["blow", [c.push, c.exponent, c.loss, c.viscous, c.referenceM, c.referenceMps, speed, gravity]])) as typeof answers;
  });
  test.each(cases.map(([contact, speed, gravity], i) => ({ contact, speed, gravity, i })))("speed $speed, gravity $gravity", ({ contact, speed, gravity, i }) => {
    const blow = wheelBlow(contact, speed, gravity);
    const source = `scipy.integrate.solve_ivp (DOP853, 1e-11) with events; ${scipySource}`;
    [blow.peakAcceleration, blow.compression, blow.duration, blow.restitution].forEach((value, k) => agrees(value, { expected: (answers[i] as number[])[k] as number, relative: 5e-4, source }));
  });
});

test("the ground never pulls; a wheel too slow and too damped to leave stays", () => {
  expect(contactPush(0.001, -5, { ...spring, viscous: 0.5 })).toBe(0);
  const stays = wheelBlow({ ...spring, viscous: 0.9 }, 0.02, 9.81);
  expect(stays.restitution).toBeNaN();
  expect(stays.compression).toBeGreaterThan(0);
  expect(wheelBlow({ ...spring, push: 0 }, 1, 9.81).compression).toBeNaN();
});
