import type { Reading } from "./dialect.ts";
import { numericRows } from "./numericRows.ts";
import type { RowPlan, Rows } from "./numericRows.ts";
import { stampReader } from "./stamps.ts";
import type { StampClock } from "./stamps.ts";
import { numberCandidate, pace, textCandidates } from "./timeCandidate.ts";
import type { Pace, TimeCandidate } from "./timeCandidate.ts";
import { stampTimes } from "./times.ts";

/** The time stands among the first columns; trying every layout on very many takes minutes. */
const columnsTried = 200;

/** The columns of a text log that may be its time. */
export function timeCandidates(one: Reading, plan: RowPlan, rows: Rows): TimeCandidate[] {
  return one.headings.slice(0, columnsTried).flatMap(({ written, name, unit }, column) => {
    const names = { shown: written, declared: name, bare: name };
    const slot = plan.slots[column] as number;
    const values = slot >= 0 ? rows.columns[slot] : undefined;
    if (values !== undefined) return numberCandidate(names, unit, values) ?? [];
    const cells = one.sample.map((row) => row[column] ?? "").filter((cell) => cell !== "");
    return textCandidates(names, cells, (clock) => paceOf(plan, column, clock));
  });
}

/** Steps between stamps do not need the zone. */
function paceOf(plan: RowPlan, column: number, clock: StampClock): Pace {
  const reader = stampReader(clock, plan.bytes, plan.text);
  const slots = new Int32Array(plan.slots.length).fill(-1);
  slots[column] = -2;
  const rows = numericRows({ ...plan, slots, slotNames: [], stamp: reader.read, stampProblem: reader.problem });
  const stamps = (rows.stamps as Float64Array).filter((value) => !Number.isNaN(value));
  return pace(stampTimes(stamps));
}
