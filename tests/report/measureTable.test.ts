import { parseHTML } from "linkedom";
import { expect, it } from "vitest";
import { measureTable } from "../../src/report/sections/measureTable.ts";
import { plan } from "../helpers/pressRun.ts";
import { runResult } from "../helpers/runResult.ts";

const names = Array.from({ length: 13 }, (_, i) => `measure${i + 1}`);
const runs = ["A", "B", "C", "D"].map((id) => runResult(plan("traction", { id, wheel: "W1" }), Object.fromEntries(names.map((name) => [name, { value: 1, unit: "N" as const, rows: [] }]))));
const headings = (html: string): string[][] => [...parseHTML(`<!doctype html><html><body>${html}</body></html>`).document.querySelectorAll("table")].map((one) => [...one.querySelectorAll("th")].map((cell) => cell.textContent ?? ""));

it("many measures stand in tables of five at most, each measure once, the run named in each", () => {
  const found = headings(measureTable(runs).html);
  expect(found.map((row) => row.filter((heading) => heading.startsWith("measure")).length)).toEqual([5, 5, 3]);
  expect(found.flat().filter((heading) => heading.startsWith("measure"))).toEqual(names);
  for (const row of found) expect(row.slice(0, 3)).toEqual(["Run", "Verdict", "Wheel"]);
});

it("few runs stand beside each other, a measure a row", () => {
  expect(headings(measureTable(runs.slice(0, 2)).html)).toEqual([["Measure", "A, wheel W1", "B, wheel W1"]]);
});
