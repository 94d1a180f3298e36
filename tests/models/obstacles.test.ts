import { describe, expect, test } from "vitest";
import { ballisticHop, bumpAcceleration, halfSineAmplification, liftOffSpeed } from "../../src/models/bumpCrossing.ts";
import type { Bump } from "../../src/models/bumpCrossing.ts";
import { stepLeastSpeed, stepSpeedRatio } from "../../src/models/stepImpact.ts";
import { agrees } from "../helpers/agrees.ts";

const earth = 9.80665;
const moon = 1.62;
const derived = "exact identity, worked apart from this code in Python";

describe("striking a step", () => {
  test("a wheel of 50 kg", () => {
    const source = "Hibbeler, Dynamics, 14th ed., problem 19-52: m 50 kg, k 125 mm, r 150 mm, h 25 mm, g 9.81 seen; 3.98 rad/s from memory, further digits recomputed";
    const step = { radiusM: 0.15, heightM: 0.025 };
    const inertia = (0.125 / 0.15) ** 2;
    agrees(stepSpeedRatio(step, inertia), { expected: 0.901639, within: 1e-6, source });
    agrees(stepLeastSpeed(step, inertia, 9.81) / 0.15, { expected: 3.978155, within: 1e-5, source });
    agrees((stepSpeedRatio(step, inertia) * stepLeastSpeed(step, inertia, 9.81)) / 0.15, { expected: 3.586861, within: 1e-5, source });
  });

  test("a wheel of 10 kg, here and in low gravity", () => {
    const source = "Hibbeler, Dynamics, obstruction example of chapter 19: m 10 kg, I 0.156 kg·m², r 0.2 m, h 0.03 m, 0.892 and 0.729 m/s from memory, further digits recomputed";
    const step = { radiusM: 0.2, heightM: 0.03 };
    const inertia = 0.156 / (10 * 0.2 ** 2);
    agrees(stepSpeedRatio(step, inertia), { expected: 0.892086, within: 1e-6, source });
    agrees(stepLeastSpeed(step, inertia, 9.81), { expected: 0.729451, within: 1e-5, source });
    agrees(stepSpeedRatio(step, inertia) * stepLeastSpeed(step, inertia, 9.81), { expected: 0.650733, within: 1e-5, source });
    agrees(stepLeastSpeed(step, inertia, moon), { expected: 0.296428, within: 1e-5, source });
  });

  test("disc and hoop", () => {
    const step = { radiusM: 0.25, heightM: 0.05 };
    for (const [inertia, ratio, here, there, loss] of [[0.5, 0.866667, 0.933118, 0.379193, 0.248889], [1, 0.9, 0.778175, 0.316228, 0.19]] as const) {
      agrees(stepSpeedRatio(step, inertia), { expected: ratio, within: 1e-6, source: derived });
      agrees(stepLeastSpeed(step, inertia, 9.81), { expected: here, within: 1e-6, source: derived });
      agrees(stepLeastSpeed(step, inertia, moon), { expected: there, within: 1e-6, source: derived });
      agrees(1 - stepSpeedRatio(step, inertia) ** 2, { expected: loss, within: 1e-6, source: derived });
    }
    expect(stepSpeedRatio({ radiusM: 0.1, heightM: 0.12 }, 1)).toBeNaN();
  });
});

describe("bumps", () => {
  const versine: Bump = { shape: "versine", heightM: 0.1, lengthM: 1 };
  const halfSine: Bump = { shape: "halfSine", heightM: 0.1, lengthM: 1 };

  test("speed of lift-off, and the acceleration is then that of gravity", () => {
    for (const [bump, here, there] of [[versine, 2.228925, 0.905926], [halfSine, 3.152176, 1.281173]] as const) {
      agrees(liftOffSpeed(bump, earth), { expected: here, within: 1e-6, source: derived });
      agrees(liftOffSpeed(bump, moon), { expected: there, within: 1e-6, source: derived });
      expect(bumpAcceleration(bump, liftOffSpeed(bump, moon))).toBeCloseTo(moon, 12);
    }
    agrees(bumpAcceleration(halfSine, 1), { expected: 0.98696, within: 1e-6, source: derived });
    agrees(bumpAcceleration(versine, 1), { expected: 1.973921, within: 1e-6, source: derived });
  });

  test("a hop", () => {
    const angle = (10 * Math.PI) / 180;
    for (const [gravity, durationS, reachM, heightM] of [[earth, 0.0708287, 0.139505, 6.1496e-3], [moon, 0.428761, 0.844494, 0.0372268]] as const) {
      const hop = ballisticHop(2, angle, gravity);
      agrees(hop.durationS, { expected: durationS, within: 1e-6, source: derived });
      agrees(hop.reachM, { expected: reachM, within: 1e-6, source: derived });
      agrees(hop.heightM, { expected: heightM, within: 1e-6, source: derived });
    }
  });

  test("a sprung mass over a half-sine bump", () => {
    const source = "classical undamped half-sine spectrum (Clough & Penzien; Harris & Crede; from memory), recomputed";
    for (const [ratio, during] of [[0.75, 1.763356], [0.81, 1.768458], [1, 1.732051], [1.5, 1.5], [2, 1.268075], [2.5, 1.082532], [3, 1.169914], [10, 1.04969]] as const) agrees(halfSineAmplification(ratio), { expected: during, within: 1e-5, source });
    for (const [ratio, after] of [[0.1, 0.39627], [0.25, 0.94281], [0.5, Math.PI / 2]] as const) agrees(halfSineAmplification(ratio), { expected: after, within: 1e-5, source });
    // f = 1.5 Hz, L = 1 m: worst at 1.852 m/s
    agrees(halfSineAmplification(1.5 / 1.851997), { expected: 1.768458, within: 1e-5, source });
    expect(halfSineAmplification(1.5 / 1.6)).toBeLessThan(1.768458);
    expect(halfSineAmplification(1.5 / 2.2)).toBeLessThan(1.768458);
  });
});
