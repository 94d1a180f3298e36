import { InputError } from "../core/errors.ts";
import { isZone } from "../core/instants.ts";
import type { ChosenColumn } from "./chooseColumns.ts";
import type { CellIssues } from "./columnCells.ts";
import type { ColumnTime } from "./columnTime.ts";
import { shown } from "./shown.ts";
import { columnDate, countedDate } from "./stampDate.ts";
import { clockProblem, stampReader } from "./stamps.ts";
import type { StampClock } from "./stamps.ts";
import { stampTimes } from "./times.ts";
import type { ToldDate } from "./toldDate.ts";

/** What is longer is no stamp, and a file can hold a long text once and name it in every row. */
const longestStamp = 200;

/** Times of the rows of a column format from stamps as text, with the date in them or told apart. */
export function textTime(clock: StampClock, texts: readonly string[], date: ToldDate | null, chosen: ChosenColumn, fileName: string, issues: CellIssues): ColumnTime {
  const at = `${fileName}, column "${chosen.name}"`;
  if (clock.zone !== undefined && !isZone(clock.zone)) throw new InputError([{ code: "unknown-zone", at, message: `expected a time zone, found "${clock.zone}"`, hint: "Set zone: in rig.yaml to an IANA name like Europe/Oslo, to UTC, or to an offset like UTC+2" }]);
  const problem = texts[0] === undefined || texts[0] === "" ? null : clockProblem(clock, texts[0], date?.format ?? null);
  if (problem !== null) throw new InputError([{ code: "incomplete-clock", at, message: `expected ${problem}`, hint: "Correct clock: in rig.yaml" }]);
  const ofRows = date?.ofRows ?? null;
  // The stamp reader works on bytes, as logs of text have them: first all times, then all dates.
  const cells = [...texts, ...(ofRows ?? [])].map((cell) => (cell.length > longestStamp ? cell.slice(0, longestStamp) : cell));
  const bytes = new TextEncoder().encode(cells.join("\n"));
  const ends = lineEnds(bytes, cells.length);
  const decoder = new TextDecoder();
  const text = (from: number, to: number): string => decoder.decode(bytes.subarray(from, to));
  const start = (cell: number): number => (cell === 0 ? 0 : (ends[cell - 1] as number) + 1);
  const beside = date === null || ofRows === null ? null : columnDate(date.format, bytes, text);
  const reader = stampReader(clock, bytes, text, beside ?? (date === null ? null : countedDate(date.first, date.format)));
  const stamps = new Float64Array(texts.length);
  for (let row = 0; row < texts.length; row++) {
    const dateCell = texts.length + row;
    beside?.at(start(dateCell), ends[dateCell] as number);
    stamps[row] = reader.read(start(row), ends[row] as number);
    if (Number.isNaN(stamps[row])) issues.add({ code: "unreadable-time", at: `${fileName} ${chosen.part.rowName(row)}, column "${chosen.name}"`, message: `${shown(texts[row] as string)} ${reader.problem()}`, hint: "Correct clock: in rig.yaml, or repair the log" });
  }
  return { timesS: stampTimes(stamps), startedAt: reader.startedAt() };
}

function lineEnds(bytes: Uint8Array, count: number): Float64Array {
  const ends = new Float64Array(count).fill(bytes.length);
  let from = 0;
  for (let cell = 0; cell < count - 1; cell++) {
    ends[cell] = bytes.indexOf(10, from);
    from = (ends[cell] as number) + 1;
  }
  return ends;
}
