import { expect, test } from "vitest";
import { rememberLast } from "../../src/numerics/rememberLast.ts";

test("asked again at the same numbers, it is not worked out again; at others or more of them, it is", () => {
  const asked: (readonly number[])[] = [];
  const sum = rememberLast((p) => (asked.push([...p]), p.reduce((all, value) => all + value, 0)));
  const at = [1, 2];
  expect([sum(at), sum([1, 2])]).toEqual([3, 3]);
  at[1] = 5; // the caller's own array may change
  expect([sum(at), sum([1, 5, 0]), sum([1, 2])]).toEqual([6, 6, 3]);
  expect(asked).toEqual([[1, 2], [1, 5], [1, 5, 0], [1, 2]]);
});
