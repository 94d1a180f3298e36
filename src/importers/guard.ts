import type { Worker } from "node:worker_threads";
import { InputError } from "../core/errors.ts";
import type { Issue } from "../core/errors.ts";
import type { Importer, LogContents, RawTable, ReadOptions } from "./contract.ts";
import type { FormatName } from "./guardBody.ts";
import { startWorker } from "./startWorker.ts";

/** What is asked of the thread. */
export interface GuardTask {
  readonly id: number;
  readonly format: FormatName;
  readonly bytes: Uint8Array;
  readonly fileName: string;
  /** null = say what is inside */
  readonly options: ReadOptions | null;
}

export type GuardAnswer = { readonly id: number } & ({ readonly result: RawTable | LogContents } | { readonly issues: readonly Issue[] } | { readonly fault: string });

/** Bounds on one reading: a damaged file can make a library count to billions or allocate without end. */
export interface GuardLimits {
  /** for a small file; larger ones get more */
  readonly heapMb: number;
  readonly baseS: number;
  readonly perMegabyteS: number;
}

const usualLimits: GuardLimits = { heapMb: 256, baseS: 9, perMegabyteS: 1 };

/** Memory grows with the file in steps, so that files of like size share a thread. */
function heapFor(bytes: number, { heapMb }: GuardLimits): number {
  const wanted = heapMb + (16 * bytes) / 1e6;
  return Math.min(8192, heapMb * 2 ** Math.ceil(Math.log2(wanted / heapMb / 1.0625)));
}

/** Reads in a thread of its own, so that what a library does with a damaged file ends with that file. */
export function guardedImporter(format: FormatName, sniff: Importer["sniff"], limits = usualLimits): Importer {
  return {
    format,
    sniff,
    read: (bytes, fileName, options) => ask({ format, bytes, fileName, options }, limits) as Promise<RawTable>,
    contents: (bytes, fileName) => ask({ format, bytes, fileName, options: null }, limits) as Promise<LogContents>,
  };
}

/** A thread and what it is doing. */
interface Thread {
  readonly worker: Worker;
  readonly heapMb: number;
  onAnswer: (answer: GuardAnswer) => void;
  onEnd: (what: string) => void;
}

let idle: Thread | null = null;
let tasks = 0;

function startThread(heapMb: number): Thread {
  if (idle !== null && idle.heapMb === heapMb) {
    const thread = idle;
    idle = null;
    return thread;
  }
  const options = { resourceLimits: { maxOldGenerationSizeMb: heapMb, maxYoungGenerationSizeMb: 32 }, stdout: true, stderr: true };
  const worker = startWorker("guardBody", options);
  const thread: Thread = { worker, heapMb, onAnswer: () => undefined, onEnd: () => undefined };
  worker.on("message", (answer: GuardAnswer) => thread.onAnswer(answer));
  worker.on("error", (error: NodeJS.ErrnoException) => thread.onEnd(error.code === "ERR_WORKER_OUT_OF_MEMORY" ? `reading it takes more than ${heapMb} MB of memory` : error.message.slice(0, 160)));
  worker.on("exit", () => {
    if (idle === thread) idle = null;
    thread.onEnd("the reader ended before it was done");
  });
  return thread;
}

async function ask(task: Omit<GuardTask, "id">, limits: GuardLimits): Promise<RawTable | LogContents> {
  if (task.bytes.length === 0) throw new InputError([{ code: "empty-file", at: task.fileName, message: "expected a log, found an empty file", hint: "Copy the log again, or exclude the run in runs.csv" }]);
  const id = ++tasks;
  const thread = startThread(heapFor(task.bytes.length, limits));
  const seconds = limits.baseS + (limits.perMegabyteS * task.bytes.length) / 1e6;
  let timer: NodeJS.Timeout | undefined;
  try {
    const answer = await new Promise<GuardAnswer>((resolve, reject) => {
      thread.onAnswer = (said) => {
        if (said.id === id) resolve(said);
      };
      thread.onEnd = (what) => reject(damaged(task, what));
      timer = setTimeout(() => thread.onEnd(`it was not read within ${Math.round(seconds)} s`), seconds * 1000);
      thread.worker.ref();
      thread.worker.postMessage({ ...task, id } satisfies GuardTask);
    });
    thread.worker.unref();
    if (idle === null) idle = thread;
    else void thread.worker.terminate();
    if ("result" in answer) return answer.result;
    throw "issues" in answer ? new InputError(answer.issues) : new Error(answer.fault);
  } catch (error) {
    // What a thread that failed holds cannot be trusted, or it does not end by itself.
    if (idle !== thread) void thread.worker.terminate();
    throw error;
  } finally {
    clearTimeout(timer);
    thread.onAnswer = () => undefined;
    thread.onEnd = () => undefined;
  }
}

function damaged(task: Omit<GuardTask, "id">, what: string): InputError {
  return new InputError([{ code: "damaged-file", at: task.fileName, message: `expected a whole ${task.format} file, found one that cannot be read: ${what}`, hint: "Copy the log again, or exclude the run in runs.csv" }]);
}
