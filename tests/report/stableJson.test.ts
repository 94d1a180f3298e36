import { expect, it } from "vitest";
import { runJson } from "../../src/report/runJson.ts";
import { stableJson } from "../../src/report/stableJson.ts";
import { plan } from "../helpers/pressRun.ts";
import { runResult } from "../helpers/runResult.ts";

it("a record that holds no other stands on one line, and so do rows of numbers; the value is untouched", () => {
  const value = { budget: [{ cause: "zero", effect: 0.1, sharedBy: null }, { cause: "gain", effect: -2, sharedBy: "SIX" }], values: [1, 2.5, null] };
  const text = stableJson(value);
  expect(text).toBe('{\n  "budget": [\n    { "cause": "zero", "effect": 0.1, "sharedBy": null },\n    { "cause": "gain", "effect": -2, "sharedBy": "SIX" }\n  ],\n  "values": [1, 2.5, null]\n}\n');
  expect(JSON.parse(text)).toEqual(value);
});

it("text with brackets, braces, quotes and line breaks comes back as it was", () => {
  const value = { more: { a: "{\n  }", b: 'a "quoted" [1,\n 2]', c: "}" }, list: [{ a: "[" }, { a: "x\n  }" }], none: {}, empty: [] };
  expect(JSON.parse(stableJson(value))).toEqual(value);
});

it("a curve's points keep seven figures, a measure all of them", () => {
  const value = 123.45678901234;
  const side = { label: "x", unit: "N" as const, values: [value, null] };
  const written = runJson(runResult(plan("drop"), { load: { value, unit: "N", rows: [] } }, { curves: [{ name: "c", x: side, y: side, yUncertainty: null, method: "made" }] })) as { curves: { x: { values: unknown } }[]; measures: { estimate: { value: number } }[] };
  expect(written.curves[0]?.x.values).toEqual([123.4568, null]);
  expect(written.measures[0]?.estimate.value).toBe(value);
});
