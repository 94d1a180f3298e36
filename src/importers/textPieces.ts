import { readSync } from "node:fs";
import { InputError } from "../core/errors.ts";
import { textOf, validUtf8 } from "./decode.ts";
import type { Encoding } from "./decode.ts";
import { numericRows } from "./numericRows.ts";
import type { Rows } from "./numericRows.ts";
import { roomFor } from "./rowRoom.ts";
import type { RowRoom } from "./rowRoom.ts";
import { rowReader } from "./rowReader.ts";
import type { TextLog } from "./rowReader.ts";
import type { RowStamps } from "./datedStamps.ts";
import type { StampOrigin } from "./stamps.ts";

/** A line is usually shorter than this, and so the one at a piece's end is read to its own end at once. */
const usualLine = 1 << 16;
/** A line that a logger wrote is never this long; a damaged file may hold none that ends. */
const longestLine = 1 << 19;
/** Bytes behind a row's line in which a cell that runs over the line's end may close. */
const joinReach = 1 << 17;

/** A text log on the disk. Positions are bytes of the file. */
export interface TextFileOnDisk {
  readonly fd: number;
  readonly size: number;
  readonly encoding: Encoding;
}

/** Where a line starts, and its number. */
export interface LineStart {
  readonly byte: number;
  readonly line: number;
}

export interface TextPiece {
  /** numbers stand in the reader's room until the next piece is read */
  readonly rows: Rows;
  readonly from: number;
  readonly next: LineStart;
  /** no whole line follows */
  readonly ends: boolean;
  readonly bytes: Uint8Array;
  /** whether the bytes are what the encoding says */
  readonly wellEncoded: boolean;
}

export interface PieceReader {
  readonly stamps: RowStamps | null;
  /** the rows whose lines start at `from` or later, and before `to`. @throws InputError for a line that does not end */
  read(from: LineStart, to: number): TextPiece;
  /** the same from the first line that starts between the two, its number taken for 1; null where none does */
  guess(from: number, to: number): TextPiece | null;
}

/** Reads a text log piece by piece, none longer than `pieceBytes` but for the rest of its last line, into one buffer. */
export function pieceReader(log: TextLog, file: TextFileOnDisk, pieceBytes: number, origin: StampOrigin | null = null): PieceReader {
  // What lies behind the usual line is touched, and so takes memory, only where a line is longer.
  const buffer = Buffer.allocUnsafeSlow(pieceBytes + longestLine + joinReach + 1);
  const { plan, stamps } = rowReader(log, { bytes: buffer, text: textOf(buffer, file.encoding) }, origin);
  let room: RowRoom | null = null;

  function load(base: number, to: number): number {
    const usual = fill(file, buffer.subarray(0, to - base + usualLine + joinReach), base);
    const end = lineEnd(buffer.subarray(0, usual), to - base - 1);
    return end >= 0 && end < usual - joinReach ? usual : fill(file, buffer, base);
  }

  function rowsFrom(base: number, loaded: number, firstByte: number, firstLine: number, to: number): TextPiece {
    const bytes = buffer.subarray(0, loaded);
    const rowsBefore = to - base;
    const whole = base + loaded >= file.size || (lineEnd(bytes, rowsBefore - 1) < 0 && !endsLater(file, base + loaded, log.fileName));
    const task = { ...plan, bytes, firstByte, firstLine, rowsBefore };
    room ??= roomFor(task);
    const rows = numericRows(task, room);
    const ends = whole && lineEnd(bytes, rows.nextByte) < 0;
    const used = bytes.subarray(firstByte, ends ? loaded : rows.nextByte);
    return {
      rows: ends ? rows : { ...rows, cutLine: null },
      from: base + firstByte,
      next: { byte: base + rows.nextByte, line: rows.nextLine },
      ends,
      bytes: bytes.subarray(firstByte, rows.nextByte),
      wellEncoded: file.encoding !== "utf-8" || validUtf8(used),
    };
  }

  return {
    stamps,
    read(from, to) {
      const until = Math.max(to, from.byte);
      return rowsFrom(from.byte, load(from.byte, until), 0, from.line, until);
    },
    guess(from, to) {
      // One byte earlier, since it tells whether a line starts at `from`.
      const loaded = load(from - 1, to);
      const before = lineEnd(buffer.subarray(0, loaded), 0);
      const first = buffer[before] === CR && buffer[before + 1] === LF ? before + 2 : before + 1;
      if (before < 0 || from - 1 + first >= to) return null;
      return rowsFrom(from - 1, loaded, first, 1, to);
    },
  };
}

const LF = 10;
const CR = 13;

/** First byte at or after `from` that ends a line; -1 where none does. */
function lineEnd(bytes: Uint8Array, from: number): number {
  for (let p = Math.max(0, from); p < bytes.length; p++) if (bytes[p] === LF || bytes[p] === CR) return p;
  return -1;
}

/** As many bytes from `from` on as the buffer takes. */
function fill({ fd }: TextFileOnDisk, buffer: Uint8Array, from: number): number {
  let loaded = 0;
  for (;;) {
    const got = readSync(fd, buffer, loaded, buffer.length - loaded, from + loaded);
    loaded += got;
    if (got === 0 || loaded === buffer.length) return loaded;
  }
}

/** Whether a line ends behind a stretch without line ends: then it is no line of a log, else it is the log's cut end. */
function endsLater(file: TextFileOnDisk, from: number, fileName: string): boolean {
  const part = Buffer.allocUnsafe(1 << 16);
  for (let at = from; at < file.size; at += part.length) {
    const end = lineEnd(part.subarray(0, fill(file, part, at)), 0);
    if (end < 0) continue;
    throw new InputError([{ code: "endless-line", at: `${fileName}, byte ${at + end}`, message: `expected lines of less than ${longestLine} bytes, found a longer one that ends here`, hint: "Copy the log again, or exclude the run in runs.csv" }]);
  }
  return false;
}
