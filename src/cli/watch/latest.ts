import type { Card, CardState } from "./cards.ts";
import { stateWords, worstFirst } from "./stateWords.ts";

/** What was last announced, large enough to be read from across the rig. */
export interface Latest {
  /** counts the announcements: a page speaks each once */
  readonly n: number;
  /** the worst first; empty = nothing yet */
  readonly said: readonly { readonly run: string; readonly state: CardState; readonly reason: string }[];
}

/** What a card says, to tell when it says something new. */
export function saying(card: Card): string {
  return JSON.stringify([card.state, card.readAtMs]);
}

/** The one sentence that goes with a card's verdict; empty when it needs none. */
export function headline(card: Card): string {
  const sentences = card.state === "others" ? [...card.waits, ...card.reasons] : [...card.reasons, ...card.waits];
  return sentences[0] ?? "";
}

/** Cards that say something new: read or judged anew since `before`. A run that is read again and says the same is no news. */
export function newCards(before: ReadonlyMap<string, string>, cards: readonly Card[]): Card[] {
  return cards.filter((card) => card.state !== "files" && before.get(card.plan.id) !== saying(card));
}

/** The next announcement; the old one when there is no news. */
export function nextLatest(latest: Latest, news: readonly Card[]): Latest {
  const said = news
    .map((card) => ({ run: card.plan.id, state: card.state, reason: headline(card) }))
    .sort((a, b) => worstFirst(a.state, b.state));
  return said.length === 0 ? latest : { n: latest.n + 1, said };
}

/** The announcement for those who listen. */
export function spoken(latest: Latest): string {
  return latest.said.map(({ run, state, reason }) => `${run}: ${stateWords[state].word}, ${stateWords[state].asks}.${reason === "" ? "" : ` ${reason}`}`).join(" ");
}

/** The document's title: what was last said, and how much is to be repeated. */
export function titleOf(latest: Latest, cards: readonly Card[], rig: string): string {
  const [first] = latest.said;
  if (first === undefined) return `Live: ${rig}`;
  const repeats = cards.filter((card) => card.state === "repeat").length;
  const count = repeats === 0 ? "" : ` · ${repeats} to repeat`;
  return `${stateWords[first.state].sign} ${first.run} ${stateWords[first.state].word}${latest.said.length > 1 ? ` and ${latest.said.length - 1} more` : ""}${count} · ${rig}`;
}
