import type { DayResult, RunResult } from "../../processing/dayResult.ts";
import { channelsInWords } from "../channelsInWords.ts";
import { anchor, each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { distinct } from "../pick.ts";
import { table } from "../table.ts";
import { condition, kindWord, setPoints, severityWords, verdictBadge, verdictOrder, verdictWords } from "../words.ts";
import { runAnchor } from "./runPart.ts";

/** What must be done while the bed is still there, before anything else in the report. */
export function repeatNow(day: DayResult): Html {
  const repeat = day.runs.filter((run) => run.verdict === "repeat");
  const unread = day.runs.filter((run) => run.verdict === "unread");
  const look = day.runs.filter((run) => run.verdict === "look");
  const calm = repeat.length === 0;
  return html`<section id="repeat" class="act ${calm ? "calm" : "urgent"}"><h2>${calm ? "Nothing to repeat" : `Repeat now: ${repeat.length} ${repeat.length === 1 ? "run" : "runs"}`}</h2>
${calm ? html`<p>No run asks to be made again.</p>` : actTable(repeat)}
${unread.length > 0 && html`<h3>Not read: ${unread.length} ${unread.length === 1 ? "run" : "runs"} <small>mend the input, then reduce again; the run itself may be good</small></h3>${actTable(unread)}`}
${look.length > 0 && html`<details class="day"${!calm || look.length > 12 ? false : html` open`}><summary>To look at: ${look.length} ${look.length === 1 ? "run" : "runs"}</summary>${actTable(look)}</details>`}</section>`;
}

/** All runs on one screen, one chip each, grouped by kind and wheel, with the counts in words. */
export function glance(day: DayResult): Html {
  const counts = verdictOrder.map((verdict) => ({ verdict, count: day.runs.filter((run) => run.verdict === verdict).length }));
  const rowName = rowNames(day);
  const rows = distinct(day.runs.map(rowName)).map((name) => ({ name, runs: day.runs.filter((run) => rowName(run) === name) }));
  return html`<section id="glance"><h2>The day at a glance</h2>
<div class="tally" role="group" aria-label="Show only one verdict">${each(counts, ({ verdict, count }) => html`<button type="button" class="count v-${verdict}" data-verdict="${verdict}" aria-pressed="false"${count === 0 && html` disabled`}><b>${count}</b><span><i aria-hidden="true">${verdictWords[verdict].sign}</i> ${verdictWords[verdict].word}</span><small>${verdictWords[verdict].asks}</small></button>`)}</div>
<div class="grid">${each(rows, ({ name, runs }) => html`<div class="gridrow"><div class="gridname">${name} <small>${runs.length}</small></div><div class="chips">${each(runs, chip)}</div></div>`)}</div>
<h3>What was found, by kind</h3>${findingCounts(day)}</section>`;
}

function chip(run: RunResult): Html {
  const word = verdictWords[run.verdict].word;
  const why = run.reasons.length === 0 ? "" : `: ${run.reasons.map(channelsInWords).join("; ")}`;
  return html`<a class="chip v-${run.verdict}" href="#${runAnchor(run)}" data-verdict="${run.verdict}" title="${`${run.plan.id}, ${setPoints(run.plan)}. ${word}${why}`}"><i aria-hidden="true">${verdictWords[run.verdict].sign}</i><span class="sr">${word} </span>${run.plan.id}</a>`;
}

/** A kind with few runs has one row; a kind with many has one per wheel. */
function rowNames(day: DayResult): (run: RunResult) => string {
  const many = new Set(distinct(day.runs.map((run) => run.plan.kind)).filter((kind) => day.runs.filter((run) => run.plan.kind === kind).length > 24));
  return (run) => (run.plan.wheel === null || run.plan.kind === null || !many.has(run.plan.kind) ? kindWord(run.plan.kind) : `${kindWord(run.plan.kind)} · ${run.plan.wheel}`);
}

function actTable(runs: readonly RunResult[]): Html {
  return table(
    runs,
    [
      { heading: "Run", named: false, show: (run) => html`<a href="#${runAnchor(run)}"><b>${run.plan.id}</b></a>` },
      { heading: "Verdict", named: false, show: (run) => verdictBadge(run.verdict) },
      { heading: "What it was", align: "wrap", named: false, show: (run) => condition(run.plan) },
      { heading: "Why", align: "wrap", named: false, show: (run) => why(run) },
    ],
    { stack: true },
  );
}

function why(run: RunResult): Html {
  const reasons = run.reasons.length > 0 ? run.reasons : run.issues.map((issue) => `${issue.at}: ${issue.message}. ${issue.hint}`);
  return html`${channelsInWords(reasons[0] ?? "No reason was recorded.")}${reasons.length > 1 && html` <small>and ${reasons.length - 1} more, in the run’s part</small>`}`;
}

function findingCounts(day: DayResult): Html {
  const all = [...day.findings.map((finding) => ({ finding, run: "" })), ...day.runs.flatMap((run) => run.findings.map((finding) => ({ finding, run: run.plan.id })))];
  const keys = distinct(all.map(({ finding }) => `${finding.severity} ${finding.code}`));
  const rows = keys.map((key) => {
    const mine = all.filter(({ finding }) => `${finding.severity} ${finding.code}` === key);
    return { key, severity: mine[0]?.finding.severity ?? "note", code: mine[0]?.finding.code ?? "", count: mine.length, runs: distinct(mine.map(({ run }) => run)).filter((run) => run !== "") };
  });
  const rank = { reject: 0, look: 1, note: 2 };
  rows.sort((a, b) => rank[a.severity] - rank[b.severity] || b.count - a.count || (a.code < b.code ? -1 : 1));
  return table(rows, [
    { heading: "Weight", show: (row) => html`<span class="badge f-${row.severity}">${severityWords[row.severity]}</span>` },
    { heading: "Finding", show: (row) => row.code },
    { heading: "Times", align: "right", show: (row) => String(row.count) },
    { heading: "Runs", align: "wrap", show: (row) => html`${each(row.runs.slice(0, 12), (id) => html`<a href="#${anchor("run", id)}">${id}</a> `)}${row.runs.length > 12 && html`<small>and ${row.runs.length - 12} more, see the table of findings</small>`}` },
  ]);
}
