import { groupBy } from "../core/groupBy.ts";
import type { DayResult } from "../processing/dayResult.ts";
import type { Ranking } from "../processing/ranking.ts";
import { namesInWords } from "./words.ts";

/** One question put to the wheels, with its answers condition by condition. */
export interface RankedQuestion {
  readonly label: string;
  readonly better: Ranking["better"];
  readonly rankings: readonly { readonly condition: string; readonly ranking: Ranking }[];
  /** who is first where, and who cannot be told apart from it */
  readonly answer: string;
}

export function rankedQuestions(day: Pick<DayResult, "rankings">): RankedQuestion[] {
  return [...groupBy(day.rankings, ({ label }) => label)].map(([label, ofLabel]) => {
    const { shared, own } = conditionWords(ofLabel.map(({ condition }) => namesInWords(condition)));
    const rankings = ofLabel.map((ranking, i) => ({ condition: own[i] as string, ranking }));
    return { label: [label, ...shared].join(", "), better: (ofLabel[0] as Ranking).better, rankings, answer: answer(rankings) };
  });
}

/** What all conditions of a question have in common is said once; the kind of run, which the question says, not at all. */
function conditionWords(conditions: readonly string[]): { readonly shared: readonly string[]; readonly own: readonly string[] } {
  const parts = conditions.map((condition) => condition.split(", "));
  const common = conditions.length < 2 ? [] : (parts[0] ?? []).filter((part) => parts.every((other) => other.includes(part)));
  const kind = /^(traction|drop|footprint)$/i;
  return { shared: common.filter((part) => !kind.test(part)), own: parts.map((one) => one.filter((part) => !common.includes(part) && !kind.test(part)).join(", ").replace(/^footprint on /, "")) };
}

function answer(rankings: RankedQuestion["rankings"]): string {
  const firsts = [...groupBy(rankings, ({ ranking }) => ranking.places[0]?.wheel ?? "")].map(([wheel, led]) => `${wheel} first ${led.length === rankings.length && rankings.length > 1 ? `in ${rankings.length === 2 ? "both" : `all ${rankings.length}`} conditions` : `for ${led.map(({ condition }) => condition).join(" and ")}`}`);
  const open = rankings.flatMap(({ condition, ranking }) => {
    const tied = ranking.places.slice(1).filter(({ apart }) => !apart);
    return tied.length === 0 ? [] : [`${tied.map(({ wheel }) => wheel).join(", ")} for ${condition}`];
  });
  const others = open.length === 0 ? "told apart from every other wheel" : `not told apart from the first: ${open.join("; ")}`;
  return `${firsts.join(", ")}; ${others}${rankings.some(({ ranking }) => !ranking.repeated) ? "; no condition was repeated, so what preparing and mounting again would change is not counted" : ""}`;
}
