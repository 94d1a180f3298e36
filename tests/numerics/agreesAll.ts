import { expect } from "vitest";
import { agrees } from "../helpers/agrees.ts";

/** Holds a row of numbers against a reference row; `within` is absolute. */
export function agreesAll(actual: ArrayLike<number>, expected: readonly number[], within: number, source: string): void {
  expect(actual.length).toBe(expected.length);
  expected.forEach((value, i) => agrees(actual[i] as number, { expected: value, within, source }));
}
