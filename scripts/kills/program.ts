import { spawn } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import { existsSync } from "node:fs";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));
const built = `${root}dist/cli/main.js`;

/** The built program where `--built` was asked for and it is there, else the sources. */
export function programArguments(useBuilt: boolean): string[] {
  return useBuilt && existsSync(built) ? [built] : ["--import", "tsx", `${root}src/cli/main.ts`];
}

export interface Ended {
  readonly code: number | null;
  readonly signal: string | null;
  readonly ms: number;
  readonly printed: string;
}

export interface Started {
  readonly child: ChildProcess;
  readonly printed: () => string;
  readonly ended: Promise<Ended>;
}

/** Starts drawbar as a program of its own. */
export function start(args: readonly string[], useBuilt: boolean): Started {
  const from = performance.now();
  const child = spawn(process.execPath, [...programArguments(useBuilt), ...args], { cwd: root, stdio: ["ignore", "pipe", "pipe"] });
  let printed = "";
  const take = (chunk: Buffer): void => void (printed += chunk.toString());
  child.stdout.on("data", take);
  child.stderr.on("data", take);
  const ended = new Promise<Ended>((done) => child.on("close", (code, signal) => done({ code, signal, ms: performance.now() - from, printed })));
  return { child, printed: () => printed, ended };
}
