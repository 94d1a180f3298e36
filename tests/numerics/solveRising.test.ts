import fc from "fast-check";
import { expect, test } from "vitest";
import { solveRising } from "../../src/numerics/solveRising.ts";

test("a power law is found at once, whatever the guess", () => {
  fc.assert(
    fc.property(fc.double({ min: 0.1, max: 4, noNaN: true }), fc.double({ min: -12, max: 12, noNaN: true }), fc.double({ min: -12, max: 2, noNaN: true }), (exponent, logTarget, logGuess) => {
      let calls = 0;
      const x = solveRising((value) => (calls++, value ** exponent), Math.exp(logTarget), { guess: Math.exp(logGuess), exponent, upper: Math.exp(200) });
      expect(Math.log(x ?? Number.NaN) * exponent).toBeCloseTo(logTarget, 8);
      expect(calls).toBeLessThanOrEqual(4);
    }),
  );
});

test("curves far from the guessed power law", () => {
  for (const f of [(x: number) => Math.expm1(5 * x), (x: number) => x / (1 + x), (x: number) => x - 0.2, (x: number) => (x < 0.4 ? 1e-9 * x : x), (x: number) => (x > 0.6 ? Infinity : x)]) {
    const x = solveRising(f, 0.5, { guess: 1e-3, exponent: 1.5, upper: 10 });
    expect(f(x ?? Number.NaN)).toBeCloseTo(0.5, 9);
  }
});

test("no answer: out of reach, or a jump across the target", () => {
  expect(solveRising((x) => x, 2, { guess: 0.1, exponent: 1, upper: 1 })).toBeNull();
  expect(solveRising(() => 0, 2, { guess: 0.1, exponent: 1, upper: 1 })).toBeNull();
  expect(solveRising((x) => (x < 0.3 ? 1 : 3), 2, { guess: 0.1, exponent: 1, upper: 1 })).toBeNull();
});

test("the upper end itself may be the answer", () => expect(solveRising((x) => x, 1, { guess: 0.1, exponent: 1, upper: 1 })).toBeCloseTo(1, 12));

test("wrong call", () => expect(() => solveRising((x) => x, 0, { guess: 1, exponent: 1, upper: 1 })).toThrow(RangeError));
