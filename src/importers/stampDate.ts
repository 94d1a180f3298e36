import { nextDate } from "../core/instants.ts";

/** Where the date comes from when the stamps of a log hold the time of day alone. */
export interface StampDate {
  readonly format: string;
  /** as written, for the row in hand */
  readonly text: () => string;
  /** whether it is the one it was when it was last asked for */
  readonly unchanged: () => boolean;
  /** on to the following day; null where every row says its own date */
  readonly next: (() => void) | null;
}

/** The date of the first row; later rows are on the same day until midnight passes. */
export function countedDate(first: string, format: string): StampDate {
  let now = first;
  return {
    format,
    text: () => now,
    unchanged: () => true,
    next: () => {
      now = nextDate(now, format);
    },
  };
}

/** A date beside each row's time of day, in a cell of its own. */
export function columnDate(format: string, bytes: Uint8Array, text: (from: number, to: number) => string): StampDate & { readonly at: (from: number, to: number) => void } {
  let from = 0;
  let to = 0;
  let known = new Uint8Array(0);
  return {
    format,
    next: null,
    at: (cellFrom, cellTo) => {
      from = cellFrom;
      to = cellTo;
    },
    text: () => {
      known = bytes.slice(from, to);
      return text(from, to).trim().replace(/^"(.*)"$/, "$1").trim();
    },
    unchanged: () => {
      if (to - from !== known.length) return false;
      for (let i = 0; i < known.length; i++) if (bytes[from + i] !== known[i]) return false;
      return true;
    },
  };
}
