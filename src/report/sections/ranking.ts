import type { DayResult } from "../../processing/dayResult.ts";
import type { RankedWheel, Ranking } from "../../processing/ranking.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { rankedQuestions } from "../rankingWords.ts";
import { estimateCell, roundSignificant, showEstimate } from "../showEstimate.ts";
import { table } from "../table.ts";

/** Which wheel, and how sure: the order of the wheels, one question at a time. */
export function rankingSection(day: DayResult): Html {
  const questions = rankedQuestions(day);
  if (questions.length === 0) return html`<section id="ranking"><h2>Which wheel, and how sure</h2><p class="none">No question is answered for two wheels in one condition.</p></section>`;
  return html`<section id="ranking"><h2>Which wheel, and how sure</h2>
${table(questions, [
    { heading: "Question", show: ({ label, better }) => html`<b>${label}</b>, ${better} is better` },
    { heading: "Answer", align: "wrap", show: ({ answer }) => answer },
  ], { stack: true })}
<p class="fignote">Two wheels are told apart where a difference so great would come by chance between like wheels in fewer than 5 of 100 days, all pairs of a condition taken together (Holm's rule); what both share, such as a calibration, drops out of their difference. The questions are not weighed into one mark: which of them counts more is for the builder of the rover to say. All of it was measured at the rig's gravity, on this bed and at these wheels' size. Whether the order holds on the Moon or at another size is not determined by these runs.</p>
${each(questions, ({ label, rankings }) => html`<details class="day"><summary>${label}, wheel by wheel</summary>${each(rankings, ({ condition, ranking }) => html`<h4>${condition}</h4>${placesTable(ranking)}`)}</details>`)}</section>`;
}

function placesTable(ranking: Ranking): Html {
  return html`${table(ranking.places, [
    { heading: "Wheel", show: ({ wheel }) => wheel },
    { heading: "Value ± expanded uncertainty (95 %)", align: "right", show: ({ estimate }) => estimateCell(estimate) },
    { heading: "Behind the first", align: "right", show: ({ behind }) => (behind === null ? "–" : estimateCell(behind)) },
    { heading: "Chance between like wheels", align: "right", show: chanceCell },
    { heading: "", show: (place) => apartWords(place) },
  ])}${each(ranking.unranked, ({ wheel, why }) => html`<p><b>${wheel}</b> <span class="nd">not determined</span> <small>${why}</small></p>`)}`;
}

function chanceCell({ probability }: RankedWheel): string {
  if (probability === null) return "–";
  if (Number.isNaN(probability)) return "not determined";
  return probability < 0.001 ? "< 0.001" : roundSignificant(probability, 2);
}

function apartWords({ behind, apart }: RankedWheel): string {
  if (behind === null) return "first";
  if (!showEstimate(behind).determined) return "not told apart";
  return apart ? "told apart" : "not told apart";
}
