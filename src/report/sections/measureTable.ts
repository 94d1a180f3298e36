import type { RunResult } from "../../processing/dayResult.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct } from "../pick.ts";
import { estimateCell } from "../showEstimate.ts";
import { table } from "../table.ts";
import type { Column } from "../table.ts";
import { plainNumber, verdictBadge } from "../words.ts";
import { runAnchor } from "./runPart.ts";

/** What stands in a row beside the run's name, verdict and wheel; columns that are empty in every run are left out. */
const setColumns: readonly { readonly heading: string; readonly align?: "right"; readonly read: (run: RunResult) => string | number | null }[] = [
  { heading: "Height [mm]", align: "right", read: ({ plan }) => (plan.dropHeightM === null ? null : plan.dropHeightM * 1000) },
  { heading: "Obstacle [mm]", align: "right", read: ({ plan }) => (plan.obstacle === null ? null : plan.obstacle.heightM * 1000) },
  { heading: "Set load [N]", align: "right", read: ({ plan }) => plan.setLoadN },
  { heading: "Contact at [°]", align: "right", read: ({ plan }) => (plan.contactAngleRad === null ? null : (plan.contactAngleRad * 180) / Math.PI) },
  { heading: "Ground", read: ({ plan }) => plan.footprint?.ground ?? null },
  { heading: "By", read: ({ plan }) => (plan.footprint === null ? null : plan.footprint.from === "pad" ? "pad" : "photograph") },
];
/** So many measures beside each other are no wider than the page; so few runs stand beside each other instead. */
const measuresBeside = 5;
const runsBeside = 3;

/** Runs and their measures (those named, else all), every number with its interval: in tables that are no wider than the page. */
export function measureTable(runs: readonly RunResult[], names = distinct(runs.flatMap((run) => run.measures.map((measure) => measure.name)))): Html {
  const labels = new Map(runs.flatMap((run) => run.measures.map((measure) => [measure.name, measure.label] as const)));
  const label = (name: string): string => labels.get(name) ?? name;
  const cell = (run: RunResult, name: string): Html | string => {
    const measure = run.measures.find((candidate) => candidate.name === name);
    return measure === undefined ? "–" : estimateCell(measure.estimate);
  };
  const link = (run: RunResult): Html => html`<a href="#${runAnchor(run)}">${run.plan.id}</a>`;
  if (runs.length <= runsBeside) {
    return table(names, [
      { heading: "Measure", named: false, show: (name) => label(name) },
      ...runs.map((run): Column<string> => ({ heading: `${run.plan.id}${run.plan.wheel === null ? "" : `, wheel ${run.plan.wheel}`}`, align: "right", show: (name) => cell(run, name) })),
    ], { stack: true });
  }
  const columns: Column<RunResult>[] = [
    { heading: "Run", named: false, show: link },
    { heading: "Verdict", named: false, show: (run) => verdictBadge(run.verdict) },
    { heading: "Wheel", show: (run) => run.plan.wheel ?? "–" },
    ...setColumns
      .filter(({ read }) => runs.some((run) => read(run) !== null))
      .map(({ heading, align, read }): Column<RunResult> => ({ heading, ...(align === undefined ? {} : { align }), show: (run) => { const value = read(run); return typeof value === "number" ? plainNumber(value) : (value ?? "–"); } })),
  ];
  const tables = Math.ceil(names.length / measuresBeside);
  const perTable = Math.ceil(names.length / tables);
  return html`${each(Array.from({ length: tables }, (_, i) => names.slice(i * perTable, (i + 1) * perTable)), (some) => table(runs, [...columns, ...some.map((name): Column<RunResult> => ({ heading: label(name), align: "right", show: (run) => cell(run, name) }))], { stack: true }))}`;
}
