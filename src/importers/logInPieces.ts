import { createHash } from "node:crypto";
import type { Hash } from "node:crypto";
import { closeSync, fstatSync, openSync, readSync } from "node:fs";
import { InputError } from "../core/errors.ts";
import type { RawColumn, RawTable, ReadOptions } from "./contract.ts";
import { badUtf8 } from "./decode.ts";
import { joinNotes, pieceNote } from "./pieceNotes.ts";
import type { PieceNote } from "./pieceNotes.ts";
import { pieceTimes } from "./pieceTimes.ts";
import { metadataOf } from "./preamble.ts";
import { opening, pathInside, readLog } from "./readLog.ts";
import { rowSlots } from "./rowReader.ts";
import { openText } from "./textOnDisk.ts";
import type { OpenedText } from "./textOnDisk.ts";
import { pieceReader } from "./textPieces.ts";
import type { TextPiece } from "./textPieces.ts";
import { rowFindings, rowIssues, textSource } from "./textTable.ts";

/** Rows of a log that is not held as a whole. From the second piece on, the first row is the last of the piece before, so that each step from row to row is in one piece. */
export type LogPiece = Pick<RawTable, "timesS" | "columns" | "startedAt" | "metadata">;

/** What is known of a log once all its rows were read. */
export type LogEnd = Omit<RawTable, "timesS" | "columns">;

interface PieceSize {
  /** smaller logs, and those that are no text, come as one piece */
  readonly leastBytes: number;
  readonly pieceBytes: number;
}

const usual: PieceSize = { leastBytes: 32 << 20, pieceBytes: 1 << 22 };

/**
 * Reads one log of a day folder piece by piece, for what does not fit into memory. It is read, checked and refused as
 * `readLog` does; once something is wrong no further piece is handed out, and the rest is read for its mistakes.
 *
 * @param onPiece  called with the pieces in their order
 * @returns        what is known at the end
 * @throws InputError with every issue found
 */
export async function logInPieces(folder: string, relativePath: string, options: ReadOptions, onPiece: (piece: LogPiece) => void, how = usual): Promise<LogEnd> {
  const path = pathInside(folder, relativePath);
  const fd = await opening(relativePath, () => openSync(path, "r"));
  try {
    const { size } = fstatSync(fd);
    const opened = size < how.leastBytes || size === 0 ? null : openText(fd, size, relativePath, options);
    if (opened !== null) return readPieces(opened, how.pieceBytes, onPiece);
  } finally {
    closeSync(fd);
  }
  const { timesS, columns, ...end } = await readLog(folder, relativePath, options);
  onPiece({ timesS, columns, startedAt: end.startedAt, metadata: end.metadata });
  return end;
}

function readPieces(opened: OpenedText, pieceBytes: number, onPiece: (piece: LogPiece) => void): LogEnd {
  const { log, file, firstRow, evidence } = opened;
  const { reading } = log.choice;
  const reader = pieceReader(log, file, pieceBytes);
  const hash = createHash("sha256");
  hashBetween(hash, file.fd, 0, firstRow.byte);
  const slots = rowSlots(log);
  const times = pieceTimes(log, slots.time);
  const metadata = metadataOf(reading);
  let note: PieceNote | null = null;
  let last: LogPiece | null = null;
  let piece: TextPiece;
  let from = firstRow;
  do {
    piece = reader.read(from, from.byte + pieceBytes);
    const { rows } = piece;
    hash.update(piece.bytes);
    const found = pieceNote({ ...rows, overloaded: [] }, piece.wellEncoded, 0, 0);
    note = note === null ? found : joinNotes([note, found]);
    if (note.issueCount === 0 && rows.count > 0) {
      const columns = log.choice.wanted.map(({ name, column }, index): RawColumn => {
        const slot = slots.wanted[index] as number;
        return { name, unit: reading.headings[column]?.unit ?? null, samples: (rows.columns[slot] as Float64Array).slice(), overloaded: rows.overloaded[slot] as readonly number[] };
      });
      const own: LogPiece = { timesS: times.of(rows), columns, startedAt: times.startedAt() ?? reader.stamps?.startedAt() ?? null, metadata };
      last = last === null ? own : behind(last, own);
      onPiece(last);
    }
    from = piece.next;
  } while (!piece.ends);
  hashBetween(hash, file.fd, from.byte, file.size);
  // What was handed out may have been read wrongly, so nothing is told apart afterwards.
  if (!note.wellEncoded && opened.onBadUtf8 !== "accept") throw new InputError([opened.onBadUtf8 === "refuse" ? badUtf8(log.fileName) : { code: "encoding-late", at: log.fileName, message: "expected UTF-8 throughout, as the log's first lines are, found later bytes that are not", hint: "Declare encoding: latin1 (or utf-8) for this logger in rig.yaml" }]);
  const issues = [...rowIssues(note, log.fileName, log.options), ...(note.issueCount === 0 ? times.issues() : [])];
  if (issues.length > 0) throw new InputError(issues);
  return {
    startedAt: last?.startedAt ?? null,
    metadata,
    evidence: [evidence, ...log.choice.evidence],
    source: textSource(log, note, { bytes: file.size, sha256: hash.digest("hex"), encoding: file.encoding, evidence }),
    findings: rowFindings({ ...note, midnights: reader.stamps?.midnights() ?? 0 }, log.fileName),
  };
}

/** A piece with the last row of the one before as its first. */
function behind(before: LogPiece, piece: LogPiece): LogPiece {
  const joined = (first: number, rest: Iterable<number> & { readonly length: number }): Float64Array => {
    const all = new Float64Array(rest.length + 1);
    all[0] = first;
    all.set(rest as Float64Array, 1);
    return all;
  };
  const end = before.timesS.length - 1;
  return {
    ...piece,
    timesS: joined(before.timesS[end] as number, piece.timesS),
    columns: piece.columns.map((column, index) => ({ ...column, samples: joined(before.columns[index]?.samples[end] as number, column.samples), overloaded: column.overloaded.map((row) => row + 1) })),
  };
}

function hashBetween(hash: Hash, fd: number, from: number, to: number): void {
  const buffer = Buffer.allocUnsafe(1 << 20);
  for (let at = from; at < to; ) {
    const got = readSync(fd, buffer, 0, Math.min(buffer.length, to - at), at);
    if (got === 0) return;
    hash.update(buffer.subarray(0, got));
    at += got;
  }
}
