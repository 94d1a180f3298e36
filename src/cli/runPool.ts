import { availableParallelism } from "node:os";
import { Piscina } from "piscina";
import type { Hands } from "../day.ts";
import type { CachePlace } from "./cache/cachePlace.ts";
import type { WheelSoilAnswer, WheelSoilHands, WheelSoilJob } from "../fitting/wheelSoilJobs.ts";
import hashTask from "./hashWorker.ts";
import type { RunAnswer } from "./runWorker.ts";
import type { ThreadTask } from "./threadBody.ts";

/** More threads than this gain little: the runs wait for the disk and for memory (common practice). */
const mostThreads = 8;
/** A day of fewer runs or files is done before threads have started. */
const fewest = 16;

/** Work that is shared out: run by run, or file by file. */
export interface Threads {
  readonly hands: (runs: number) => Hands;
  /** the long jobs of the wheel–soil models */
  readonly fits: (onJob: OnJob) => WheelSoilHands;
  /** what files are named by, in the order of the paths; null = cannot be read */
  readonly sha256: (folder: string, paths: readonly string[]) => Promise<readonly (string | null)[]>;
}

/** Told of each job of the wheel–soil models as it is done. */
export type OnJob = (done: number, total: number, job: WheelSoilJob) => void;

/** Runs a piece of work that may call for threads, and ends them afterwards. */
export async function withThreads<T>(cache: CachePlace | null, onNote: (note: string) => void, work: (threads: Threads) => Promise<T>): Promise<T> {
  const lanes = Math.min(availableParallelism(), mostThreads);
  let pool: Piscina | null = null;
  // The same file stands as .ts in the sources and as .js in the built package.
  const filename = new URL(import.meta.url.endsWith(".ts") ? "./threadBody.ts" : "./threadBody.js", import.meta.url).href;
  const inThread = (body: ThreadTask["body"], task: unknown): Promise<unknown> => {
    pool ??= new Piscina({ minThreads: lanes, maxThreads: lanes });
    return pool.run({ body, task } satisfies ThreadTask, { filename });
  };
  const threads: Threads = {
    hands(runs) {
      if (runs < fewest || lanes < 2) return { lanes: 1, reduce: async (...task) => (await import("./cache/cachedReduce.ts")).cachedReduce(cache, onNote)(...task) };
      return {
        lanes,
        reduce: async (folder, plan, wheel, rig, references) => {
          const { result, notes } = (await inThread("run", { folder, plan, wheel, rig, references, cache })) as RunAnswer;
          notes.forEach(onNote);
          return result;
        },
      };
    },
    fits: (onJob) => (jobs) => {
      let done = 0;
      return Promise.all(jobs.map(async (job) => {
        const answer = (await (lanes < 2 ? (await import("./fitWorker.ts")).default(job) : inThread("fit", job))) as WheelSoilAnswer;
        onJob(++done, jobs.length, job);
        return answer;
      }));
    },
    async sha256(folder, paths) {
      if (paths.length < fewest || lanes < 2) return hashTask({ folder, paths });
      const parts = Array.from({ length: lanes }, (_, lane) => paths.filter((_path, place) => place % lanes === lane));
      const hashes = await Promise.all(parts.map((part) => inThread("hash", { folder, paths: part }) as Promise<(string | null)[]>));
      return paths.map((_, place) => hashes[place % lanes]?.[Math.floor(place / lanes)] ?? null);
    },
  };
  try {
    return await work(threads);
  } finally {
    await (pool as Piscina | null)?.destroy();
  }
}
