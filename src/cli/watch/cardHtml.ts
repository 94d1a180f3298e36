import { convert } from "../../core/units.ts";
import { channelsInWords } from "../../report/channelsInWords.ts";
import { anchor, each, html } from "../../report/html.ts";
import type { Html } from "../../report/html.ts";
import { expandedUncertainty } from "../../processing/expandedUncertainty.ts";
import { readingUnit, roundSignificant, showEstimate } from "../../report/showEstimate.ts";
import { condition } from "../../report/words.ts";
import type { Card, KeyNumber } from "./cards.ts";
import { stateWords } from "./stateWords.ts";

/** Values of repeats named one by one; beyond that their number stands. */
const mostNamed = 6;

/** One run: its verdict large, why, its key numbers beside its repeats. */
export function cardHtml(card: Card, clockText: (ms: number) => string): Html {
  const { sign, word, asks } = stateWords[card.state];
  return html`<article class="card s-${card.state}" id="${anchor("run", card.plan.id)}"><h3><span class="sign" aria-hidden="true">${sign}</span> ${card.plan.id} <span class="word">${word}</span></h3>
<p class="what">${condition(card.plan)}</p><p class="asks">${asks}</p>
${card.reasons.length > 0 && html`<ul class="why">${each(card.reasons, (reason) => html`<li>${channelsInWords(reason)}</li>`)}</ul>`}
${card.waits.length > 0 && html`<ul class="waits">${each(card.waits, (wait) => html`<li>${wait}</li>`)}</ul>`}
${card.numbers.length > 0 && html`<dl>${each(card.numbers, numberHtml)}</dl>`}
${card.plan.remark !== "" && html`<p class="asks">Remark: ${card.plan.remark}</p>`}
${card.notes.length > 0 && html`<details><summary>${card.notes.length} ${card.notes.length === 1 ? "note" : "notes"}</summary><ul class="why">${each(card.notes, (note) => html`<li>${note}</li>`)}</ul></details>`}
${card.readAtMs !== null && html`<p class="asks">read at ${clockText(card.readAtMs)}</p>`}</article>`;
}

function numberHtml(number: KeyNumber): Html {
  const shown = showEstimate(number.estimate);
  const value = shown.determined ? html`<span class="num" title="${shown.note}">${shown.text}${shown.unit === "" ? "" : ` ${shown.unit}`}</span>` : html`<span class="nd">not determined</span> <small>${shown.note}</small>`;
  return html`<div><dt>${number.label}</dt><dd${!shown.determined && html` class="open"`}>${value}</dd>${repeatsHtml(number)}</div>`;
}

function repeatsHtml({ estimate, repeats }: KeyNumber): Html | false {
  if (repeats === null) return false;
  const { others, difference, limit, apart } = repeats;
  const unit = readingUnit(estimate.unit, estimate.value);
  const figure = (value: number): string => roundSignificant(convert(value, estimate.unit, unit), 4);
  const shown = showEstimate(difference);
  const named = others.slice(0, mostNamed).map(({ run, value }) => `${figure(value)} (${run})`);
  const more = others.length > mostNamed ? ` and ${others.length - mostNamed} more` : "";
  const by = shown.determined ? `${difference.value > 0 ? "+" : ""}${shown.text}${shown.unit === "" ? "" : ` ${shown.unit}`}` : "difference not determined";
  const scatter = limit === null ? "no scatter between repeats is known yet" : `today’s scatter lets a repeat lie within ±${roundSignificant(convert(limit, estimate.unit, unit), 2)}`;
  return html`<dd class="beside-repeats">${strip(repeats.others.map(({ value }) => value), estimate.value, expandedUncertainty(estimate)?.half ?? 0, limit)}<span>${others.length === 1 ? "other repeat" : `${others.length} other repeats`}: ${named.join(", ")}${more}. This one less their mean: ${by}; ${scatter}.</span>${apart === true && html` <b class="apart">stands apart from its repeats</b>`}</dd>`;
}

/** Repeats as dots, the day's scatter as a band around their mean, this run as a bar of its 95 % interval. The text beside says the same. */
function strip(others: readonly number[], own: number, half: number, limit: number | null): Html {
  const middle = others.reduce((sum, value) => sum + value, 0) / others.length;
  const marks = [...others, own - half, own + half, middle - (limit ?? 0), middle + (limit ?? 0)];
  const low = Math.min(...marks);
  const width = Math.max(...marks) - low || 1;
  const x = (value: number): string => (6 + (188 * (value - low)) / width).toFixed(1);
  const across = (span: number): string => ((188 * span) / width).toFixed(1);
  return html`<svg viewBox="0 0 200 20" aria-hidden="true">${limit !== null && html`<rect class="band" x="${x(middle - limit)}" y="2" width="${across(2 * limit)}" height="16"/>`}<line class="rule" x1="0" x2="200" y1="10" y2="10"/>${each(others, (value) => html`<circle cx="${x(value)}" cy="10" r="3.5"/>`)}<line class="own" x1="${x(own - half)}" x2="${x(own + half)}" y1="10" y2="10"/><line class="own" x1="${x(own)}" x2="${x(own)}" y1="3" y2="17"/></svg>`;
}
