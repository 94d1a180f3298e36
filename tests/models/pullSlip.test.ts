import { expect, test } from "vitest";
import { pullSlip, pullSlipSlopes } from "../../src/models/pullSlip.ts";

const constants = { rise: 0.5, slipScale: 0.2, resistance: 0.1 };

test("starts at minus the motion resistance and levels off", () => {
  expect(pullSlip(0, constants)).toBe(-0.1);
  expect(pullSlip(0.2, constants)).toBeCloseTo(0.5 * 0.6321205588 - 0.1, 9);
  expect(pullSlip(50, constants)).toBeCloseTo(0.4, 12);
});

test("the slopes are those of the curve", () => {
  const { byConstants, bySlip } = pullSlipSlopes(0.15, constants);
  const moved = (part: Partial<typeof constants>, slip = 0.15): number => pullSlip(slip, { ...constants, ...part });
  expect(byConstants[0]).toBeCloseTo((moved({ rise: 0.501 }) - moved({ rise: 0.499 })) / 0.002, 6);
  expect(byConstants[1]).toBeCloseTo((moved({ slipScale: 0.2001 }) - moved({ slipScale: 0.1999 })) / 0.0002, 5);
  expect(byConstants[2]).toBe(-1);
  expect(bySlip).toBeCloseTo((moved({}, 0.1501) - moved({}, 0.1499)) / 0.0002, 5);
});

test("value and slope go on through zero slip without a step, and a braked wheel saturates alike", () => {
  expect(pullSlip(-1e-12, constants)).toBeCloseTo(pullSlip(1e-12, constants), 10);
  expect(pullSlipSlopes(-1e-12, constants).bySlip).toBeCloseTo(pullSlipSlopes(1e-12, constants).bySlip, 9);
  expect(pullSlip(-0.3, constants) + constants.resistance).toBeCloseTo(-(pullSlip(0.3, constants) + constants.resistance), 12);
});

test("the fall is a straight line beside the saturation, and the slopes hold on both sides", () => {
  expect(pullSlip(0.5, { ...constants, fall: 0.2 })).toBeCloseTo(pullSlip(0.5, constants) - 0.1, 12);
  for (const slip of [0.3, -0.3]) {
    const moved = (part: Record<string, number>, at = slip): number => pullSlip(at, { ...constants, fall: 0.2, ...part });
    const { byConstants, bySlip } = pullSlipSlopes(slip, { ...constants, fall: 0.2 });
    expect(byConstants[0]).toBeCloseTo((moved({ rise: 0.501 }) - moved({ rise: 0.499 })) / 0.002, 6);
    expect(byConstants[1]).toBeCloseTo((moved({ slipScale: 0.2001 }) - moved({ slipScale: 0.1999 })) / 0.0002, 5);
    expect(byConstants[3]).toBeCloseTo((moved({ fall: 0.21 }) - moved({ fall: 0.19 })) / 0.02, 9);
    expect(bySlip).toBeCloseTo((moved({}, slip + 1e-4) - moved({}, slip - 1e-4)) / 2e-4, 5);
  }
});
