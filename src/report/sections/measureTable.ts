import type { RunResult } from "../../processing/dayResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct } from "../pick.ts";
import { estimateCell } from "../showEstimate.ts";
import { table } from "../table.ts";
import type { Column } from "../table.ts";
import { plainNumber, verdictBadge } from "../words.ts";
import { runAnchor } from "./runPart.ts";

/** What stands in a row beside the run's name, verdict and wheel; columns that are empty in every run are left out. */
const setColumns: readonly { readonly heading: string; readonly read: (run: RunResult) => number | null }[] = [
  { heading: "Height [mm]", read: ({ plan }) => (plan.dropHeightM === null ? null : plan.dropHeightM * 1000) },
  { heading: "Obstacle [mm]", read: ({ plan }) => (plan.obstacle === null ? null : plan.obstacle.heightM * 1000) },
  { heading: "Set load [N]", read: ({ plan }) => plan.setLoadN },
  { heading: "Contact at [°]", read: ({ plan }) => (plan.contactAngleRad === null ? null : (plan.contactAngleRad * 180) / Math.PI) },
];

/** Runs down, their measures across (those named, else all), every number with its interval. */
export function measureTable(runs: readonly RunResult[], names = distinct(runs.flatMap((run) => run.measures.map((measure) => measure.name)))): Html {
  const labels = new Map(runs.flatMap((run) => run.measures.map((measure) => [measure.name, measure.label] as const)));
  const columns: Column<RunResult>[] = [
    { heading: "Run", show: (run) => html`<a href="#${runAnchor(run)}">${run.plan.id}</a>` },
    { heading: "Verdict", show: (run) => verdictBadge(run.verdict) },
    { heading: "Wheel", show: (run) => run.plan.wheel ?? "–" },
    ...setColumns
      .filter(({ read }) => runs.some((run) => read(run) !== null))
      .map(({ heading, read }) => ({ heading, align: "right" as const, show: (run: RunResult) => { const value = read(run); return value === null ? "–" : plainNumber(value); } })),
    ...names.map((name) => ({
      heading: labels.get(name) ?? name,
      align: "right" as const,
      show: (run: RunResult) => {
        const measure = run.measures.find((candidate) => candidate.name === name);
        return measure === undefined ? "–" : estimateCell(measure.estimate);
      },
    })),
  ];
  return table(runs, columns);
}
