import { parentPort, workerData } from "node:worker_threads";
import { InputError } from "../core/errors.ts";
import { readLane } from "./textLane.ts";
import type { LaneAnswer, LaneTask } from "./textLane.ts";
import { pieceReader } from "./textPieces.ts";

/** Body of a thread: its task comes with its start, and it ends with its answer. */
parentPort?.postMessage(answer(workerData as LaneTask));

function answer(task: LaneTask): LaneAnswer {
  try {
    return readLane(task, pieceReader(task.log, task.file, task.pieceBytes, task.origin));
  } catch (error) {
    if (error instanceof InputError) return { issues: error.issues };
    throw error;
  }
}
