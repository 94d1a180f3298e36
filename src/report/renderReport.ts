import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { DayResult } from "../processing/dayResult.ts";
import { clientScript } from "./clientScript.ts";
import { each, html, raw } from "./html.ts";
import type { Html } from "./html.ts";
import { dropsSection } from "./sections/drops.ts";
import { enduranceSection } from "./sections/endurance.ts";
import { excludedSection, findingsSection } from "./sections/findings.ts";
import { footprintsSection } from "./sections/footprints.ts";
import { glance, repeatNow } from "./sections/glance.ts";
import { cautionsSection, filesSection, methodSection } from "./sections/method.ts";
import type { OutputFile } from "./sections/method.ts";
import { obstaclesSection } from "./sections/obstacles.ts";
import { runPart } from "./sections/runPart.ts";
import { rankingSection } from "./sections/ranking.ts";
import { repeatabilitySection } from "./sections/repeatability.ts";
import { conesSection, soilSection } from "./sections/soil.ts";
import { wheelSoilSection } from "./sections/wheelSoil.ts";
import { stiffnessSection } from "./sections/stiffness.ts";
import { sinkageSection, wheelsSection } from "./sections/wheels.ts";
import { styles } from "./styles.ts";

export interface ReportOptions {
  /** the moment the report was made, as it shall be printed; the only thing in the report that the input does not decide */
  readonly madeAt: string;
  /** files written beside the report, named in it by hash */
  readonly outputs?: readonly OutputFile[];
}

const contents: readonly (readonly [string, string])[] = [
  ["repeat", "Repeat now"],
  ["glance", "At a glance"],
  ["ranking", "Which wheel"],
  ["wheels", "Wheels compared"],
  ["sinkage", "Sinkage"],
  ["drops", "Drops"],
  ["stiffness", "Stiffness"],
  ["footprints", "Footprints"],
  ["endurance", "Endurance"],
  ["obstacles", "Obstacles"],
  ["soil", "Soil"],
  ["wheelsoil", "Soil under the wheels"],
  ["cones", "Cones and beds"],
  ["repeatability", "Repeatability"],
  ["findings", "Findings"],
  ["excluded", "Left out"],
  ["runs", "Run by run"],
  ["method", "Method"],
  ["files", "Files"],
  ["cautions", "Cautions"],
];

/** report.html: one file that opens offline, in light and dark, on paper and on a telephone. Draws and rounds; computes nothing. */
export function renderReport(day: DayResult, options: ReportOptions): string {
  const { rig } = day.campaign;
  const plotScript = asset("uplot/dist/uPlot.iife.min.js");
  const policy = `default-src 'none'; style-src 'unsafe-inline'; img-src data:; script-src ${hashOf(plotScript)} ${hashOf(clientScript)}`;
  const title = `Rig tests, ${rig.rig}`;
  const page = html`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><meta http-equiv="Content-Security-Policy" content="${policy}"><meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark"><meta name="generator" content="${`drawbar ${day.drawbarVersion}`}"><title>${title}</title><link rel="icon" href="data:,">
<style>${raw(asset("uplot/dist/uPlot.min.css"))}${raw(styles)}</style></head>
<body><div class="page"><header><h1>${title}</h1><p>${rig.laboratory ?? "Laboratory not stated"} · ${day.runs.length} runs on the sheet · reduced by drawbar ${day.drawbarVersion} · report made <time>${options.madeAt}</time></p></header>
<nav aria-label="Contents">${each(contents.filter(([id]) => id !== "endurance" || day.endurance !== null), ([id, name]) => html`<a href="#${id}">${name}</a>`)}</nav>
<main>
${repeatNow(day)}
${glance(day)}
${rankingSection(day)}
${wheelsSection(day)}
${sinkageSection(day)}
${dropsSection(day)}
${stiffnessSection(day)}
${footprintsSection(day)}
${enduranceSection(day)}
${obstaclesSection(day)}
${soilSection(day)}
${wheelSoilSection(day)}
${conesSection(day)}
${repeatabilitySection(day)}
${findingsSection(day)}
${excludedSection(day)}
${runsSection(day)}
${methodSection(day)}
${filesSection(day, options.outputs ?? [])}
${cautionsSection()}
</main></div>
<script>${raw(plotScript)}</script><script>${raw(clientScript)}</script></body></html>
`;
  return page.html;
}

function runsSection(day: DayResult): Html {
  return html`<section id="runs"><h2>Run by run</h2><p>Each part holds the run's traces with the window shaded, its measures with their uncertainty budgets, findings, clocks, and its files. On paper, the parts that are open are printed in full.</p>
<div class="tools"><button type="button" data-do="open">Open every run shown</button><button type="button" data-do="close">Close all</button><button type="button" data-do="print">Print</button></div>
${each(day.runs, runPart)}</section>`;
}

/** A file of the plotting library, to stand inside the page. */
function asset(path: string): string {
  const text = readFileSync(createRequire(import.meta.url).resolve(path), "utf8");
  // The text stands inside a script or style element; an end tag in it would end the element.
  return text.replace(/<\/(script|style)/gi, "<\\/$1");
}

/** Only these two scripts may run: what anyone typed cannot. */
function hashOf(script: string): string {
  return `'sha256-${createHash("sha256").update(script, "utf8").digest("base64")}'`;
}
