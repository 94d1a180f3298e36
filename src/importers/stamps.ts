import { isoHasOffset, layoutHasDate, layoutTellsHalfDay, parseIso, parseWall, toIso } from "../core/instants.ts";
import type { Instant } from "../core/instants.ts";
import type { StampDate } from "./stampDate.ts";
import { stampPattern } from "./stampPattern.ts";
import type { StampPattern } from "./stampPattern.ts";

export type StampClock = { readonly kind: "wall"; readonly format: string; readonly zone: string } | { readonly kind: "iso"; readonly zone?: string | undefined };

/** The stamp that others are counted from. */
export interface StampOrigin {
  readonly minuteMs: number;
  readonly ms: number;
  readonly zone: string;
}

export interface StampReader {
  /** nanoseconds after the origin's minute; NaN if unreadable */
  readonly read: (from: number, to: number) => number;
  readonly problem: () => string;
  /** the first stamp, or the one handed in; null before any was read */
  readonly origin: () => StampOrigin | null;
  /** its moment */
  readonly startedAt: () => string | null;
  /** whether a row's day hangs on the rows before it */
  readonly countsMidnights: boolean;
  /** how often midnight passed, where the stamps hold no date */
  readonly midnights: () => number;
}

const SPACE = 32;
const QUOTE = 34;
const nsPerMs = 1_000_000;
const nsPerS = 1_000_000_000;
/** Without a date, a time of day further back than this is of the next day. */
const halfDayMs = 43_200_000;
/** nanoseconds of one unit of the last digit, by the number of digits */
const nsPerDigit = Float64Array.from({ length: 10 }, (_, digits) => Number(`1e${9 - digits}`));
/** Every stamp this many rows after the last compared one is read a second time by the slow way. */
const firstCheck = 2;

interface Parts {
  readonly minuteMs: number;
  readonly seconds: number;
  readonly fractionNs: number;
}

/**
 * Reads time stamps from bytes. The calendar part is read once for as long as it stays the same; only seconds and
 * their digits are read in every row. Rows 1, 2, 4, 8 … of each such stretch are read in full and compared.
 */
export function stampReader(clock: StampClock, bytes: Uint8Array, text: (from: number, to: number) => string, date: StampDate | null = null, origin: StampOrigin | null = null): StampReader {
  const pattern = stampPattern(clock);
  const { fewestDigits, mostDigits } = pattern;
  let problem = "";
  let first = origin;
  let prefix = new Uint8Array(0);
  let suffix = new Uint8Array(0);
  let known = false;
  let baseNs = 0;
  let lastMs = Number.NaN;
  let midnights = 0;
  let rowsSince = 0;
  let nextCheck = firstCheck;

  function slow(from: number, to: number): number {
    known = false;
    const written = unquoted(text(from, to).trim());
    let read = whole(written, clock, pattern, date);
    if (date !== null && date.next !== null && !("problem" in read.instant) && read.instant.ms < lastMs - halfDayMs) {
      date.next();
      midnights++;
      read = whole(written, clock, pattern, date);
    }
    const { parts, instant, match } = read;
    if ("problem" in instant) {
      problem = date === null || date.next !== null ? instant.problem : `with the date "${date.text()}" ${instant.problem}`;
      return Number.NaN;
    }
    if (date !== null && date.next !== null && instant.ms > lastMs + halfDayMs) {
      problem = "lies more than 12 hours from the row before, so without a date nobody can tell its day";
      return Number.NaN;
    }
    lastMs = instant.ms;
    first ??= { minuteMs: parts.minuteMs, ms: instant.ms, zone: instant.zone };
    baseNs = (parts.minuteMs - first.minuteMs) * nsPerMs;
    // Bytes and characters count alike only in plain ASCII.
    if (match !== null && /^[\x20-\x7e]*$/.test(written)) {
      prefix = ascii(match.before);
      suffix = ascii(match.after);
      known = true;
    }
    return baseNs + parts.seconds * nsPerS + parts.fractionNs;
  }

  function fast(from: number, to: number): number {
    const before = prefix;
    const after = suffix;
    let p = from;
    let end = to;
    while (bytes[p] === SPACE || bytes[p] === QUOTE) p++;
    while (end > p && (bytes[end - 1] === SPACE || bytes[end - 1] === QUOTE)) end--;
    end -= after.length;
    const seconds = p + before.length;
    if (end < seconds + 2) return Number.NaN;
    // From the back, where stamps change first.
    for (let i = before.length - 1; i >= 0; i--) if (bytes[p + i] !== before[i]) return Number.NaN;
    for (let i = 0; i < after.length; i++) if (bytes[end + i] !== after[i]) return Number.NaN;
    const tens = (bytes[seconds] as number) - 48;
    const ones = (bytes[seconds + 1] as number) - 48;
    if (tens < 0 || tens > 5 || ones < 0 || ones > 9) return Number.NaN;
    const digits = end - seconds - 3;
    const whole = baseNs + (tens * 10 + ones) * nsPerS;
    if (digits === -1) return fewestDigits === 0 ? whole : Number.NaN;
    if (digits < 1 || digits < fewestDigits || digits > mostDigits) return Number.NaN;
    const mark = bytes[seconds + 2];
    if (mark !== 46 && mark !== 44) return Number.NaN;
    let fraction = 0;
    for (p = seconds + 3; p < end; p++) {
      const digit = (bytes[p] as number) - 48;
      if (digit < 0 || digit > 9) return Number.NaN;
      fraction = fraction * 10 + digit;
    }
    return whole + fraction * (nsPerDigit[digits] as number);
  }

  function read(from: number, to: number): number {
    const quick = known && (date === null || date.unchanged()) ? fast(from, to) : Number.NaN;
    if (Number.isNaN(quick)) {
      rowsSince = 0;
      nextCheck = firstCheck;
      return slow(from, to);
    }
    if (++rowsSince < nextCheck) return quick;
    nextCheck *= 2;
    const full = slow(from, to);
    if (full === quick || Number.isNaN(full)) return full;
    problem = "was read in two ways that disagree";
    return Number.NaN;
  }

  return { read, countsMidnights: date !== null && date.next !== null, problem: () => problem, origin: () => first, startedAt: () => (first === null ? null : toIso(first.ms, first.zone)), midnights: () => midnights };
}

/** One stamp by the calendar library, split at its seconds. */
function whole(written: string, clock: StampClock, pattern: StampPattern, date: StampDate | null): { readonly parts: Parts; readonly instant: Instant; readonly match: { readonly before: string; readonly after: string } | null } {
  const match = pattern.match(written);
  const time = match?.withLayoutMark ?? written;
  const instant = clock.kind === "wall" ? (date === null ? parseWall(time, clock.format, clock.zone) : parseWall(`${date.text()} ${time}`, `${date.format} ${clock.format}`, clock.zone)) : parseIso(written, clock.zone);
  const ms = "problem" in instant ? Number.NaN : instant.ms;
  if (match === null) return { parts: { minuteMs: ms, seconds: 0, fractionNs: 0 }, instant, match: null };
  const minuteMs = Math.floor(ms / 1000 - match.seconds) * 1000;
  // The library cuts the fraction to milliseconds; further apart the two do not mean the same moment.
  const apartMs = Math.abs(ms - (minuteMs + match.seconds * 1000 + match.fractionNs / nsPerMs));
  if (apartMs >= 2) return { parts: { minuteMs: Number.NaN, seconds: 0, fractionNs: 0 }, instant: { problem: "was read in two ways that disagree" }, match: null };
  return { parts: { minuteMs, seconds: match.seconds, fractionNs: match.fractionNs }, instant, match };
}

/** What is wrong with a declared clock, before any row is read; null = nothing. `example` is the first stamp of the file. */
export function clockProblem(clock: StampClock, example: string, dateFormat: string | null = null): string | null {
  if (clock.kind === "wall" && !layoutTellsHalfDay(clock.format)) return `a layout that tells the half of the day with a, since h counts to twelve, found "${clock.format}"`;
  if (clock.kind === "wall" && dateFormat !== null && layoutHasDate(clock.format)) return `a layout of the time of day alone, since the date is told elsewhere, found "${clock.format}"`;
  if (clock.kind === "wall" && dateFormat !== null) return layoutHasDate(`${dateFormat} ${clock.format}`) ? null : `a date layout with year, month and day, found "${dateFormat}"`;
  if (clock.kind === "wall") return layoutHasDate(clock.format) ? null : `a layout with year, month and day, or where the date is (dateColumn, dateLabel or startDate), found "${clock.format}"`;
  const stamp = unquoted(example.trim());
  return clock.zone === undefined && !isoHasOffset(stamp) ? `stamps that carry their zone, or a zone: in the clock, found "${stamp.slice(0, 40)}"` : null;
}

function unquoted(cell: string): string {
  return cell.replace(/^"(.*)"$/, "$1").trim();
}

function ascii(text: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(text, (character) => character.charCodeAt(0));
}
