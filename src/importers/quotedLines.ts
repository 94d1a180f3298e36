const LF = 10;
const CR = 13;
const SPACE = 32;
const QUOTE = 34;
/** A remark is never this long; beyond it the quotation mark was simply never closed. */
const longestCell = 4096;

/**
 * Byte of the quotation mark that closes a cell opened at `open`, beyond the end of its line; null where none does.
 * A closing mark stands right before a delimiter or a line's end, and only there does a cell end.
 */
export function closingQuote(bytes: Uint8Array, open: number, delimiter: number, end: number): number | null {
  const last = Math.min(end, open + longestCell);
  for (let p = open + 1; p < last; p++) {
    if (bytes[p] !== QUOTE) continue;
    if (bytes[p + 1] === QUOTE) {
      p++;
      continue;
    }
    let after = p + 1;
    while (bytes[after] === SPACE && delimiter !== SPACE) after++;
    return bytes[after] === delimiter || bytes[after] === LF || bytes[after] === CR ? p : null;
  }
  return null;
}

/** Line ends between two bytes. */
export function lineEnds(bytes: Uint8Array, from: number, to: number): number {
  let count = 0;
  for (let p = from; p < to; p++) if (bytes[p] === LF || (bytes[p] === CR && bytes[p + 1] !== LF)) count++;
  return count;
}

/** Whether a line that a joined cell would take in, or the one it would end in, has as many cells as a row. */
export function swallowsRow(bytes: Uint8Array, from: number, to: number, delimiter: number, columns: number): boolean {
  let cells = 0;
  let beyondFirst = false;
  for (let p = from; ; p++) {
    const byte = bytes[p];
    if (byte === delimiter) cells++;
    if (byte !== undefined && byte !== LF && byte !== CR) continue;
    if (beyondFirst && cells === columns) return true;
    if (byte === undefined || p >= to) return false;
    beyondFirst = true;
    cells = 1;
  }
}
