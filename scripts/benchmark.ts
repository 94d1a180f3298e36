// Speed of `drawbar reduce` against pandas + SciPy on the same day, interleaved in one run.
// Usage: npx tsx scripts/benchmark.ts [--rounds 3] [--scale 3] [--day FOLDER]   (python3-pandas and python3-scipy from Debian)
import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { cpus, tmpdir, totalmem } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { readCampaign } from "../src/campaign/readCampaign.ts";
import { makeDay } from "./demo/makeDay.ts";

interface Timing {
  readonly seconds: number;
  readonly peakMb: number;
}

/** Runs a program; wall time, and peak memory of the process and its threads as the kernel counts it. */
function timed(program: string, args: readonly string[]): Promise<Timing> {
  return new Promise((resolve, reject) => {
    const started = process.hrtime.bigint();
    const child = spawn(program, args, { stdio: ["ignore", "ignore", "inherit"] });
    let peakKb = 0;
    const watch = setInterval(() => {
      try {
        const status = readFileSync(`/proc/${child.pid}/status`, "utf8");
        peakKb = Math.max(peakKb, Number(/VmHWM:\s+(\d+)/.exec(status)?.[1] ?? 0));
      } catch {
        // The process has just ended.
      }
    }, 20);
    child.on("error", reject);
    child.on("exit", (code) => {
      clearInterval(watch);
      const seconds = Number(process.hrtime.bigint() - started) / 1e9;
      // drawbar ends with 1 when runs are rejected, as some of the demo day are on purpose.
      if (code === null || code > 1) reject(new Error(`${program} ${args[0]} ended with ${code}`));
      else resolve({ seconds, peakMb: peakKb / 1024 });
    });
  });
}

const { values } = parseArgs({ options: { rounds: { type: "string", default: "3" }, scale: { type: "string", default: "3" }, day: { type: "string" } } });
if (!existsSync("dist/cli/main.js")) throw new Error("dist is missing; run `npm run build` first");
const scratch = mkdtempSync(join(tmpdir(), "drawbar-benchmark-"));
const day = values.day ?? join(scratch, "day");
if (values.day === undefined) makeDay(day, { seed: 11, scale: Number(values.scale), faults: false });
const bytes = readdirSync(join(day, "logs")).reduce((sum, name) => sum + statSync(join(day, "logs", name)).size, 0);

const { rig, runs } = readCampaign(day);
const settings = join(scratch, "settings.json");
const encoder = rig.encoder as NonNullable<typeof rig.encoder>;
writeFileSync(settings, JSON.stringify({ matrix: rig.sixAxis?.matrix, zeroS: rig.zero?.beforeS, rollover: encoder.rollover, countsPerWheelTurn: encoder.countsPerRevolution * encoder.gear, filterClass: rig.drop?.filterClass }));

const drawbar: Timing[] = [];
const pandas: Timing[] = [];
for (let round = 0; round < Number(values.rounds); round++) {
  drawbar.push(await timed(process.execPath, ["dist/cli/main.js", "reduce", day, "--out", join(scratch, "out"), "--quiet", "--no-cache"]));
  pandas.push(await timed("/usr/bin/python3", ["scripts/benchmark/pandasDay.py", day, settings, join(scratch, "pandas.csv")]));
  process.stdout.write(`round ${round + 1}: drawbar ${drawbar.at(-1)?.seconds.toFixed(2)} s, pandas + SciPy ${pandas.at(-1)?.seconds.toFixed(2)} s\n`);
}
const median = (numbers: readonly number[]): number => [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)] as number;
const ratios = drawbar.map((own, round) => (pandas[round] as Timing).seconds / own.seconds);
const peak = (timings: readonly Timing[]): string => Math.max(...timings.map((timing) => timing.peakMb)).toFixed(0);
process.stdout.write(`
${runs.length} runs, ${(bytes / 1e6).toFixed(0)} MB of logs, ${cpus().length} × ${cpus()[0]?.model}, ${(totalmem() / 2 ** 30).toFixed(0)} GiB, Node ${process.versions.node}
drawbar reduce (all measures, uncertainties, fits and the report)   median ${median(drawbar.map((t) => t.seconds)).toFixed(2)} s   peak ${peak(drawbar)} MB
pandas + SciPy (traction and drop means only)                       median ${median(pandas.map((t) => t.seconds)).toFixed(2)} s   peak ${peak(pandas)} MB
pandas time / drawbar time, round by round: ${ratios.map((ratio) => ratio.toFixed(2)).join(", ")}
`);
rmSync(scratch, { recursive: true, force: true });
