import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { seededRandom } from "../../src/numerics/random.ts";
import { differences, fileStates } from "./fileStates.ts";
import { mostTries } from "./killReduce.ts";
import type { Killed } from "./killReduce.ts";
import { start } from "./program.ts";
import type { Started } from "./program.ts";

/** Lines that name a run and its verdict, without the clock's time. */
const verdicts = (text: string): string[] => text.split("\n").flatMap((line) => /^\d\d:\d\d:\d\d {2}(.*)$/.exec(line)?.[1] ?? []).sort();

/** Watches until so many runs have a verdict; the milliseconds it took. */
async function watched(run: Started, runs: number): Promise<number> {
  const from = performance.now();
  while (verdicts(run.printed()).length < runs) {
    if (run.child.exitCode !== null || performance.now() - from > 120_000) throw new Error(`watch did not read its ${runs} runs: ${run.printed()}`);
    await new Promise((done) => setTimeout(done, 20));
  }
  return performance.now() - from;
}

/** Kills `watch` at moments spread over its first readings, while a log lands anew; the next watch must say what the unkilled one said. */
export async function killWatch(source: string, times: number, useBuilt: boolean, seed = 2): Promise<Killed> {
  const root = mkdtempSync(join(tmpdir(), "drawbar-kills-"));
  const day = join(root, "day");
  cpSync(source, day, { recursive: true, preserveTimestamps: true });
  const [log] = readdirSync(join(day, "logs")).sort().reverse() as [string];
  const bytes = readFileSync(join(day, "logs", log));
  /** everything but the file that the logger writes */
  const others = (): ReadonlyMap<string, string> => new Map([...fileStates(day, true)].filter(([name]) => !name.endsWith(log)));
  const before = others();
  const random = seededRandom(seed);
  const faults: string[] = [];
  let struck = 0;
  let begun = 0;
  let whileReading = 0;
  const args = ["watch", day, "--settle", "0.2", "--cache", join(root, "cache")];
  const runs = readFileSync(join(day, "runs.csv"), "utf8").trim().split("\n").length - 1;
  try {
    const first = start(args, useBuilt);
    const wholeMs = await watched(first, runs);
    first.child.kill("SIGINT");
    const wanted = verdicts((await first.ended).printed);
    for (let time = 0; struck < times; time++) {
      if (++begun > mostTries * times) throw new Error(`only ${struck} of ${begun} kills struck before watch ended by itself`);
      const part = random.uniform() * 1.1;
      const run = start(args, useBuilt);
      // The logger writes its file again while the program looks on.
      const landing = setTimeout(() => writeFileSync(join(day, "logs", log), bytes), part * wholeMs * 0.5);
      setTimeout(() => run.child.kill("SIGKILL"), part * wholeMs);
      const { signal, printed } = await run.ended;
      clearTimeout(landing);
      writeFileSync(join(day, "logs", log), bytes);
      if (signal === "SIGKILL") struck++;
      if (/Live page/.test(printed)) whileReading++;
      const say = (what: string): void => void faults.push(`watch, kill ${time + 1} at ${(100 * part).toFixed(0)} % of the first readings: ${what}`);
      const touched = differences(before, others());
      if (touched.length > 0) say(`files changed or made: ${touched.join(", ")}`);
      if (time % 10 === 9 || struck === times) {
        const next = start(args, useBuilt);
        await watched(next, runs);
        next.child.kill("SIGINT");
        const { code, printed: said } = await next.ended;
        if (code !== 0) say(`the next watch ended with ${code}`);
        if (verdicts(said).join("\n") !== wanted.join("\n")) say(`the next watch says otherwise:\n${said}`);
        if (!readFileSync(join(day, "logs", log)).equals(bytes)) say(`${log} changed`);
      }
    }
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
  return { command: "watch", struck, begun, whileWriting: whileReading, faults };
}
