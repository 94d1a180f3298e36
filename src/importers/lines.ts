import Papa from "papaparse";
import type { Decoded } from "./decode.ts";

/** Stands for a blank that parts no columns, between a heading and its unit. */
const keptBlank = "\u0001";

/** Physical lines of a stretch of the file. */
export interface Lines {
  readonly text: readonly string[];
  /** byte at which each line starts */
  readonly starts: readonly number[];
}

/** Lines between two bytes; a line cut by `to` is left out unless the file ends there. */
export function linesBetween(file: Decoded, from: number, to: number): Lines {
  const text: string[] = [];
  const starts: number[] = [];
  const end = Math.min(to, file.bytes.length);
  let start = from;
  for (let i = from; i < end; i++) {
    const byte = file.bytes[i];
    if (byte !== 10 && byte !== 13) continue;
    text.push(file.text(start, i));
    starts.push(start);
    if (byte === 13 && file.bytes[i + 1] === 10) i++;
    start = i + 1;
  }
  if (start < end && end === file.bytes.length) {
    text.push(file.text(start, end));
    starts.push(start);
  }
  return { text, starts };
}

/** Whole lines from the middle and the end of a long file, where sensors have left their rest values. */
export function laterLines(file: Decoded, from: number, size: number): string[] {
  const end = file.bytes.length;
  if (end - from < 4 * size) return [];
  const middle = Math.floor((from + end) / 2);
  // The first line of a slice is probably cut, and so may be the last of the file.
  return [...linesBetween(file, middle, middle + size).text.slice(1), ...linesBetween(file, end - size, end).text.slice(1, -1)];
}

/** Cells of each line. Lines stay lines: an unbalanced quote never swallows the rows below it. */
export function splitLines(lines: readonly string[], delimiter: string | null): string[][] {
  if (delimiter === null) return lines.map((line) => [unquoted(line.trim())]);
  const ready = delimiter === " " ? lines.map(singleSpaced) : lines;
  const whole = Papa.parse<string[]>(ready.join("\n"), { delimiter, newline: "\n" }).data;
  const rows = whole.length === lines.length ? whole : ready.map((line) => Papa.parse<string[]>(line, { delimiter, newline: "\n" }).data[0] ?? [""]);
  return rows.map((row) => row.map((cell) => cell.replaceAll(keptBlank, " ").trim()));
}

/** Aligned columns: runs of blanks count once, and a bracketed unit stays with its heading. */
function singleSpaced(line: string): string {
  return line.trim().replace(/ +/g, " ").replace(/ (?=[[(][^\])]*[\])])/g, keptBlank);
}

function unquoted(cell: string): string {
  return cell.length >= 2 && cell.startsWith('"') && cell.endsWith('"') ? cell.slice(1, -1).replaceAll('""', '"') : cell;
}
