import type { Measure } from "../core/measure.ts";
import type { DayResult, RunResult } from "../processing/dayResult.ts";

/** What stands before the measures in every row. */
const planColumns: readonly (readonly [string, (run: RunResult) => string | number | null])[] = [
  ["run", (run) => run.plan.id],
  ["kind", (run) => run.plan.kind],
  ["wheel", (run) => run.plan.wheel],
  ["bed", (run) => run.plan.bed],
  ["set load [N]", (run) => run.plan.setLoadN],
  ["set slip [1]", (run) => run.plan.setSlip],
  ["set speed [m/s]", (run) => run.plan.setSpeedMps],
  ["repeat", (run) => run.plan.repeat],
  ["pass", (run) => run.plan.pass],
  ["block", (run) => run.plan.block],
  ["drop height [m]", (run) => run.plan.dropHeightM],
  ["plate width [m]", (run) => run.plan.plate?.widthM ?? null],
  ["normal stress [Pa]", (run) => run.plan.normalStressPa],
  ["verdict", (run) => run.verdict],
  ["reasons", (run) => run.reasons.join("; ")],
  ["remark", (run) => run.plan.remark],
];

/**
 * runs.csv: a row per run; per measure its value and its standard uncertainty `u(…)`, both in the SI unit of the heading.
 * Comma between cells, point before decimals, CRLF, UTF-8 with a byte-order mark; an empty cell = not measured or not determined.
 */
export function runsCsv(day: DayResult): string {
  const measures = measureColumns(day.runs);
  const header = [...planColumns.map(([name]) => name), ...measures.flatMap(({ name, unit }) => [`${name} [${unit}]`, `u(${name}) [${unit}]`])];
  const rows = day.runs.map((run) => {
    const found = new Map(run.measures.map((measure) => [columnKey(measure), measure.estimate]));
    const numbers = measures.flatMap(({ name, unit }) => {
      const estimate = found.get(`${name} ${unit}`);
      // A value without an uncertainty is not an answer: it stays in results.json, with the reason.
      return estimate === undefined || estimate.standardUncertainty === null ? [null, null] : [estimate.value, estimate.standardUncertainty];
    });
    return [...planColumns.map(([, read]) => read(run)), ...numbers];
  });
  return `\ufeff${[header, ...rows].map((row) => row.map(cell).join(",")).join("\r\n")}\r\n`;
}

/** One cell, safe to open in a spreadsheet: text that would start a formula gets an apostrophe in front. */
export function cell(value: string | number | null): string {
  if (value === null) return "";
  if (typeof value === "number") return Number.isFinite(value) ? String(value) : "";
  const isNumber = /^[+-]?\d+(\.\d+)?([eE][+-]?\d+)?$/.test(value);
  // Some spreadsheets trim blanks, and treat full-width signs like plain ones, before they look for a formula.
  const dangerous = /^[\s\u0000-\u001f\u00a0\u200b\ufeff]*[=+\-@\t\r\n\uff1d\uff0b\uff0d\uff20|%]/.test(value) || /^[\t\r\n]/.test(value);
  const safe = !isNumber && dangerous ? `'${value}` : value;
  return /[",\r\n;\t']|^\s|\s$/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}

function columnKey(measure: Measure): string {
  return `${measure.name} ${measure.estimate.unit}`;
}

/** Every measure of the day in order of first appearance; one that comes in two units has two columns. */
function measureColumns(runs: readonly RunResult[]): { readonly name: string; readonly unit: string }[] {
  const seen = new Map<string, { readonly name: string; readonly unit: string }>();
  for (const run of runs) {
    for (const measure of run.measures) seen.set(columnKey(measure), { name: measure.name, unit: measure.estimate.unit });
  }
  return [...seen.values()];
}
