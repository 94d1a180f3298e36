// Speed of `drawbar reduce` against pandas + SciPy on the same day, interleaved in one run.
// Usage: npx tsx scripts/benchmark.ts [--rounds 3] [--scale 3] [--day FOLDER]   (python3-pandas and python3-scipy from Debian)
import { existsSync, mkdtempSync, readdirSync, rmSync, statSync, writeFileSync } from "node:fs";
import { cpus, tmpdir, totalmem } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { readCampaign } from "../src/campaign/readCampaign.ts";
import { timed } from "./benchmark/timed.ts";
import type { Timing } from "./benchmark/timed.ts";
import { makeDay } from "./demo/makeDay.ts";

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
