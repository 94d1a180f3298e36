import { expect, test } from "vitest";
import { climbOutcome } from "../../../src/processing/measures/climbOutcome.ts";

const at = (points: readonly (readonly [number, number])[], n = 200): number[] =>
  Array.from({ length: n }, (_, i) => {
    const place = i / (n - 1);
    const next = points.findIndex(([p]) => p >= place);
    const [x1, y1] = points[Math.max(1, next)] as readonly [number, number];
    const [x0, y0] = points[Math.max(1, next) - 1] as readonly [number, number];
    return y0 + ((place - x0) / (x1 - x0)) * (y1 - y0);
  });
const h = 0.05;
const forwards = at([[0, 0], [1, 0.6]]);

test("a wheel that stands on the step at the end has climbed it", () => {
  expect(climbOutcome(at([[0, 0.2], [0.4, 0.2], [0.5, 0.25], [1, 0.25]]), null, h, 0.1)).toMatchObject({ outcome: "climbed" });
  expect(climbOutcome(at([[0, 0.2], [0.4, 0.2], [0.5, 0.25], [1, 0.25]]), null, h, 0.1).endRiseM).toBeCloseTo(0.05, 9);
});

test("a wheel that goes over a rock and down again has climbed it, if the carriage went on", () => {
  const overRock = at([[0, 0.2], [0.4, 0.2], [0.5, 0.25], [0.6, 0.2], [1, 0.2]]);
  expect(climbOutcome(overRock, forwards, h, 0.1).outcome).toBe("climbed");
  expect(climbOutcome(overRock, null, h, 0.1).outcome).toBe("notTold");
});

test("a wheel that falls back, and one that hardly rises, have not", () => {
  const stopped = at([[0, 0], [0.5, 0.3], [0.6, 0.25], [1, 0.25]]);
  expect(climbOutcome(at([[0, 0.2], [0.4, 0.2], [0.5, 0.245], [0.6, 0.2], [1, 0.2]]), stopped, h, 0.1).outcome).toBe("notClimbed");
  expect(climbOutcome(at([[0, 0.2], [0.5, 0.21], [1, 0.21]]), null, h, 0.1).outcome).toBe("notClimbed");
});

test("in between nothing is told", () => {
  expect(climbOutcome(at([[0, 0.2], [0.5, 0.23], [1, 0.23]]), null, h, 0.1).outcome).toBe("notTold");
  expect(climbOutcome(at([[0, 0.2], [0.5, 0.25], [0.6, 0.225], [1, 0.225]]), at([[0, 0], [0.5, 0.3], [1, 0.3]]), h, 0.1).outcome).toBe("notTold");
});

test("a single wrong sample is no summit", () => {
  const hub = at([[0, 0.2], [1, 0.2]]);
  hub[100] = 0.3;
  expect(climbOutcome(hub, null, h, 0.1).outcome).toBe("notClimbed");
});
