import { InputError } from "../core/errors.ts";
import { isZone } from "../core/instants.ts";
import type { Choice } from "./chooseReading.ts";
import type { ClockFormat } from "./contract.ts";
import { datePlaceProblem, datePlaces, isoDate } from "./datePlace.ts";
import type { Decoded } from "./decode.ts";
import { metadataOf } from "./preamble.ts";
import { shown } from "./shown.ts";
import { columnDate, countedDate } from "./stampDate.ts";
import type { StampDate } from "./stampDate.ts";
import { clockProblem, stampReader } from "./stamps.ts";
import type { StampOrigin, StampReader } from "./stamps.ts";

/** Stamps of the rows; where date and time stand in two cells, the first of the two is handed in first. */
export interface RowStamps extends StampReader {
  readonly firstHalf: ((from: number, to: number) => void) | null;
}

/** The reader of a text log's stamps; null where the clock has none. @throws InputError where the clock cannot tell moments */
export function datedStamps(clock: ClockFormat, choice: Choice, file: Pick<Decoded, "bytes" | "text">, fileName: string, origin: StampOrigin | null = null): RowStamps | null {
  if (clock.kind !== "wall" && clock.kind !== "iso") return null;
  const at = `${fileName} line ${choice.reading.firstRowLine}, column "${clock.column}"`;
  const refuse = (code: string, message: string, hint: string): InputError => new InputError([{ code, at, message: `expected ${message}`, hint }]);
  if (clock.zone !== undefined && !isZone(clock.zone)) throw refuse("unknown-zone", `a time zone, found "${clock.zone}"`, "Set zone: in rig.yaml to an IANA name like Europe/Oslo, to UTC, or to an offset like UTC+2");
  const told = clock.kind === "wall" ? datePlaces(clock) : [];
  const misplaced = clock.kind === "wall" ? datePlaceProblem(clock) : null;
  if (misplaced !== null) throw refuse("incomplete-clock", misplaced.message, misplaced.hint);
  const dateFormat = told.length === 0 || clock.kind !== "wall" ? null : (clock.dateFormat ?? isoDate);
  const example = choice.reading.sample[0]?.[choice.timeColumn ?? 0] ?? "";
  const problem = example === "" ? null : clockProblem(clock, example, dateFormat);
  if (problem !== null) throw refuse("incomplete-clock", problem, "Correct clock: in rig.yaml");
  if (clock.kind !== "wall" || dateFormat === null) return { ...stampReader(clock, file.bytes, file.text, null, origin), firstHalf: null };
  if (clock.dateColumn === undefined) return { ...stampReader(clock, file.bytes, file.text, firstDate(clock, dateFormat, choice, fileName), origin), firstHalf: null };
  const date = columnDate(dateFormat, file.bytes, file.text);
  const reader = stampReader(clock, file.bytes, file.text, date, origin);
  const dateFirst = (choice.dateColumn as number) < (choice.timeColumn as number);
  let from = 0;
  let to = 0;
  return {
    ...reader,
    firstHalf: (cellFrom, cellTo) => {
      from = cellFrom;
      to = cellTo;
    },
    read: (cellFrom, cellTo) => {
      if (dateFirst) date.at(from, to);
      else date.at(cellFrom, cellTo);
      return dateFirst ? reader.read(cellFrom, cellTo) : reader.read(from, to);
    },
  };
}

function firstDate(clock: Extract<ClockFormat, { kind: "wall" }>, format: string, choice: Choice, fileName: string): StampDate {
  if (clock.dateLabel === undefined) return countedDate(clock.startDate as string, format);
  const metadata = metadataOf(choice.reading);
  const found = metadata.find(([key]) => key.replace(/:$/, "").trim() === clock.dateLabel);
  if (found === undefined) throw new InputError([{ code: "no-date-line", at: fileName, message: `expected a line ${shown(clock.dateLabel)} with the date before the headings, found ${metadata.map(([key]) => shown(key)).slice(0, 20).join(", ") || "none"}`, hint: "Correct dateLabel: in rig.yaml, or declare dateColumn: or startDate:" }]);
  return countedDate(found[1], format);
}
