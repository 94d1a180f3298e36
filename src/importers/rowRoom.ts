import type { RowPlan } from "./numericRows.ts";

/** Room for the numbers of a piece, used again for the next. */
export interface RowRoom {
  capacity: number;
  columns: Float64Array<ArrayBuffer>[];
  stamps: Float64Array<ArrayBuffer> | null;
}

/** Room for the rows that the first lines promise. */
export function roomFor(plan: Pick<RowPlan, "bytes" | "firstByte" | "slotNames" | "stamp">): RowRoom {
  const capacity = estimateRows(plan.bytes, plan.firstByte, plan.bytes.length);
  return { capacity, columns: plan.slotNames.map(() => new Float64Array(capacity)), stamps: plan.stamp === null ? null : new Float64Array(capacity) };
}

/** A third more, for rows that were shorter than those looked at. */
export function widen(room: RowRoom): void {
  room.capacity = Math.ceil(room.capacity * 1.3) + 16;
  const wider = (values: Float64Array): Float64Array<ArrayBuffer> => {
    const all = new Float64Array(room.capacity);
    all.set(values);
    return all;
  };
  room.columns.forEach((values, slot) => (room.columns[slot] = wider(values)));
  if (room.stamps !== null) room.stamps = wider(room.stamps);
}

const lookedBytes = 65_536;

function estimateRows(bytes: Uint8Array, from: number, end: number): number {
  const looked = Math.min(end, from + lookedBytes);
  let lines = 1;
  for (let i = from; i < looked; i++) if (bytes[i] === 10) lines++;
  return Math.ceil(((end - from) / Math.max(1, looked - from)) * lines * 1.05) + 16;
}
