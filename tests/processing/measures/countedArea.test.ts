import { expect, test } from "vitest";
import { dice } from "../../../scripts/demo/dice.ts";
import { mean, standardDeviation } from "../../../src/numerics/statistics.ts";
import type { ContactMask } from "../../../src/processing/measures/contactPatch.ts";
import { countedArea, innerCorners } from "../../../src/processing/measures/countedArea.ts";
import { agrees } from "../../helpers/agrees.ts";

const mask = (lines: readonly string[]): ContactMask => ({ rows: lines.length, columns: lines[0]?.length ?? 0, contact: Uint8Array.from(lines.join(""), (sign) => (sign === "#" ? 1 : 0)) });

test("corners with contact all round, counted by hand", () => {
  const inner = innerCorners(mask(["......", ".####.", ".####.", ".###.."]));
  expect(inner).toEqual({ rows: 3, columns: 5, contact: Uint8Array.from([0, 0, 0, 0, 0, 0, 1, 1, 1, 0, 0, 1, 1, 0, 0]) });
  expect(innerCorners(mask(["#"]))).toEqual({ rows: 0, columns: 0, contact: new Uint8Array(0) });
});

/** Whether each cell of a grid, in squares from (row, column), is met by an ellipse. */
function met(half: readonly [number, number], middle: readonly [number, number], size: number): ContactMask {
  const nearest = (low: number): number => Math.max(low, Math.min(0, low + 1));
  return { rows: size, columns: size, contact: Uint8Array.from({ length: size * size }, (_, i) => ((nearest(Math.floor(i / size) - middle[0]) / half[0]) ** 2 + (nearest((i % size) - middle[1]) / half[1]) ** 2 < 1 ? 1 : 0)) };
}

test("ellipses set down anywhere: the corners give their area on average, with the scatter that is stated", () => {
  const random = dice(3, "ellipses");
  const made = Array.from({ length: 400 }, () => {
    const half = [6 + 6 * random.uniform(), 6 + 6 * random.uniform()] as const;
    const counted = countedArea(innerCorners(met(half, [16 + random.uniform(), 16 + random.uniform()], 33)), null);
    return { counted, area: Math.PI * half[0] * half[1], error: counted.points - Math.PI * half[0] * half[1] };
  });
  const errors = made.map(({ error }) => error);
  const source = "points of a grid in a region set down at random: their mean number is its area; 400 ellipses tell mean and scatter to 5 and 3.5 % of a standard deviation";
  agrees(mean(errors), { expected: 0, within: 0.3, source });
  agrees(standardDeviation(made.map(({ counted, error }) => error / counted.edgeDoubt)), { expected: 1, within: 0.12, source });
  expect(made.every(({ counted }) => counted.hidden === 0 && counted.longestSideDoubt === 0)).toBe(true);
});

test("a disc: the mean square error per length is the factor that stereology uses", () => {
  // Σ over the grid's waves k of R / (2π² |k|³) for a disc, per 2πR; the sum is 4 ζ(3/2) β(3/2)
  let sum = 0;
  for (let i = -400; i <= 400; i++) for (let j = -400; j <= 400; j++) if (i !== 0 || j !== 0) sum += (i * i + j * j) ** -1.5;
  agrees(sum / (2 * Math.PI ** 2) / (2 * Math.PI), { expected: 0.0724, relative: 0.01, source: "H. J. G. Gundersen and E. B. Jensen, J. Microsc. 147 (1987) 229, from memory; by Bessel's function's mean square for large arguments" });
  // the function's own factor, from the sides of a disc's squares: 4 times its width in points
  const counted = countedArea({ rows: 61, columns: 61, contact: Uint8Array.from({ length: 61 * 61 }, (_, i) => (Math.hypot(Math.floor(i / 61) - 30, (i % 61) - 30) <= 25 ? 1 : 0)) }, null);
  agrees(counted.edgeDoubt ** 2, { expected: 0.0724 * (Math.PI / 4) * 4 * 51, within: 1e-9, source: "worked by hand" });
});

test("a rectangle along the grid: each side may lie anywhere between two lines of points", () => {
  const lines = Array.from({ length: 12 }, (_, row) => (row >= 2 && row < 10 ? "..####################.." : ".".repeat(24)));
  const counted = countedArea(mask(lines), null);
  expect(counted.points).toBe(160);
  expect(counted.longestSideDoubt).toBeCloseTo(20 / Math.sqrt(12), 12);
  expect(counted.edgeDoubt).toBeCloseTo(Math.hypot(20, 8, 8) / Math.sqrt(12), 12);
});

test("what reads between one and four times the threshold at the edge lies hidden about once more; holes and straight sides do not count", () => {
  const points = mask(["........", "..###...", ".#####..", ".#####..", ".#####..", "..###...", "........"]);
  const clear = mask(["........", "..#.#...", "..####..", ".##.##..", "..####..", "..###...", "........"]);
  const counted = countedArea(points, clear);
  // three at the edge, one in the middle
  expect(counted.hidden).toBeCloseTo(3 * 1.175, 12);
  expect(counted.hiddenDoubt).toBeCloseTo((3 * 0.65) / Math.sqrt(12), 12);
  // 2.175² + 1.175² − 2 · 2.175 · 1.175 / 4
  expect(counted.edgeDoubt).toBeCloseTo(Math.sqrt(4.8334375 * 0.0724 * (Math.PI / 4) * 20), 12);
  const block = mask(Array.from({ length: 12 }, (_, row) => (row >= 2 && row < 11 ? "..#########." : ".".repeat(12))));
  expect(countedArea(block, mask(Array.from({ length: 12 }, () => ".".repeat(12)))).hidden).toBe(0);
});

/** Depth at which the outermost cell around a corner reads so much, at an edge that runs at an angle; the pressure goes with a power of the depth. */
function depthOf(reading: number, angle: number, power: number): number {
  const steps = 40;
  let [low, high] = [0, 3];
  for (let bisection = 0; bisection < 20; bisection++) {
    const depth = (low + high) / 2;
    let sum = 0;
    for (let i = 0; i < steps; i++) for (let j = 0; j < steps; j++) {
      const inside = depth - ((i + 0.5) / steps) * Math.cos(angle) - ((j + 0.5) / steps) * Math.sin(angle);
      sum += inside > 0 ? inside ** power : 0;
    }
    if (sum / steps ** 2 < reading) low = depth;
    else high = depth;
  }
  return (low + high) / 2;
}

/** Readings of a pad's cells, each the mean of a pressure that is (1 − r²)^power on an ellipse, over the mean pressure. */
function padOf(half: readonly [number, number], middle: readonly [number, number], size: number, power: number): Float64Array {
  const fine = 10;
  const meanPressure = 1 / (1 + power);
  return Float64Array.from({ length: size * size }, (_, cell) => {
    let sum = 0;
    for (let i = 0; i < fine; i++) for (let j = 0; j < fine; j++) {
      const inside = 1 - ((Math.floor(cell / size) + (i + 0.5) / fine - middle[0]) / half[0]) ** 2 - (((cell % size) + (j + 0.5) / fine - middle[1]) / half[1]) ** 2;
      sum += inside > 0 ? inside ** power : 0;
    }
    return sum / fine ** 2 / meanPressure;
  });
}

test.each([["a flat-topped", 0.25], ["a Hertz", 0.5]])("pads under %s pressure, the threshold a twenty-fifth of its mean: area and doubt", (_name, power) => {
  const random = dice(5, `pad ${power}`);
  const size = 28;
  const made = Array.from({ length: 100 }, () => {
    const half = [6 + 3 * random.uniform(), 8 + 3 * random.uniform()] as const;
    const read = padOf(half, [14 + random.uniform(), 14 + random.uniform()], size, power);
    const above = (level: number): ContactMask => innerCorners({ rows: size, columns: size, contact: Uint8Array.from(read, (value) => (value > level ? 1 : 0)) });
    const counted = countedArea(above(0.04), above(0.16));
    return { counted, error: counted.points + counted.hidden - Math.PI * half[0] * half[1] };
  });
  const source = "area π a b; 100 pads tell the scatter to 7 %";
  agrees(mean(made.map(({ counted, error }) => error / counted.hiddenDoubt)), { expected: 0, within: Math.sqrt(3), source: "the bounds of what lies hidden" });
  agrees(standardDeviation(made.map(({ counted, error }) => error / counted.edgeDoubt)), { expected: 1, within: 0.2, source });
  // uncorrected, the pads miss three times as much as they are in doubt
  expect(mean(made.map(({ counted, error }) => (error - counted.hidden) / counted.edgeDoubt))).toBeLessThan(-2);
});

test("hidden points over those up to four times the threshold, for edges in all directions: between 0.85 and 1.5", () => {
  const angles = Array.from({ length: 6 }, (_, k) => ((k + 0.5) / 6) * (Math.PI / 4));
  const ratio = (power: number, reading: number): number => {
    const hidden = mean(angles.map((angle) => depthOf(reading, angle, power)));
    return hidden / (mean(angles.map((angle) => depthOf(4 * reading, angle, power))) - hidden);
  };
  const ratios = [0, 0.25, 0.5, 1].flatMap((power) => [0.04, 0.08].map((reading) => ratio(power, reading)));
  agrees(Math.min(...ratios), { expected: 0.85, within: 0.03, source: "quadrature over cell, depth and direction, even pressure" });
  agrees(Math.max(...ratios), { expected: 1.5, within: 0.03, source: "quadrature over cell, depth and direction, pressure in proportion to the depth" });
  agrees(ratio(0, 0.01), { expected: 1, within: 0.03, source: "even pressure on a triangle of depth d at a slanting edge: the reading goes with d², so d(4t) = 2 d(t)" });
});
