import { expect, test } from "vitest";
import { demonstration } from "../../src/fitting/demonstration.ts";
import { agrees } from "../helpers/agrees.ts";

const claimed = { missionDistance: 1000, weibullShape: 2, claim: { reliability: 0.9, confidence: 0.9 } };
const sound = (...distances: readonly number[]) => distances.map((distanceM, i) => ({ wheel: `W${i + 1}`, distanceM, failed: false }));

test("what two wheels have shown, and what a claim needs", () => {
  const found = demonstration(sound(1000, 2000), claimed);
  agrees(found.reliability ?? Number.NaN, { expected: 0.1 ** 0.2, relative: 1e-12, source: "by hand: 1² + 2² = 5" });
  agrees(found.needed.find((plan) => plan.wheels === 1)?.missions ?? Number.NaN, { expected: 4.6749, within: 5e-5, source: "√(ln 0.1 / ln 0.9) worked by hand" });
  agrees(found.needed.find((plan) => plan.wheels === 4)?.distanceM ?? Number.NaN, { expected: 2337.4, within: 0.05, source: "half of it, in metres" });
  expect(found.verdict).toBe("determined");
  expect(found.sentence).toContain("not demonstrated yet");
});

test("a plan fulfilled demonstrates its claim", () => {
  const { needed } = demonstration(sound(1), claimed);
  for (const { wheels, distanceM } of needed) {
    expect(demonstration(sound(...Array.from({ length: wheels }, () => 1.0001 * distanceM)), claimed).sentence).toContain("is demonstrated");
    expect(demonstration(sound(...Array.from({ length: wheels }, () => 0.9999 * distanceM)), claimed).sentence).toContain("not demonstrated yet");
  }
});

test("not determined says why", () => {
  expect(demonstration(sound(1000), undefined).sentence).toContain("no missionDistance, no weibullShape, no claim");
  expect(demonstration([], claimed)).toMatchObject({ verdict: "undetermined", reliability: null });
  const failed = demonstration([...sound(1000), { wheel: "W9", distanceM: 500, failed: true }], claimed);
  expect(failed).toMatchObject({ verdict: "undetermined", reliability: null });
  expect(failed.sentence).toContain("W9 failed");
});
