import type { Issue } from "../core/errors.ts";
import { pieceChain } from "./pieceChain.ts";
import { pieceNote } from "./pieceNotes.ts";
import type { PieceNote } from "./pieceNotes.ts";
import type { TextLog } from "./rowReader.ts";
import type { StampOrigin } from "./stamps.ts";
import type { PieceReader, TextFileOnDisk } from "./textPieces.ts";

/** What a lane reads, and where it writes. */
export interface LaneTask {
  readonly log: TextLog;
  readonly file: TextFileOnDisk;
  readonly origin: StampOrigin | null;
  /** where the first piece starts; the others follow every so many bytes */
  readonly from: number;
  readonly pieceBytes: number;
  readonly pieces: number;
  readonly chain: SharedArrayBuffer;
  readonly columns: readonly Float64Array[];
  readonly stamps: Float64Array | null;
  readonly capacity: number;
}

export interface LaneResult {
  readonly notes: readonly { readonly piece: number; readonly note: PieceNote }[];
  /** the columns had no room for all rows */
  readonly full: boolean;
}

export type LaneAnswer = LaneResult | { readonly issues: readonly Issue[] };

/** Reads the pieces that no other lane has taken. A piece is read before it is known where it starts, and once more if that was guessed wrong. */
export function readLane(task: LaneTask, reader: PieceReader): LaneResult {
  const chain = pieceChain(task.chain);
  const notes: LaneResult["notes"][number][] = [];
  for (let piece = chain.take(); piece < task.pieces; piece = chain.take()) {
    const from = task.from + piece * task.pieceBytes;
    const to = Math.min(task.file.size, from + task.pieceBytes);
    try {
      const guessed = chain.isKnown(piece) ? null : reader.guess(from, to);
      const start = chain.wait(piece);
      if (start === null) break;
      // Messages name lines, so a piece with something to say is read with its lines known.
      const fits = guessed !== null && guessed.from === start.byte && guessed.rows.issueCount === 0;
      const read = fits ? guessed : reader.read(start, to);
      const { rows } = read;
      if (start.row + rows.count > task.capacity) {
        chain.stop(piece + 1);
        return { notes, full: true };
      }
      rows.columns.forEach((values, slot) => task.columns[slot]?.set(values, start.row));
      if (rows.stamps !== null) task.stamps?.set(rows.stamps, start.row);
      const line = fits ? start.line - 1 + read.next.line : read.next.line;
      notes.push({ piece, note: pieceNote(rows, read.wellEncoded, start.row, fits ? start.line - 1 : 0) });
      if (read.ends) chain.stop(piece + 1);
      else chain.say(piece + 1, { row: start.row + rows.count, byte: read.next.byte, line });
    } catch (error) {
      chain.stop(piece + 1);
      throw error;
    }
  }
  return { notes, full: false };
}
