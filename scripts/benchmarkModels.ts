// Speed of the wheel models and of pull–slip fits against NumPy and SciPy on the same tasks, interleaved, each the least of six passes; both must give the same numbers.
// Usage: npm run build && npx tsx scripts/benchmarkModels.ts [--rounds 5]   (python3-numpy and python3-scipy from Debian)
import { existsSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { rigidWheelForces } from "../src/models/rigidWheel.ts";
import { pullSlip } from "../src/models/pullSlip.ts";
import { seededRandom } from "../src/numerics/random.ts";
import { timed } from "./benchmark/timed.ts";

const { values } = parseArgs({ options: { rounds: { type: "string", default: "5" } } });
if (!existsSync("dist/models/rigidWheel.js")) throw new Error("dist is missing; run `npm run build` first");

/** What is compared, how far apart the two may be, and how much quicker drawbar must be. */
const parts = [
  { name: "fixed", title: "forces at a sinkage, one call after the other", tolerance: 1e-11, ratio: 20, unit: "call" },
  { name: "solved", title: "sinkage that carries a load, one call after the other", tolerance: 1e-8, ratio: 20, unit: "call" },
  { name: "draws", title: "forces at 20,000 soils, NumPy with whole arrays", tolerance: 1e-11, ratio: 1.5, unit: "soil" },
  { name: "fits", title: "1,000 bootstrap fits of a pull–slip curve, SciPy's curve_fit, which is quicker without our slopes", tolerance: 1e-5, ratio: 2, unit: "fit" },
] as const;
type Part = (typeof parts)[number]["name"];
interface Answer {
  readonly seconds: Readonly<Record<Part, number>>;
  readonly values: Readonly<Record<Part, readonly (readonly number[])[]>>;
}

const random = seededRandom(7);
const [radiusM, widthM] = [0.09, 0.11];
const within = (low: number, high: number): number => low + (high - low) * random.uniform();
const soil = (): number[] => [within(2e5, 2e6), within(0.6, 1.3), within(0, 0.3), within(0, 1500), within(0.45, 0.7), within(0.005, 0.04), within(0.2, 0.5), within(0, 0.3), within(0, 0.3)];
const names = ["stiffness", "exponent", "exponentBySlip", "cohesionPa", "frictionAngleRad", "shearModulusM", "stressAngle", "stressAngleBySlip", "rebound"] as const;
const rows = Array.from({ length: 2000 }, () => {
  const [entries, slip, sinkageM] = [soil(), within(-0.3, 0.8), within(0.002, 0.02)];
  // a load that has an answer: the one at another sinkage
  const { loadN } = rigidWheelForces({ radiusM, widthM }, Object.fromEntries(names.map((name, j) => [name, entries[j]])) as unknown as Parameters<typeof rigidWheelForces>[1], slip, within(0.002, 0.03));
  return { soil: entries, slip, sinkageM, loadN };
}).filter(({ loadN }) => loadN > 0.5);
const slip = Array.from({ length: 24 }, (_, i) => 0.02 + 0.025 * i);
const pull = slip.map((s) => pullSlip(s, { rise: 0.55, slipScale: 0.17, resistance: 0.12 }) + 0.015 * random.normal());
const scratch = mkdtempSync(join(tmpdir(), "drawbar-models-"));
const tasks = join(scratch, "tasks.json");
writeFileSync(tasks, JSON.stringify({
  passes: 6,
  wheel: [radiusM, widthM], rows,
  draws: Array.from({ length: 20_000 }, soil), drawSinkages: Array.from({ length: 20_000 }, () => within(0.002, 0.02)), drawSlip: 0.2,
  curve: { slip, pull, start: [0.4, 0.15, 0.1], resamples: Array.from({ length: 1000 }, () => slip.map(() => random.integer(slip.length))) },
}));
const counts: Readonly<Record<Part, number>> = { fixed: rows.length, solved: rows.length, draws: 20_000, fits: 1000 };

process.stdout.write(`${cpus().length} × ${cpus()[0]?.model}, Node ${process.versions.node}, load ${loadavg().map((load) => load.toFixed(1)).join(" ")}\n`);
const answer = async (program: string, script: string): Promise<Answer> => JSON.parse((await timed(program, [script, tasks])).stdout) as Answer;
const rounds: { readonly own: Answer; readonly peer: Answer }[] = [];
for (let round = 0; round < Number(values.rounds); round++) {
  rounds.push({ own: await answer(process.execPath, "scripts/benchmark/drawbarModels.mjs"), peer: await answer("/usr/bin/python3", "scripts/benchmark/numpyModels.py") });
}
const median = (numbers: readonly number[]): number => [...numbers].sort((a, b) => a - b)[Math.floor(numbers.length / 2)] as number;
let wrong = 0;
for (const { name, title, tolerance, ratio, unit } of parts) {
  const { own, peer } = rounds[0] as (typeof rounds)[number];
  const apart = Math.max(...own.values[name].map((row, i) => Math.max(...row.map((value, j) => Math.abs(value - (peer.values[name][i]?.[j] as number)))) / Math.max(...row.map(Math.abs))));
  const ratios = rounds.map((round) => round.peer.seconds[name] / round.own.seconds[name]);
  const micro = (of: "own" | "peer"): string => `${((1e6 * median(rounds.map((round) => round[of].seconds[name]))) / counts[name]).toFixed(2)} µs`;
  const agrees = apart <= tolerance;
  if (!agrees || median(ratios) < ratio) wrong++;
  process.stdout.write(`${title}\n  drawbar ${micro("own")} a ${unit}, peer ${micro("peer")}; ${ratios.map((value) => value.toFixed(1)).join(", ")} times as fast (median ${median(ratios).toFixed(1)}, wanted ${ratio}); apart by ${apart.toExponential(1)} of the greatest part of a row (${agrees ? "within" : "MORE THAN"} ${tolerance})\n`);
}
process.stdout.write(`load at the end ${loadavg().map((load) => load.toFixed(1)).join(" ")}\n`);
rmSync(scratch, { recursive: true, force: true });
process.exitCode = wrong === 0 ? 0 : 1;
