import { groupBy } from "../core/groupBy.ts";
import type { DayResult } from "../processing/dayResult.ts";
import type { Ranking } from "../processing/ranking.ts";
import { namesInWords } from "./words.ts";

/** One question put to the wheels, with its answers condition by condition. */
export interface RankedQuestion {
  readonly label: string;
  readonly better: Ranking["better"];
  readonly rankings: readonly Ranking[];
  /** who is first where, and who cannot be told apart from it */
  readonly answer: string;
}

export function rankedQuestions(day: Pick<DayResult, "rankings">): RankedQuestion[] {
  return [...groupBy(day.rankings, ({ label }) => label)].map(([label, rankings]) => ({ label, better: (rankings[0] as Ranking).better, rankings, answer: answer(rankings) }));
}

/** The condition without the words that all of a question share. */
export function conditionWords({ condition }: Ranking): string {
  return namesInWords(condition).replace(/^(Traction|Drop|Footprint|Obstacle), /i, "");
}

function answer(rankings: readonly Ranking[]): string {
  const firsts = [...groupBy(rankings, ({ places }) => places[0]?.wheel ?? "")].map(([wheel, led]) => `${wheel} first ${led.length === rankings.length && rankings.length > 1 ? `in all ${rankings.length} conditions` : `at ${led.map(conditionWords).join("; ")}`}`);
  const open = rankings.flatMap((ranking) => {
    const tied = ranking.places.slice(1).filter(({ apart }) => !apart);
    return tied.length === 0 ? [] : [`${tied.map(({ wheel }) => wheel).join(", ")} at ${conditionWords(ranking)}`];
  });
  const others = open.length === 0 ? "told apart from every other wheel" : `not told apart from the first: ${open.join("; ")}`;
  return `${firsts.join(", ")}; ${others}${rankings.some(({ repeated }) => !repeated) ? "; nothing was repeated, so preparing again is in no doubt here" : ""}`;
}
