import { statSync } from "node:fs";
import { InputError, UsageError } from "../core/errors.ts";
import { cachedReduce } from "./cache/cachedReduce.ts";
import { cachePlace, mostCacheBytes } from "./cache/cachePlace.ts";
import type { CacheOptions } from "./cache/cachePlace.ts";
import { trimStore } from "./cache/trimStore.ts";
import { exitCodes } from "./exitCodes.ts";
import { noteOnce } from "./progress.ts";
import { headline } from "./watch/latest.ts";
import { liveServer } from "./watch/server.ts";
import type { LiveServer } from "./watch/server.ts";
import { settleRule } from "./watch/settle.ts";
import { stateWords } from "./watch/stateWords.ts";
import { watchDay } from "./watch/watchDay.ts";

/** Reads each run as its files land and serves the live page, until Ctrl-C. */
export async function watchCommand(day: string, options: CacheOptions & { readonly port?: string; readonly settle?: string }): Promise<number> {
  const port = numberOption("--port", options.port ?? "0", "a whole number from 0 to 65535", (value) => Number.isInteger(value) && value >= 0 && value <= 65_535);
  const settleS = numberOption("--settle", options.settle ?? String(settleRule.settleMs / 1000), "a number of seconds above 0", (value) => value > 0);
  if (statSync(day, { throwIfNoEntry: false })?.isDirectory() !== true) throw new InputError([{ code: "no-day-folder", at: day, message: "expected a day folder with rig.yaml and runs.csv, found no folder that can be read", hint: "Check the path." }]);
  const ended = new AbortController();
  for (const name of ["SIGINT", "SIGTERM"] as const) process.once(name, () => ended.abort());
  const nowMs = (): number => performance.timeOrigin + performance.now();
  const note = noteOnce();
  // Runs are read on, and the page shown, though nothing can be printed: a full disk behind the output ends no watch.
  process.stdout.on("error", (error: NodeJS.ErrnoException) => note(`What the watch prints cannot be written (${error.code ?? error.message}); the live page goes on.`));
  const say = (text: string): void => void process.stdout.write(`${text}\n`);
  const clockText = (ms: number): string => new Date(ms).toTimeString().slice(0, 8);
  const cache = cachePlace(day, options);
  let server: Promise<LiveServer> | null = null;
  let fault: unknown = null;
  await watchDay(day, ended.signal, {
    rule: { ...settleRule, settleMs: settleS * 1000, longestSettleMs: Math.max(settleRule.longestSettleMs, settleS * 1000) },
    // Never jumps, unlike the wall clock, yet reads like it.
    nowMs,
    clockText,
    reduce: cachedReduce(cache, note),
    onView: (view, news) => {
      for (const card of news) say(`${clockText(nowMs())}  ${card.plan.id}  ${stateWords[card.state].word.toLowerCase()}${headline(card) === "" ? "" : `: ${headline(card)}`}`);
      if (server !== null) return void server.then((live) => live.show(view), () => undefined);
      server = liveServer(port, view);
      server.then((live) => say(`Live page: ${live.address}  (Ctrl-C ends)`), (error: unknown) => {
        fault = error;
        ended.abort();
      });
    },
  });
  if (cache !== null) trimStore(cache.folder, mostCacheBytes);
  if (fault !== null) throw fault;
  await (await (server as Promise<LiveServer> | null))?.close();
  say("Ended. No file of the day was written to.");
  return exitCodes.done;
}

function numberOption(name: string, text: string, expected: string, holds: (value: number) => boolean): number {
  const value = text.trim() === "" ? Number.NaN : Number(text);
  if (!holds(value)) throw new UsageError(`${name}: expected ${expected}, found “${text}”.`);
  return value;
}
