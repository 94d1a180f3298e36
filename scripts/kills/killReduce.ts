import { cpSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { seededRandom } from "../../src/numerics/random.ts";
import { reportFiles } from "../../src/report/writeTogether.ts";
import { differences, fileStates } from "./fileStates.ts";
import { start } from "./program.ts";

/** What came of killing a command many times. */
export interface Killed {
  readonly command: string;
  /** kills that struck before the command had ended by itself */
  readonly struck: number;
  /** runs begun for them: some end before their moment comes */
  readonly begun: number;
  /** kills after which output stood there that was not there before: while or after it was written */
  readonly whileWriting: number;
  readonly faults: readonly string[];
}

/** Runs begun for each kill, at most. */
export const mostTries = 4;

/** What an output folder says: nothing yet, or one whole report. @throws Error for a torn one */
function stateOf(out: string): "none" | "whole" {
  const folder = existsSync(out) ? out : existsSync(`${out}.drawbar-previous`) ? `${out}.drawbar-previous` : null;
  if (folder === null) return "none";
  const present = readdirSync(folder);
  const missing = reportFiles.filter((name) => !present.includes(name));
  if (missing.length > 0) throw new Error(`${folder} lacks ${missing.join(", ")}`);
  JSON.parse(readFileSync(join(folder, "results.json"), "utf8"));
  if (!readFileSync(join(folder, "report.html"), "utf8").trimEnd().endsWith("</html>")) throw new Error(`${folder}/report.html ends early`);
  return "whole";
}

/** All but the page, which says when it was made. */
const results = (out: string): ReadonlyMap<string, string> => new Map([...fileStates(out, false)].filter(([name]) => name !== "report.html"));

/** Kills `reduce` so many times at moments spread over its run; every second time over an earlier report. The last run of each pair must give the unkilled run's bytes. */
export async function killReduce(source: string, times: number, useBuilt: boolean, seed = 1): Promise<Killed> {
  const root = mkdtempSync(join(tmpdir(), "drawbar-kills-"));
  const [day, beside, cache] = [join(root, "day"), join(root, "results"), join(root, "cache")];
  const out = join(beside, "out");
  const args = ["reduce", day, "--out", out, "--quiet", "--cache", cache];
  cpSync(source, day, { recursive: true, preserveTimestamps: true });
  const before = fileStates(day, true);
  const random = seededRandom(seed);
  const faults: string[] = [];
  let struck = 0;
  let begun = 0;
  let whileWriting = 0;
  try {
    const whole = await start(args, useBuilt).ended;
    if (whole.code === null || whole.code > 1) throw new Error(`reduce ended with ${whole.code}: ${whole.printed}`);
    const wanted = results(out);
    for (let time = 0; struck < times; time++) {
      // What another process makes slow or fast shifts every moment; a machine on which none strikes is told of.
      if (++begun > mostTries * times) throw new Error(`only ${struck} of ${begun} kills struck before reduce ended by itself`);
      if (time % 2 === 0) rmSync(out, { recursive: true, force: true });
      // What a killed run has kept is left for the runs after it, now and then.
      if (time % 3 !== 2) rmSync(cache, { recursive: true, force: true });
      const had = existsSync(out);
      // Half of the kills go into the last fifth, where files are written.
      const part = time % 4 < 2 ? random.uniform() : 0.8 + 0.25 * random.uniform();
      const run = start(args, useBuilt);
      setTimeout(() => run.child.kill("SIGKILL"), part * whole.ms);
      if ((await run.ended).signal === "SIGKILL") struck++;
      const say = (what: string): void => void faults.push(`reduce, kill ${time + 1} at ${(100 * part).toFixed(0)} % of the run: ${what}`);
      try {
        if ((existsSync(beside) ? readdirSync(beside) : []).some((name) => /drawbar-(new|previous)/.test(name)) || (!had && existsSync(out))) whileWriting++;
        if (stateOf(out) === "none" && had) say("the earlier report is gone");
      } catch (error) {
        say((error as Error).message);
      }
      const touched = differences(before, fileStates(day, true));
      if (touched.length > 0) say(`input changed: ${touched.join(", ")}`);
      // The next run takes up what is left; to do so after every kill would double the time and show the same.
      if (time % 5 === 4 || struck === times) {
        const next = await start(args, useBuilt).ended;
        if (next.code !== whole.code) say(`the next run ended with ${next.code}: ${next.printed}`);
        else if (differences(wanted, results(out)).length > 0) say(`the next run differs in ${differences(wanted, results(out)).join(", ")}`);
        else if (readdirSync(beside).length > 1) say(`left beside the report: ${readdirSync(beside).join(", ")}`);
      }
    }
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
  return { command: "reduce", struck, begun, whileWriting, faults };
}
