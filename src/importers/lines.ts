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

/** A text file, or a part of one, of which stretches can be looked at. */
export interface Stretches {
  readonly length: number;
  readonly between: (from: number, to: number) => Decoded;
}

export function inMemory(file: Decoded): Stretches {
  return { length: file.bytes.length, between: (from, to) => ({ ...file, bytes: file.bytes.subarray(from, to), text: (a, b) => file.text(from + a, from + b) }) };
}

/** What is looked at before the rows are read: whole lines of the head, and of the middle and the end. */
export interface Glance {
  readonly head: Lines;
  readonly later: readonly string[];
}

const headBytes = 65_536;
const laterBytes = 8_192;

export function glanceAt({ length, between }: Stretches): Glance {
  // One byte more than is looked at, so that a line cut by the stretch's end is told from the last of a file.
  const lines = (from: number, size: number): Lines => linesBetween(between(from, Math.min(length, from + size + 1)), 0, size);
  const head = lines(0, headBytes);
  const from = head.starts.at(Math.min(head.starts.length - 1, 20)) ?? 0;
  if (length - from < 4 * laterBytes) return { head, later: [] };
  const middle = Math.floor((from + length) / 2);
  // Sensors have left their rest values there. The first line of a stretch is probably cut, and so may be the last of the file.
  return { head, later: [...lines(middle, laterBytes).text.slice(1), ...lines(length - laterBytes, laterBytes).text.slice(1, -1)] };
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
