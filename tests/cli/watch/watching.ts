import { spawn } from "node:child_process";
import type { ChildProcess } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readdirSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const root = fileURLToPath(new URL("../../../", import.meta.url));
export const excerpt = join(root, "fixtures", "excerpt-day");

/** A copy of the excerpt day without its logs, in a folder of its own. */
export function emptyDay(): string {
  const day = join(mkdtempSync(join(tmpdir(), "drawbar-watch-")), "day");
  mkdirSync(join(day, "logs"), { recursive: true });
  for (const file of readdirSync(excerpt)) if (/\.(csv|yaml)$/.test(file)) cpSync(join(excerpt, file), join(day, file));
  return day;
}

export interface Watching {
  readonly process: ChildProcess;
  readonly address: string;
  /** what the program has printed so far */
  readonly printed: () => string;
  /** ends it as Ctrl-C does; its exit code */
  readonly end: () => Promise<number | null>;
}

/** Starts `drawbar watch` as a program of its own and waits for its page. */
export async function startWatch(day: string, options: readonly string[] = []): Promise<Watching> {
  const child = spawn(process.execPath, ["--import", "tsx", join(root, "src", "cli", "main.ts"), "watch", day, ...options], { cwd: root, stdio: ["ignore", "pipe", "pipe"] });
  let printed = "";
  child.stdout.on("data", (chunk: Buffer) => (printed += chunk.toString()));
  child.stderr.on("data", (chunk: Buffer) => (printed += chunk.toString()));
  const ended = new Promise<number | null>((done) => child.on("exit", (code) => done(code)));
  const address = await new Promise<string>((done, failed) => {
    const look = setInterval(() => {
      const found = /http:\S+/.exec(printed)?.[0];
      if (found === undefined) return;
      clearInterval(look);
      done(found);
    }, 50);
    void ended.then(() => {
      clearInterval(look);
      failed(new Error(`watch ended before its page was there: ${printed}`));
    });
  });
  return {
    process: child,
    address,
    printed: () => printed,
    end: () => {
      child.kill("SIGINT");
      return ended;
    },
  };
}
