import { benchDay } from "./benchDay.ts";
import { curveDay } from "./curveDay.ts";
import { dropDay } from "./dropDay.ts";
import { rollingDay } from "./rollingDay.ts";
import { soilDay } from "./soilDay.ts";
import { sweepDay } from "./sweepDay.ts";
import type { Tally } from "./tally.ts";

/** Kinds of small made days; a seed draws what differs from lab to lab, day to day and run to run. */
export const days = { rolling: rollingDay, drops: dropDay, bench: benchDay, soil: soilDay, curves: curveDay, sweeps: sweepDay } as const satisfies Record<string, (seed: number) => Tally | Promise<Tally>>;

export type DayKind = keyof typeof days;

export const dayKinds = Object.keys(days) as DayKind[];

export interface DayTask {
  readonly kind: DayKind;
  readonly seed: number;
}

/** Body of a thread: one made day, reduced and held against its truth. */
export default async function oneDay({ kind, seed }: DayTask): Promise<Tally> {
  return days[kind](seed);
}
