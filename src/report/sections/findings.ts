import type { Finding } from "../../core/finding.ts";
import { showIssue } from "../../core/errors.ts";
import type { DayResult, RunResult } from "../../processing/dayResult.ts";
import { channelsInWords } from "../channelsInWords.ts";
import { anchor, each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { table } from "../table.ts";
import { condition, plainNumber, severityBadge, severityWords } from "../words.ts";
import { against, runAnchor, whenCell } from "./runPart.ts";

interface Row {
  readonly place: string;
  readonly run: string | null;
  readonly finding: Finding;
}

/** Every finding of the day in one table that a few letters or one weight narrow down. Nothing is left out of it. */
export function findingsSection(day: DayResult): Html {
  const rows: Row[] = [
    ...day.findings.map((finding) => ({ place: "the day", run: null, finding })),
    ...day.cones.flatMap((cone) => cone.findings.map((finding) => ({ place: `bed ${cone.bed}`, run: null, finding }))),
    ...day.pullCurves.flatMap((curve) => curve.fit.findings.map((finding) => ({ place: `pull curve ${curve.wheel}, ${plainNumber(curve.setLoadN)} N`, run: null, finding }))),
    ...enduranceFindings(day),
    ...soilFits(day).flatMap((fit) => fit.findings.map((finding) => ({ place: `soil: ${fit.model}`, run: null, finding }))),
    ...day.runs.flatMap((run) => ofRun(run).map((finding) => ({ place: run.plan.id, run: run.plan.id, finding }))),
  ];
  return html`<section id="findings"><h2>Every finding</h2>
<form class="filter" data-table="findingtable"><label>Narrow down <input type="search" name="words" placeholder="run, channel, code or words" autocomplete="off"></label>
<label>Weight <select name="severity"><option value="">all</option>${each(["reject", "look", "note"] as const, (severity) => html`<option value="${severity}">${severityWords[severity]}</option>`)}</select></label><output aria-live="polite">${rows.length} of ${rows.length}</output></form>
${table(rows, [
    { heading: "Where", show: (row) => (row.run === null ? row.place : html`<a href="#${anchor("run", row.run)}">${row.place}</a>`) },
    { heading: "Weight", show: (row) => severityBadge(row.finding.severity) },
    { heading: "Channel", show: (row) => row.finding.channel ?? "–" },
    { heading: "When [s]", show: (row) => (row.finding.fromS === null && row.finding.toS === null ? "–" : whenCell(row.finding.fromS, row.finding.toS)) },
    { heading: "What", align: "wrap", show: (row) => html`${channelsInWords(row.finding.message)} <code>${row.finding.code}</code>` },
    { heading: "Measured / limit", align: "right", show: (row) => against(row.finding.measured, row.finding.limit) },
  ], { id: "findingtable", stack: true, rowAttributes: (row) => html` data-severity="${row.finding.severity}"` })}
${day.unclaimedFiles.length > 0 && html`<h3>Files that no run on the sheet claims</h3><ul>${each(day.unclaimedFiles, (file) => html`<li><code>${file}</code></li>`)}</ul>`}
${day.campaign.issues.length > 0 && html`<h3>Mistakes in what was written</h3><ul class="issues">${each(day.campaign.issues, (issue) => html`<li><code>${issue.code}</code> ${showIssue(issue)}${issue.run !== null && html` <a href="#${anchor("run", issue.run)}">run ${issue.run}</a>`}</li>`)}</ul>`}</section>`;
}

function enduranceFindings({ endurance }: DayResult): Row[] {
  if (endurance === null) return [];
  const row = (place: string) => (finding: Finding): Row => ({ place, run: null, finding });
  return [
    ...endurance.wheels.flatMap((one) => [...one.findings, ...one.trends.flatMap((trend) => trend.fit.findings)].map(row(`endurance of wheel ${one.wheel}`))),
    ...endurance.lives.fit.findings.map(row("lives of the wheels")),
  ];
}

/** Every run that a person left out or whose numbers are not used, with the reason. */
export function excludedSection(day: DayResult): Html {
  const excluded = day.runs.filter((run) => run.verdict === "excluded");
  const unused = day.runs.filter((run) => run.verdict === "repeat" || run.verdict === "unread");
  return html`<section id="excluded"><h2>Left out</h2><h3>By a person, on the run sheet</h3>${table(excluded, [
    { heading: "Run", show: (run) => html`<a href="#${runAnchor(run)}">${run.plan.id}</a>` },
    { heading: "What it was", show: (run) => condition(run.plan) },
    { heading: "Reason given", align: "wrap", show: (run) => (run.plan.excluded === null || run.plan.excluded === "" ? "no reason was given" : run.plan.excluded) },
    { heading: "Run sheet line", align: "right", show: (run) => String(run.plan.line) },
  ])}
<h3>By the checks</h3>${table(unused, [
    { heading: "Run", show: (run) => html`<a href="#${runAnchor(run)}">${run.plan.id}</a>` },
    { heading: "What it was", show: (run) => condition(run.plan) },
    { heading: "Why", align: "wrap", show: (run) => (run.reasons.length > 0 ? run.reasons.map(channelsInWords).join("; ") : "see the run’s part") },
  ])}</section>`;
}

/** The run's findings and those of its fits; a fit's finding that the run repeats stands once. */
function ofRun(run: RunResult): Finding[] {
  const own = new Set(run.findings.map((finding) => `${finding.code} ${finding.message}`));
  return [...run.findings, ...run.fits.flatMap((fit) => fit.findings).filter((finding) => !own.has(`${finding.code} ${finding.message}`))];
}

function soilFits(day: DayResult): DayResult["pullCurves"][number]["fit"][] {
  const { soil } = day;
  return [soil.pressureSinkage, soil.shearStrength, ...soil.plateWidths.map((plate) => plate.fit), ...soil.shearCurves.map((curve) => curve.fit)].filter((fit) => fit !== null);
}
