// Speed and memory of the text reader against pandas' C reader on the same logs, interleaved, each reading in a process of its own.
// Usage: npm run build && npx tsx scripts/benchmarkReader.ts [--rounds 5] [--megabytes 210]   (python3-pandas from Debian)
import { existsSync, mkdtempSync, rmSync, statSync } from "node:fs";
import { cpus, loadavg, tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { makeLogs } from "./benchmark/makeLogs.ts";
import { timed } from "./benchmark/timed.ts";
import type { Timing } from "./benchmark/timed.ts";

const { values } = parseArgs({ options: { rounds: { type: "string", default: "5" }, megabytes: { type: "string", default: "210" } } });
if (!existsSync("dist/importers/readLog.js")) throw new Error("dist is missing; run `npm run build` first");
const scratch = mkdtempSync(join(tmpdir(), "drawbar-reader-"));

/** What the program itself says of its reading: seconds, rows, bytes of the columns. */
interface Reading extends Timing {
  readonly readS: number;
  readonly rows: number;
  readonly columnMb: number;
}

async function reading(program: string, args: readonly string[]): Promise<Reading> {
  const timing = await timed(program, args);
  const [readS = Number.NaN, rows = Number.NaN, bytes = Number.NaN] = timing.stdout.trim().split(" ").map(Number);
  return { ...timing, readS, rows, columnMb: bytes / 2 ** 20 };
}

const range = (numbers: readonly number[], digits: number): string => `${Math.min(...numbers).toFixed(digits)} … ${Math.max(...numbers).toFixed(digits)}`;
process.stdout.write(`${cpus().length} × ${cpus()[0]?.model}, Node ${process.versions.node}, load ${loadavg().map((load) => load.toFixed(1)).join(" ")}\n`);
for (const { path, title, columns } of makeLogs(scratch, Number(values.megabytes) * 1e6)) {
  const megabytes = statSync(path).size / 1e6;
  const readers: Record<string, () => Promise<Reading>> = {
    drawbar: () => reading(process.execPath, ["scripts/benchmark/drawbarRead.mjs", path, columns.join(",")]),
    "pandas, default": () => reading("/usr/bin/python3", ["scripts/benchmark/pandasRead.py", path, "default"]),
    "pandas, round_trip": () => reading("/usr/bin/python3", ["scripts/benchmark/pandasRead.py", path, "round_trip"]),
  };
  const all = new Map<string, Reading[]>(Object.keys(readers).map((name) => [name, []]));
  for (let round = 0; round < Number(values.rounds); round++) for (const [name, read] of Object.entries(readers)) all.get(name)?.push(await read());
  const own = all.get("drawbar") as Reading[];
  process.stdout.write(`\n${title}: ${megabytes.toFixed(0)} MB, ${own[0]?.rows} rows, columns of ${own[0]?.columnMb.toFixed(0)} MB\n`);
  for (const [name, found] of all) {
    if (found.some(({ rows }) => rows !== own[0]?.rows)) throw new Error(`${name} read another number of rows`);
    const ratios = found.map((one, round) => one.readS / (own[round] as Reading).readS);
    process.stdout.write(`${name.padEnd(19)} ${range(found.map(({ readS }) => readS), 2)} s, ${range(found.map(({ readS }) => megabytes / readS), 0)} MB/s, drawbar ${range(ratios, 2)} times as fast; processor ${range(found.map(({ cpuS }) => cpuS), 1)} s with start; peak ${range(found.map(({ peakMb }) => peakMb), 0)} MB, ${range(found.map(({ peakMb, columnMb }) => peakMb - columnMb), 0)} above the columns\n`);
  }
}
rmSync(scratch, { recursive: true, force: true });
