import { showIssue } from "../../core/errors.ts";
import type { Finding } from "../../core/finding.ts";
import type { RunPlan } from "../../campaign/campaign.ts";
import { channelsInWords } from "../../report/channelsInWords.ts";
import { anchor, each, html } from "../../report/html.ts";
import type { Html } from "../../report/html.ts";
import { condition, severityBadge } from "../../report/words.ts";
import { cardHtml } from "./cardHtml.ts";
import type { Card, Cards } from "./cards.ts";
import type { DayWatch } from "./dayWatch.ts";
import { spoken, titleOf } from "./latest.ts";
import type { Latest } from "./latest.ts";
import { stateWords } from "./stateWords.ts";

/** The live page at one moment, in the pieces that are sent when they change. */
export interface View {
  readonly title: string;
  readonly n: number;
  readonly spoken: string;
  /** id of an element of the page → what is in it */
  readonly parts: Readonly<Record<string, string>>;
  /** run → its card, in the order they stand */
  readonly cards: readonly (readonly [run: string, html: string])[];
}

export function dayView(day: DayWatch, { cards, toRun }: Cards, latest: Latest, dayName: string, clockText: (ms: number) => string): View {
  const rig = day.campaign?.rig.rig ?? dayName;
  const parts: Record<string, Html> = {
    top: html`<h1>Live: ${rig}</h1><p>${day.campaign === null ? "" : `${day.campaign.rig.laboratory ?? "Laboratory not stated"} · `}day folder ${dayName} · ${day.campaign?.runs.length ?? 0} runs on the sheet${day.campaignAtMs !== null && `, read at ${clockText(day.campaignAtMs)}`}</p>`,
    latest: latestHtml(latest, day),
    act: actHtml(cards),
    mistakes: mistakesHtml(day, clockText),
    beside: findingsHtml(day.findings),
    next: nextHtml(day, cards, toRun),
    unclaimed: day.unclaimed.length === 0 ? html`` : html`<section class="act"><h2>Files of no run</h2><p>No run on the sheet claims them. Add the run to runs.csv, or move the file away.</p><ul class="why">${each(day.unclaimed, (file) => html`<li>${file}</li>`)}</ul></section>`,
  };
  return {
    title: titleOf(latest, cards, rig),
    n: latest.n,
    spoken: spoken(latest),
    parts: Object.fromEntries(Object.entries(parts).map(([id, part]) => [id, part.html])),
    cards: cards.toSorted(newestFirst).map((card) => [card.plan.id, cardHtml(card, clockText).html]),
  };
}

/** Runs whose files are still landing stand first, then the run read last. */
function newestFirst(a: Card, b: Card): number {
  return (b.readAtMs ?? Infinity) - (a.readAtMs ?? Infinity) || 0;
}

function latestHtml({ said, n }: Latest, day: DayWatch): Html {
  const [first, ...rest] = said;
  if (first === undefined) return html`<div class="latest s-files" data-n="${n}"><p class="big">${day.campaign === null ? "No usable run sheet yet" : "No run read yet"}</p><p>${day.campaign === null ? "What is wrong with the day’s sheets stands below." : "A run’s verdict appears here when its files are complete."}</p></div>`;
  const { sign, word, asks } = stateWords[first.state];
  return html`<div class="latest s-${first.state}" data-n="${n}"><p class="big"><span aria-hidden="true">${sign}</span> ${first.run} <b>${word}</b></p><p class="asked">${first.reason === "" ? `${asks}.` : `${asks}: ${first.reason}`}</p>${rest.length > 0 && html`<p class="also">${each(rest.slice(0, 12), ({ run, state }) => html`<span class="chip s-${state}"><span aria-hidden="true">${stateWords[state].sign}</span> ${run} ${stateWords[state].word}</span> `)}${rest.length > 12 && `and ${rest.length - 12} more`}</p>`}</div>`;
}

function actHtml(cards: readonly Card[]): Html {
  const of = (state: Card["state"]): readonly Card[] => cards.filter((card) => card.state === state);
  const row = (state: Card["state"], heading: string): Html | false => of(state).length > 0 && html`<div class="actrow s-${state}"><h2><span aria-hidden="true">${stateWords[state].sign}</span> ${heading}</h2><p>${each(of(state), ({ plan }) => html`<a href="#${anchor("run", plan.id)}">${plan.id}</a> `)}</p></div>`;
  return html`${row("repeat", "Repeat now")}${row("unread", "Not read: mend the input")}${row("look", "Look")}`;
}

function mistakesHtml(day: DayWatch, clockText: (ms: number) => string): Html {
  const rows = day.campaign?.issues ?? [];
  const kept = day.campaign === null ? "Nothing can be read before they are mended." : `The sheets as they were read${day.campaignAtMs === null ? "" : ` at ${clockText(day.campaignAtMs)}`} stay in use until then.`;
  return html`${day.mistakes.length > 0 && html`<section class="act urgent"><h2>The sheets cannot be used as they are${day.mistakesAtMs !== null && ` since ${clockText(day.mistakesAtMs)}`}</h2><p>${kept}</p><ul class="why">${each(day.mistakes, (issue) => html`<li>${showIssue(issue)}</li>`)}</ul></section>`}
${rows.length > 0 && html`<section class="act"><h2>Mistakes in rows of the sheets</h2><ul class="why">${each(rows, (issue) => html`<li>${issue.run === null ? "" : html`<b>${issue.run}</b> `}${showIssue(issue)}</li>`)}</ul></section>`}`;
}

/** What the runs so far show only side by side; notes stand folded. */
function findingsHtml(findings: readonly Finding[]): Html {
  const list = (shown: readonly Finding[]): Html => html`<ul class="why">${each(shown, (found) => html`<li>${found.severity !== "note" && severityBadge(found.severity)} ${channelsInWords(found.message)}</li>`)}</ul>`;
  const notes = findings.filter((found) => found.severity === "note");
  const rest = findings.filter((found) => found.severity !== "note");
  if (findings.length === 0) return html``;
  return html`<section><h2>Runs so far, side by side</h2>${rest.length > 0 && list(rest)}${notes.length > 0 && html`<details><summary>${notes.length} ${notes.length === 1 ? "note" : "notes"}</summary>${list(notes)}</details>`}</section>`;
}

/** What is still to run, in the sheet's order; what is to be repeated stands before it. */
function nextHtml(day: DayWatch, cards: readonly Card[], toRun: readonly RunPlan[]): Html {
  if (day.campaign === null) return html``;
  const faulty = new Set(day.campaign.issues.map(({ run }) => run));
  const repeat = cards.filter((card) => card.state === "repeat").length;
  const [first, ...rest] = toRun;
  const mark = (plan: RunPlan): Html | false => faulty.has(plan.id) && html` <b class="apart">mistake in its row</b>`;
  if (first === undefined) return html`<section><h2>Still to run</h2><p>Nothing: every run on the sheet has its files${repeat > 0 && `; ${repeat} to be repeated`}.</p></section>`;
  return html`<section><h2>Still to run <small>${toRun.length} of ${day.campaign.runs.length}${repeat > 0 && `, and ${repeat} to be repeated`}</small></h2>
<p class="nextrun"><b>Next: ${first.id}</b> ${condition(first)}${mark(first)}${first.remark !== "" && html`<br><small>${first.remark}</small>`}</p>
${rest.length > 0 && html`<ol class="queue">${each(rest, (plan) => html`<li><b>${plan.id}</b> ${condition(plan)}${mark(plan)}</li>`)}</ol>`}</section>`;
}
