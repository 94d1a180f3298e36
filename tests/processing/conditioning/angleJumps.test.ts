import { expect, test } from "vitest";
import { angleJumps } from "../../../src/processing/conditioning/angleJumps.ts";

const steady = Float64Array.from({ length: 500 }, (_, i) => (i < 100 ? 0 : 0.02 * (i - 100)));
const from = (index: number, by: number): Float64Array => steady.map((angle, i) => (i >= index ? angle + by : angle));

test("a steady wheel, one at rest and an empty log do not jump", () => {
  for (const angle of [steady, new Float64Array(50), new Float64Array(0)]) expect(angleJumps(angle, null)).toEqual([]);
});

test("a start is no jump", () => expect(angleJumps(Float64Array.from({ length: 200 }, (_, i) => 0.02 * Math.max(0, i - 100) ** 1.2), null)).toEqual([]));

test("an angle that begins again after a turn", () => {
  expect(angleJumps(from(300, -2 * Math.PI), null)[0]).toMatchObject({ code: "encoder-jump", severity: "reject", message: expect.stringContaining("360 degrees") as string });
});

test("a counter of 16 bits", () => {
  const step = (2 * Math.PI) / 81920;
  expect(angleJumps(from(300, -65536 * step), step)[0]?.message).toContain("counter of 16 bits");
  expect(angleJumps(from(300, -5000 * step), step)[0]?.message).toContain("counts");
});

test("missing samples are stepped over", () => {
  const holed = steady.map((angle, i) => (i === 200 ? NaN : angle));
  expect(angleJumps(holed, null)).toEqual([]);
});
