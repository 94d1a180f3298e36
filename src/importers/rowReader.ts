import type { Choice } from "./chooseReading.ts";
import type { ReadOptions } from "./contract.ts";
import { datedStamps } from "./datedStamps.ts";
import type { RowStamps } from "./datedStamps.ts";
import type { Decoded } from "./decode.ts";
import type { RowPlan } from "./numericRows.ts";
import { marksOf } from "./oddCell.ts";
import { repeatedLine } from "./preamble.ts";
import type { StampOrigin } from "./stamps.ts";
import { unitChange } from "./unitChange.ts";

/** A text log and the one way to read it: plain data, which may go to another thread. */
export interface TextLog {
  readonly fileName: string;
  readonly options: ReadOptions;
  readonly choice: Choice;
}

/** Where the numbers of each column go. */
export interface RowSlots {
  /** per column of the file, see RowPlan */
  readonly columns: Int32Array;
  readonly names: readonly string[];
  /** slots of the wanted columns, in their order */
  readonly wanted: readonly number[];
  /** slot of the time where it is a number, -1 where it is not */
  readonly time: number;
}

export function rowSlots({ choice, options }: TextLog): RowSlots {
  const { timeColumn, dateColumn } = choice;
  const columns = new Int32Array(choice.reading.headings.length).fill(-1);
  const names: string[] = [];
  const take = (column: number, name: string): number => {
    if (columns[column] === -1) columns[column] = names.push(name) - 1;
    return columns[column] as number;
  };
  const wanted = choice.wanted.map(({ name, column }) => take(column, name));
  const { clock } = options;
  const time = (clock.kind === "elapsed" || clock.kind === "serial") && timeColumn !== null ? take(timeColumn, clock.column) : -1;
  if ((clock.kind === "wall" || clock.kind === "iso") && timeColumn !== null) {
    columns[timeColumn] = -2;
    if (dateColumn !== null) {
      columns[Math.min(timeColumn, dateColumn)] = -3;
      columns[Math.max(timeColumn, dateColumn)] = -2;
    }
  }
  return { columns, names, wanted, time };
}

/** What the byte loop needs for rows of `file`; stamps count from `origin`, or from the first one read. @throws InputError where the clock cannot tell moments */
export function rowReader(log: TextLog, file: Pick<Decoded, "bytes" | "text">, origin: StampOrigin | null = null): { readonly plan: RowPlan; readonly stamps: RowStamps | null; readonly slots: RowSlots } {
  const { choice, fileName, options } = log;
  const { reading, wanted, timeColumn } = choice;
  const stamps = datedStamps(options.clock, choice, file, fileName, origin);
  const slots = rowSlots(log);
  const plan: RowPlan = {
    bytes: file.bytes,
    text: file.text,
    fileName,
    firstByte: reading.firstRowByte < 0 ? file.bytes.length : reading.firstRowByte,
    firstLine: reading.firstRowLine,
    delimiter: reading.delimiter === null ? 0 : reading.delimiter.charCodeAt(0),
    decimal: (choice.decimal ?? ".").charCodeAt(0),
    headings: reading.headings.map((heading) => heading.written),
    slots: slots.columns,
    slotNames: slots.names,
    requiredSlot: slots.time,
    stamp: stamps?.read ?? null,
    firstHalf: stamps?.firstHalf ?? null,
    stampProblem: stamps?.problem ?? (() => ""),
    marks: marksOf(options.missing, options.overload, choice.decimal ?? ".", options.thousands ?? null),
    isRepeated: repeatedLine(reading),
    unitChange: unitChange(reading, [...wanted.map(({ column }) => column), ...(timeColumn === null ? [] : [timeColumn])], fileName),
  };
  return { plan, stamps, slots };
}
