import { DateTime, FixedOffsetZone, IANAZone, Info } from "luxon";

/** A moment, or why the text does not name exactly one. */
export type Instant = { readonly ms: number; readonly zone: string } | { readonly problem: string };

/** Whether a text names a zone: an IANA name, UTC, or a fixed offset such as UTC+2. */
export function isZone(zone: string): boolean {
  return IANAZone.isValidZone(zone) || FixedOffsetZone.parseSpecifier(zone) !== null || zone.toLowerCase() === "utc";
}

/** Whether a stamp layout carries year, month and day; without them a stamp would silently take today's date. */
export function layoutHasDate(format: string): boolean {
  const probe = DateTime.utc(1987, 6, 15, 12, 34, 56);
  const back = DateTime.fromFormat(probe.toFormat(format), format, { zone: "utc" });
  return back.isValid && back.toFormat("yyyyMMdd") === "19870615";
}

/** Whether a stamp layout with twelve hours also says which half of the day is meant. */
export function layoutTellsHalfDay(format: string): boolean {
  const tokens = format.replace(/'[^']*'/g, "");
  return !tokens.includes("h") || tokens.includes("a");
}

/** The day after a date, written in the same layout. */
export function nextDate(date: string, format: string): string {
  return DateTime.fromFormat(date, format, { zone: "utc" }).plus({ days: 1 }).toFormat(format);
}

/** A wall-clock stamp in a zone. Refuses times that daylight saving makes ambiguous or nonexistent. */
export function parseWall(text: string, format: string, zone: string): Instant {
  const read = DateTime.fromFormat(text, format, { zone });
  if (!read.isValid) return { problem: `does not fit the layout "${format}"` };
  const asUtc = DateTime.fromFormat(text, format, { zone: "utc" }).toMillis();
  // A stamp that carries its own offset is the same moment whatever zone it is read in.
  if (asUtc === DateTime.fromFormat(text, format, { zone: "UTC+3" }).toMillis()) return { ms: read.toMillis(), zone };
  return local(asUtc, zone, read.toMillis());
}

/** An ISO 8601 stamp. Without an offset in the text it needs a zone. */
export function parseIso(text: string, zone?: string): Instant {
  const iso = text.replace(/^(\d{4}-\d{2}-\d{2}) +(?=\d)/, "$1T");
  const read = DateTime.fromISO(iso, { setZone: true });
  if (!read.isValid) return { problem: "is not an ISO 8601 time" };
  if (isoHasOffset(iso)) return { ms: read.toMillis(), zone: read.zoneName };
  if (zone === undefined) return { problem: "carries no zone" };
  return local(DateTime.fromISO(iso, { zone: "utc" }).toMillis(), zone, DateTime.fromISO(iso, { zone }).toMillis());
}

export function isoHasOffset(text: string): boolean {
  return /[T ]\d{2}.*(Z|[+-]\d{2}(:?\d{2})?)$/i.test(text);
}

/** ISO 8601 with the offset of the zone at that moment, to the millisecond. */
export function toIso(ms: number, zone: string): string {
  return DateTime.fromMillis(ms, { zone }).toISO() ?? "";
}

/** The one moment at which clocks in `zone` show `localMs`, if there is exactly one. */
function local(localMs: number, zone: string, found: number): Instant {
  const rules = Info.normalizeZone(zone);
  const day = 86_400_000;
  const offsets = new Set([rules.offset(localMs - day), rules.offset(localMs + day)]);
  const moments = [...offsets].map((offset) => ({ offset, ms: localMs - offset * 60_000 })).filter(({ offset, ms }) => rules.offset(ms) === offset);
  if (moments.length === 0) return { problem: `does not exist in ${zone}: the clocks were put forward over it` };
  if (moments.length > 1) return { problem: `occurs twice in ${zone}: the clocks were put back over it` };
  return { ms: moments[0]?.ms ?? found, zone };
}
