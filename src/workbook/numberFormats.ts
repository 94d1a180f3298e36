/** What a cell's number stands for, from how the cell shows it. */
export type Shown = "number" | "percent" | "date" | "time of day" | "duration";

// Formats that every workbook has without listing them (ECMA-376 part 1, 18.8.30); 27 to 36 and 50 to 58 are dates of East Asian locales.
const builtIn: Readonly<Record<number, Shown>> = { 9: "percent", 10: "percent", 14: "date", 15: "date", 16: "date", 17: "date", 18: "time of day", 19: "time of day", 20: "time of day", 21: "time of day", 22: "date", 45: "time of day", 46: "duration", 47: "time of day" };

/** What a format makes of a number: `code` is null for formats that the workbook does not list. */
export function shownAs(id: number, code: string | null): Shown {
  if (code === null) return builtIn[id] ?? ((id >= 27 && id <= 36) || (id >= 50 && id <= 58) ? "date" : "number");
  const [first = ""] = code.split(";");
  if (/\[(h+|m+|s+)\]/i.test(first)) return "duration";
  // Quoted words, escaped letters and bracketed colours or locales are no place holders.
  const plain = first.replace(/"[^"]*"|\\.|_.|\*.|\[[^\]]*\]/g, "");
  if (/general/i.test(plain)) return "number";
  if (/[yd]/i.test(plain)) return "date";
  if (/[hs]/i.test(plain)) return "time of day";
  if (/m/i.test(plain)) return "date";
  return plain.includes("%") ? "percent" : "number";
}

const dayMs = 86_400_000;
/** 1970-01-01 in days of the two calendars. */
const days1900 = 25_569;
const days1904 = 24_107;

/**
 * Milliseconds since 1970-01-01 as a clock on the wall shows them, rounded to whole ones; null = no date of the calendar.
 * Days of the 1900 calendar count a 29 February 1900 that never was, so days before it lie one further on.
 */
export function dateMs(serial: number, from1904: boolean): number | null {
  if (!Number.isFinite(serial) || serial < 0 || serial > 2_958_466) return null;
  if (from1904) return Math.round((serial - days1904) * dayMs);
  if (serial < 1 || Math.floor(serial) === 60) return null;
  return Math.round((serial - days1900 + (serial < 60 ? 1 : 0)) * dayMs);
}
