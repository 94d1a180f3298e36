import { closeSync, fstatSync, openSync } from "node:fs";
import { availableParallelism } from "node:os";
import { isMainThread } from "node:worker_threads";
import { InputError } from "../core/errors.ts";
import type { RawTable, ReadOptions } from "./contract.ts";
import { badUtf8 } from "./decode.ts";
import { fileHash } from "./fileHash.ts";
import { chainBytes, pieceChain } from "./pieceChain.ts";
import { joinNotes } from "./pieceNotes.ts";
import { rowSlots } from "./rowReader.ts";
import { startWorker } from "./startWorker.ts";
import { readLane } from "./textLane.ts";
import type { LaneAnswer, LaneResult, LaneTask } from "./textLane.ts";
import { openText, tooLarge } from "./textOnDisk.ts";
import type { OpenedText } from "./textOnDisk.ts";
import { pieceReader } from "./textPieces.ts";
import { textTable } from "./textTable.ts";
import type { LogRows } from "./textTable.ts";

/** How large logs are read. */
export interface LargeReading {
  readonly lanes: number;
  /** smaller logs are read whole: they are done before threads have started */
  readonly leastBytes: number;
  /** large against a line, small against memory */
  readonly pieceBytes: number;
}

/** More lanes than this wait for memory (common practice). Only the main thread starts any, so that threads do not start threads. */
const mostLanes = 4;
const usual: LargeReading = { lanes: isMainThread ? Math.min(mostLanes, availableParallelism()) : 1, leastBytes: 32 << 20, pieceBytes: 1 << 20 };
/** No file is read whole beyond this. */
const mostWholeBytes = 2 ** 31 - 1;
/** Room beyond what the first piece promises; what stays empty costs address space only. */
const spare = 1.25;

/**
 * Reads a large text log into its columns without holding its bytes: pieces side by side, on all cores where this is the
 * main thread. What comes out is what reading it whole gives.
 *
 * @returns null where the file is small or must be read whole
 * @throws InputError with every issue found
 */
export async function readLargeText(path: string, fileName: string, options: ReadOptions, how = usual): Promise<RawTable | null> {
  const fd = openSync(path, "r");
  try {
    const { size } = fstatSync(fd);
    if (size < how.leastBytes || size === 0) return null;
    const opened = openText(fd, size, fileName, options);
    if (opened === null) {
      if (size > mostWholeBytes) throw new InputError([tooLarge(fileName)]);
      return null;
    }
    return (await read(opened, how)) ?? (await read(openText(fd, size, fileName, options, "latin1") as OpenedText, how)) as RawTable;
  } finally {
    closeSync(fd);
  }
}

/** null = the bytes are no UTF-8 after all. */
async function read(opened: OpenedText, how: LargeReading): Promise<RawTable | null> {
  const { log, file } = opened;
  const unwanted = new AbortController();
  const hashed = fileHash(file.fd, file.size, unwanted.signal);
  try {
    let tried = await readRows(opened, how, 0);
    while ("capacity" in tried) tried = await readRows(opened, how, tried.capacity);
    if (!tried.wellEncoded && opened.onBadUtf8 === "readAsLatin1") return null;
    if (!tried.wellEncoded && opened.onBadUtf8 === "refuse") throw new InputError([badUtf8(log.fileName)]);
    return textTable(log, tried.rows, { bytes: file.size, sha256: await hashed, encoding: file.encoding, evidence: opened.evidence });
  } finally {
    // The file is closed behind this, so nobody may still be reading it.
    unwanted.abort();
    await hashed.catch(() => undefined);
  }
}

async function readRows({ log, file, firstRow }: OpenedText, { lanes: most, pieceBytes }: LargeReading, least: number): Promise<{ rows: LogRows; wellEncoded: boolean } | { capacity: number }> {
  const reader = pieceReader(log, file, pieceBytes);
  // The first piece tells how many rows there will be, and where the stamps of all others count from.
  const first = reader.read(firstRow, firstRow.byte + pieceBytes);
  const share = (file.size - firstRow.byte) / Math.max(1, first.next.byte - first.from);
  const capacity = Math.max(least, Math.ceil(first.rows.count * (first.ends ? 1 : share * spare)) + 1000);
  const pieces = Math.max(1, Math.ceil((file.size - firstRow.byte) / pieceBytes));
  const numbers = (): Float64Array => new Float64Array(new SharedArrayBuffer(8 * capacity));
  const task: LaneTask = { log, file, origin: reader.stamps?.origin() ?? null, from: firstRow.byte, pieceBytes, pieces, chain: new SharedArrayBuffer(chainBytes(pieces)), columns: rowSlots(log).names.map(numbers), stamps: reader.stamps === null ? null : numbers(), capacity };
  pieceChain(task.chain).say(0, { row: 0, ...firstRow });
  const lanes = first.ends || reader.stamps?.countsMidnights === true ? 1 : most;
  // Stamps without a date remember the row before, so the lane that reads all rows reads them once.
  const alone = lanes < 2 ? pieceReader(log, file, pieceBytes) : null;
  const results = alone !== null ? [readLane(task, alone)] : await Promise.all(Array.from({ length: lanes }, () => lane(task)));
  if (results.some(({ full }) => full)) return { capacity: Math.ceil(capacity * 1.5) };
  const inOrder = results.flatMap(({ notes }) => notes).sort((a, b) => a.piece - b.piece);
  const { wellEncoded, ...note } = joinNotes(inOrder.map((one) => one.note));
  const filled = (values: Float64Array): Float64Array => values.subarray(0, note.count);
  return { rows: { ...note, columns: task.columns.map(filled), stamps: task.stamps === null ? null : filled(task.stamps), startedAt: reader.stamps?.startedAt() ?? null, midnights: alone?.stamps?.midnights() ?? 0 }, wellEncoded };
}

/** One lane in a thread of its own. */
function lane(task: LaneTask): Promise<LaneResult> {
  return new Promise((resolve, reject) => {
    const worker = startWorker("textLaneBody", { workerData: task, resourceLimits: { maxYoungGenerationSizeMb: 2 } });
    let done = false;
    const failed = (error: Error): void => {
      if (!done) pieceChain(task.chain).stop(0);
      reject(error);
    };
    worker.on("message", (said: LaneAnswer) => {
      done = "notes" in said;
      if ("notes" in said) resolve(said);
      else failed(new InputError(said.issues));
    });
    worker.on("error", failed);
    worker.on("exit", () => failed(new Error(`a reading thread of ${task.log.fileName} ended before it was done`)));
  });
}
