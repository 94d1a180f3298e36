import type { RunVerdict } from "../../processing/dayResult.ts";
import { verdictWords } from "../../report/words.ts";
import type { CardState } from "./cards.ts";

/** The report's words for verdicts, and two for what has none yet. Worst first. */
export const stateWords: Readonly<Record<CardState, { readonly sign: string; readonly word: string; readonly asks: string }>> = {
  repeat: verdictWords.repeat,
  unread: { ...verdictWords.unread, asks: "mend the input; it is read again by itself" },
  look: verdictWords.look,
  excluded: verdictWords.excluded,
  others: { sign: "…", word: "Waits", asks: "good so far; it needs other runs" },
  go: verdictWords.go,
  files: { sign: "…", word: "Waits", asks: "for its files" },
};

const order = Object.keys(stateWords) as CardState[];

export function worstFirst(a: CardState, b: CardState): number {
  return order.indexOf(a) - order.indexOf(b);
}

export function isVerdict(state: CardState): state is RunVerdict {
  return state !== "others" && state !== "files";
}
