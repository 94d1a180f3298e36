import type { Fault } from "./fault.ts";
import { copyOf, makeMiniDay } from "./miniDay.ts";
import type { MiniDay } from "./miniDay.ts";
import { miniPlans } from "./miniPlans.ts";
import type { MiniPlanName } from "./miniPlans.ts";
import { codeOf, reduceMini, shiftOf } from "./reduceMini.ts";
import type { Said, Shift } from "./reduceMini.ts";

/** One fault at one strength over several seeds. */
export interface StrengthResult {
  readonly says: string;
  readonly caught: number;
  readonly of: number;
  /** which codes caught it, with how many seeds */
  readonly codes: ReadonlyMap<string, number>;
  /** medians over the seeds; null = the number was withheld, or is not given at all */
  readonly shift: Shift | null;
  /** seeds in which the number was wrong by more than it admits and nothing said so */
  readonly misled: number;
  readonly withheld: number;
}

export interface FaultResult {
  readonly fault: Fault;
  readonly strengths: readonly StrengthResult[];
}

interface CleanDay {
  readonly day: MiniDay;
  readonly said: Said;
}

/** Clean days and what they say, made once a plan and seed. */
export type CleanDays = (plan: MiniPlanName, seed: number) => Promise<CleanDay>;

export function cleanDays(): CleanDays {
  const made = new Map<string, Promise<CleanDay>>();
  return (plan, seed) => {
    const key = `${plan} ${seed}`;
    const known = made.get(key) ?? makeClean(plan, seed);
    made.set(key, known);
    return known;
  };
}

async function makeClean(plan: MiniPlanName, seed: number): Promise<CleanDay> {
  const day = makeMiniDay(plan, seed);
  return { day, said: await reduceMini(day) };
}

/** A fault counts as caught when the spoiled day raises one of its alarms that the clean day of the same seed does not. */
export async function runFault(fault: Fault, seeds: readonly number[], clean: CleanDays, strengths: readonly number[] = [0, 1, 2]): Promise<FaultResult> {
  const results: StrengthResult[] = [];
  for (const index of strengths) {
    const strength = fault.strengths[index] as Fault["strengths"][number];
    const codes = new Map<string, number>();
    const shifts: Shift[] = [];
    let caught = 0;
    let withheld = 0;
    let misled = 0;
    for (const seed of seeds) {
      const { day, said } = await clean(fault.plan, seed);
      const spoiled = copyOf(day);
      fault.inject(spoiled, strength.size);
      const after = await reduceMini(spoiled);
      const raised = new Set([...after.alarms].filter((alarm) => !said.alarms.has(alarm)).map(codeOf));
      const by = fault.caughtBy.filter((code) => raised.has(code));
      if (by.length > 0) caught++;
      for (const code of by) codes.set(code, (codes.get(code) ?? 0) + 1);
      const shift = shiftOf(said, after, fault.headline);
      if (shift === null) withheld++;
      else shifts.push(shift);
      if (by.length === 0 && shift !== null && shift.ofOwn > 1) misled++;
    }
    results.push({ says: strength.says, caught, of: seeds.length, codes, shift: shifts.length === 0 ? null : { ofClean: middle(shifts.map((shift) => shift.ofClean)), ofOwn: middle(shifts.map((shift) => shift.ofOwn)) }, misled, withheld });
  }
  return { fault, strengths: results };
}

function middle(values: readonly number[]): number {
  return [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN;
}

/** How often each check alarms on clean days. */
export interface FalseAlarms {
  readonly runs: number;
  readonly days: number;
  readonly byCode: ReadonlyMap<string, { readonly runs: number; readonly days: number }>;
}

/** Clean days of every plan in turn: one plan a seed, so that `days` days are made in all. */
export async function falseAlarms(days: number, firstSeed: number): Promise<FalseAlarms> {
  const names = Object.keys(miniPlans) as MiniPlanName[];
  const byCode = new Map<string, { runs: number; days: number }>();
  let runs = 0;
  for (let i = 0; i < days; i++) {
    const plan = names[i % names.length] as MiniPlanName;
    const { day, said } = await makeClean(plan, firstSeed + i);
    runs += day.plan.length;
    for (const code of new Set([...said.alarms].map(codeOf))) {
      const known = byCode.get(code) ?? { runs: 0, days: 0 };
      const inRuns = [...said.alarms].filter((alarm) => codeOf(alarm) === code).length;
      byCode.set(code, { runs: known.runs + inRuns, days: known.days + 1 });
    }
  }
  return { runs, days, byCode };
}
