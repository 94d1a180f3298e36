import { mostColumnBytes } from "../core/unpacked.ts";
import { parseUnit, unitKind } from "../core/units.ts";
import type { ColumnValues, LogColumn, LogPart } from "./columnLog.ts";
import { shown } from "./shown.ts";
import { stampReader } from "./stamps.ts";
import type { StampClock } from "./stamps.ts";
import { emptyCells, namedLikeTime, numberCandidate, pace, textCandidates } from "./timeCandidate.ts";
import type { ColumnNames, Pace, TimeCandidate } from "./timeCandidate.ts";
import { stampTimes } from "./times.ts";

/** What a row of stamps or cells takes while it is looked at. */
const rowBytes = 32;
/** The time stands among a part's first columns. */
const columnsTried = 200;
const longestStamp = 200;
const nsPerDay = 86_400_000_000_000n;
const year2000Ns = 946_684_800_000_000_000n;

/** Which columns of a file's parts may be the time. One looker a file, so that all its parts share the room for values. */
export function storedLooker(fileBytes: number): (part: LogPart, nameOf: (column: LogColumn) => string) => Promise<{ readonly candidates: TimeCandidate[]; readonly remarks: string[] }> {
  let room = mostColumnBytes(fileBytes);
  return async (part, nameOf) => {
    const candidates: TimeCandidate[] = [];
    const remarks: string[] = [];
    const look = async (column: LogColumn, found: (values: ColumnValues) => readonly TimeCandidate[]): Promise<void> => {
      room -= rowBytes * column.rows;
      if (room < 0) return void remarks.push(`${shown(column.name)} was not looked at for the time: its ${column.rows.toLocaleString("en")} rows take more room than an inspection has`);
      try {
        candidates.push(...found(await column.values()));
      } catch (error) {
        remarks.push(`${shown(column.name)} cannot be read: ${(error instanceof Error ? error.message : String(error)).slice(0, 160)}`);
      }
    };
    for (const stamp of ["header", "log", "publish"] as const) {
      const column = part.clocks[stamp];
      if (column !== undefined) await look(column, (values) => messageCandidates(stamp, values));
    }
    const stamped = Object.keys(part.clocks).length > 0;
    for (const column of part.columns.slice(0, columnsTried)) {
      // Messages carry their stamps: of their fields only those that say so are another time.
      if (!mayBeTime(column) || (stamped && !namedLikeTime(column.name))) continue;
      const declared = nameOf(column);
      await look(column, (values) => storedCandidates({ shown: declared, declared, bare: column.name }, column, values));
    }
    return { candidates, remarks };
  };
}

function mayBeTime({ obstacle, rows, unit }: LogColumn): boolean {
  if (obstacle !== null || rows < 2) return false;
  const known = unit === null ? undefined : parseUnit(unit);
  return unit === null || (known !== undefined && unitKind(known) === "time");
}

function messageCandidates(stamp: "header" | "log" | "publish", values: ColumnValues): TimeCandidate[] {
  if (values.kind !== "stamps" || values.ns.length < 2) return [];
  const filled = values.ns.filter((ns) => ns !== null);
  const own = stampPace(filled);
  const empty = emptyCells(values.ns.length - filled.length);
  if (own.intervals.median === null) return [{ column: `${stamp} stamp`, clock: null, why: `the same in every message: nobody filled it in${empty}`, ...own }];
  if ((filled[0] as bigint) >= year2000Ns) return [{ column: `${stamp} stamp`, clock: { kind: "message", stamp, epoch: "unix" }, why: `counted from 1970, its first moment is ${new Date(Number((filled[0] as bigint) / 1_000_000n)).toISOString()}${empty}`, ...own }];
  return [{ column: `${stamp} stamp`, clock: null, why: `counted from 1970, it would begin before the year 2000: a clock that counts from a computer's start takes epoch: boot${empty}`, ...own }];
}

function storedCandidates(names: ColumnNames, column: LogColumn, values: ColumnValues): TimeCandidate[] {
  const candidate = (clock: TimeCandidate["clock"], why: string, own: Pace): TimeCandidate[] => (own.intervals.median === null ? [] : [{ column: names.shown, clock, why, ...own }]);
  if (values.kind === "stamps") {
    const filled = values.ns.filter((ns) => ns !== null);
    // Dates without a time of day are half a clock at most.
    if (filled.length < 2 || filled.every((ns) => ns % nsPerDay === 0n)) return [];
    const empty = emptyCells(values.ns.length - filled.length);
    return candidate(values.zoned ? { kind: "stamp", column: names.declared } : null, `${values.zoned ? "stored time stamps in UTC" : "stored time stamps without a zone: declare kind: stamp and zone:"}${empty}`, stampPace(filled));
  }
  if (values.kind === "daytimes") {
    const filled = values.values.filter((value) => !Number.isNaN(value));
    const timesS = filled.map((value) => (values.unit === "d" ? value * 86_400 : value / 1e9));
    const doubt = values.unit === "d" ? "times of day, or durations in days: declare kind: stamp with zone: and where the date is (dateColumn, dateLabel or startDate), or kind: elapsed with unit: d" : "stored times of day: declare kind: stamp with zone: and where the date is (dateColumn, dateLabel or startDate)";
    return candidate(null, `${doubt}${emptyCells(values.values.length - filled.length)}`, pace(timesS));
  }
  if (values.kind === "numbers") return [numberCandidate(names, column.unit, values.values)].filter((one) => one !== null);
  const filled = values.cells.filter((cell) => cell !== null && cell !== "");
  const texts = filled.filter((cell) => typeof cell === "string");
  if (texts.length * 2 < filled.length) return [numberCandidate(names, column.unit, Float64Array.from(values.cells, (cell) => (typeof cell === "number" ? cell : Number.NaN)))].filter((one) => one !== null);
  return texts.length < filled.length || texts.length < 2 || texts.some((text) => text.length > longestStamp) ? [] : textCandidates(names, texts, (clock) => textPace(clock, texts));
}

function stampPace(ns: readonly bigint[]): Pace {
  const first = ns[0] ?? 0n;
  return pace(Float64Array.from(ns, (value) => Number(value - first) / 1e9));
}

/** Steps between stamps do not need the zone. The stamp reader works on bytes, as logs of text have them. */
function textPace(clock: StampClock, texts: readonly string[]): Pace {
  const bytes = Buffer.from(texts.join("\n"));
  const reader = stampReader(clock, bytes, (from, to) => bytes.toString("utf8", from, to));
  let from = 0;
  const stamps = Float64Array.from(texts, (text) => {
    const to = from + Buffer.byteLength(text);
    const stamp = reader.read(from, to);
    from = to + 1;
    return stamp;
  });
  return pace(stampTimes(stamps.filter((stamp) => !Number.isNaN(stamp))));
}
