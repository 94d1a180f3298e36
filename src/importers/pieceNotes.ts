import type { Issue } from "../core/errors.ts";
import type { Rows } from "./numericRows.ts";

/** What was found beside the numbers in one piece of a log, with rows and lines of the whole log. */
export interface PieceNote extends Omit<Rows, "columns" | "stamps" | "nextByte" | "nextLine"> {
  readonly wellEncoded: boolean;
}

const mostIssues = 20;

/** The note of a piece before which `row` rows and `lines` lines stand. */
export function pieceNote(rows: Rows, wellEncoded: boolean, row: number, lines: number): PieceNote {
  const line = (number: number | null): number | null => (number === null ? null : number + lines);
  const { count, issues, issueCount } = rows;
  return { count, issues, issueCount, wellEncoded, overloaded: rows.overloaded.map((marked) => marked.map((index) => index + row)), repeatedLines: rows.repeatedLines.map((number) => number + lines), blankLine: line(rows.blankLine), openBlank: line(rows.openBlank), cutLine: line(rows.cutLine) };
}

/** The notes of a log's pieces, in their order, as one. */
export function joinNotes(notes: readonly PieceNote[]): PieceNote {
  const issues: Issue[] = [];
  const overloaded: number[][] = (notes[0]?.overloaded ?? []).map(() => []);
  const repeatedLines: number[] = [];
  let count = 0;
  let issueCount = 0;
  let blankLine: number | null = null;
  let openBlank: number | null = null;
  let cutLine: number | null = null;
  let wellEncoded = true;
  for (const note of notes) {
    count += note.count;
    issueCount += note.issueCount;
    issues.push(...note.issues.slice(0, mostIssues - issues.length));
    note.overloaded.forEach((rows, slot) => {
      for (const row of rows) overloaded[slot]?.push(row);
    });
    for (const line of note.repeatedLines) repeatedLines.push(line);
    if (note.count > 0) {
      blankLine ??= openBlank ?? note.blankLine;
      openBlank = note.openBlank;
    } else openBlank ??= note.openBlank;
    cutLine ??= note.cutLine;
    wellEncoded &&= note.wellEncoded;
  }
  return { count, issues, issueCount, overloaded, repeatedLines, blankLine, openBlank, cutLine, wellEncoded };
}
