import { expect, test } from "vitest";
import { seededRandom } from "../../../src/numerics/random.ts";
import { orderAmplitude } from "../../../src/processing/measures/orderAmplitude.ts";
import { agrees } from "../../helpers/agrees.ts";

const source = "made signal: the amplitudes put in";

/** Four revolutions at uneven angles. */
function turns(of: (angle: number) => number, samples = 97) {
  return Array.from({ length: 4 }, (_, turn) => {
    const angles = Array.from({ length: samples }, (__, i) => 2 * Math.PI * (turn + ((i + 0.3 * Math.sin(i)) / samples)));
    return { angles, values: angles.map(of) };
  });
}

test("gives back ripple once a revolution and at the lugs, whatever their phase and the mean", () => {
  const [once, lug] = orderAmplitude(turns((angle) => 12 + 0.7 * Math.sin(angle + 2) + 0.3 * Math.cos(24 * angle - 1)), [1, 24]) as [number[], number[]];
  for (const amplitude of once) agrees(amplitude, { expected: 0.7, within: 1e-12, source });
  for (const amplitude of lug) agrees(amplitude, { expected: 0.3, within: 1e-12, source });
});

test("what does not keep its place on the wheel averages out", () => {
  const random = seededRandom(4);
  const [once] = orderAmplitude(turns(() => random.normal(), 400), [1]) as [number[]];
  const mean = once.reduce((sum, value) => sum + value, 0) / 4;
  // amplitude of noise in one revolution: about √(2 · 2/400) = 0.1; the mean of four is half of that at most by chance
  expect(mean).toBeLessThan(0.15);
});

test("missing samples are left out; too few samples give no answer", () => {
  const holed = turns((angle) => Math.sin(angle)).map(({ angles, values }) => ({ angles, values: values.map((value, i) => (i % 7 === 0 ? Number.NaN : value)) }));
  agrees((orderAmplitude(holed, [1]) as [number[]])[0][2] as number, { expected: 1, within: 1e-12, source });
  expect(orderAmplitude(turns(Math.sin, 9), [1, 24])).toBeNull();
  expect(orderAmplitude([], [1])).toBeNull();
});
