import { expect, it } from "vitest";
import { rankedQuestions } from "../../src/report/rankingWords.ts";
import type { Ranking } from "../../src/processing/ranking.ts";
import { estimate } from "./sampleDay.ts";

const place = (wheel: string, apart: boolean): Ranking["places"][number] => ({ wheel, estimate: estimate(1, 0.1, "m", 5), behind: null, probability: null, apart });
const ranking = (condition: string, wheels: readonly string[], apart: boolean, repeated = true): Ranking => ({ label: "Sinkage, running", better: "less", condition, repeated, unranked: [], places: wheels.map((wheel, i) => place(wheel, i > 0 && apart)) });

it("says once what all conditions share, and who is first where", () => {
  const [question] = rankedQuestions({ rankings: [ranking("traction, 40 N, slip 0.2", ["A", "B"], true), ranking("traction, 70 N, slip 0.2", ["B", "A"], false)] });
  expect(question?.label).toBe("Sinkage, running, slip 0.2");
  expect(question?.answer).toBe("A first for 40 N, B first for 70 N; not told apart from the first: A for 70 N");
  expect(question?.rankings.map(({ condition }) => condition)).toEqual(["40 N", "70 N"]);
});

it("says when one wheel leads everywhere, and what was not repeated", () => {
  expect(rankedQuestions({ rankings: [ranking("40 N", ["A", "B"], true), ranking("70 N", ["A", "B"], true)] })[0]?.answer).toBe("A first in both conditions; told apart from every other wheel");
  expect(rankedQuestions({ rankings: [ranking("sharp edge", ["A", "B"], true, false)] })[0]?.answer).toBe("A first for sharp edge; told apart from every other wheel; no condition was repeated, so what preparing and mounting again would change is not counted");
});

it("names the grounds of footprints without the word that the question says", () => {
  const [question] = rankedQuestions({ rankings: [ranking("footprint, 110 N, footprint on flat by pad", ["A", "B"], true), ranking("footprint, 110 N, footprint on step by pad", ["B", "A"], true)] });
  expect(question?.answer).toBe("A first for flat by pad, B first for step by pad; told apart from every other wheel");
});
