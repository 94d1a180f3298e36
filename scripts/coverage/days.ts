import { benchDay } from "./benchDay.ts";
import { dropDay } from "./dropDay.ts";
import { rollingDay } from "./rollingDay.ts";
import { soilDay } from "./soilDay.ts";
import type { Tally } from "./tally.ts";

/** Kinds of small made days; a seed draws what differs from lab to lab, day to day and run to run. */
export const days = { rolling: rollingDay, drops: dropDay, bench: benchDay, soil: soilDay } as const satisfies Record<string, (seed: number) => Promise<Tally>>;

export type DayKind = keyof typeof days;

export const dayKinds = Object.keys(days) as DayKind[];

export interface DayTask {
  readonly kind: DayKind;
  readonly seed: number;
}

/** Body of a thread: one made day, reduced and held against its truth. */
export default function oneDay({ kind, seed }: DayTask): Promise<Tally> {
  return days[kind](seed);
}
