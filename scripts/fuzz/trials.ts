import { fork } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import { fileURLToPath } from "node:url";
import type { Said } from "./trialProcess.ts";

/** Bounds that every reading keeps: README states them. */
export const bounds = { restMb: 300, perByte: 24, seconds: 20 } as const;
/** A busy machine is slow. */
const wallSeconds = 6 * bounds.seconds;

export function mostMb(bytes: number): number {
  return bounds.restMb + (bounds.perByte * bytes) / 1e6;
}

export interface Failure {
  readonly seed: number;
  readonly how: string;
  readonly what: string;
}

/** What came of the trials of one reader. */
export interface Tally {
  trials: number;
  read: number;
  refused: number;
  readonly failures: Failure[];
  slowest: { s: number; seed: number };
  peak: { mb: number; seed: number };
}

/** Trials of one reader, one seed after the other, until the time is over. A process that hangs or dies is replaced. */
export async function runTrials(target: string, firstSeed: number, seconds: number): Promise<Tally> {
  const tally: Tally = { trials: 0, read: 0, refused: 0, failures: [], slowest: { s: 0, seed: 0 }, peak: { mb: 0, seed: 0 } };
  const until = performance.now() + seconds * 1000;
  let child: ChildProcess | null = null;
  for (let seed = firstSeed; performance.now() < until; seed++) {
    child ??= fork(fileURLToPath(new URL("trialProcess.ts", import.meta.url)), { execArgv: ["--import", "tsx", "--expose-gc"], stdio: ["ignore", "ignore", "pipe", "ipc"] });
    const said = await askedOnce(child, target, seed);
    tally.trials++;
    if (typeof said === "string") {
      tally.failures.push({ seed, how: "", what: said });
      child.kill("SIGKILL");
      child = null;
      continue;
    }
    const { verdict, how, bytes, cpuS, peakMb } = said;
    if (verdict.kind === "failure") tally.failures.push({ seed, how, what: verdict.what });
    else if (peakMb > mostMb(bytes)) tally.failures.push({ seed, how, what: `${peakMb.toFixed(0)} MB for ${bytes} bytes, more than ${mostMb(bytes).toFixed(0)} MB` });
    else if (cpuS > bounds.seconds) tally.failures.push({ seed, how, what: `${cpuS.toFixed(1)} s of work, more than ${bounds.seconds} s` });
    else tally[verdict.kind]++;
    if (cpuS > tally.slowest.s) tally.slowest = { s: cpuS, seed };
    if (peakMb > tally.peak.mb) tally.peak = { mb: peakMb, seed };
  }
  child?.kill("SIGKILL");
  return tally;
}

/** The child's answer, or how it failed to give one. */
function askedOnce(child: ChildProcess, target: string, seed: number): Promise<Said | string> {
  return new Promise((done) => {
    let complaint = "";
    const onComplaint = (chunk: Buffer): void => void (complaint = (complaint + chunk.toString()).slice(-4000));
    const end = (said: Said | string): void => {
      clearTimeout(timer);
      child.off("message", onSaid).off("exit", onExit);
      child.stderr?.off("data", onComplaint);
      done(said);
    };
    const onSaid = (said: unknown): void => end(said as Said);
    const onExit = (code: number | null, signal: string | null): void => end(`the process died (${signal ?? code}): ${complaint}`);
    const timer = setTimeout(() => end(`no answer within ${wallSeconds} s`), wallSeconds * 1000);
    child.on("message", onSaid).on("exit", onExit);
    child.stderr?.on("data", onComplaint);
    child.send({ target, seed });
  });
}
