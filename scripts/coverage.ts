import { parseArgs } from "node:util";
import { Piscina } from "piscina";
import oneDay, { dayKinds } from "./coverage/days.ts";
import type { DayKind, DayTask } from "./coverage/days.ts";
import { judged } from "./coverage/judged.ts";
import { average, together } from "./coverage/tally.ts";
import type { Tally } from "./coverage/tally.ts";

const usage = `usage: npm run coverage -- [--days 500] [--seed 1] [--only ${dayKinds.join(",")}]`;

async function manyDays(pool: Piscina<DayTask, Tally>, kind: DayKind, seeds: readonly number[]): Promise<Tally> {
  if (kind !== "bench") return together(await Promise.all(seeds.map((seed) => pool.run({ kind, seed }))));
  // readers of grids are loaded when the first comes, and in threads that works from built files only
  const made: Tally[] = [];
  for (const seed of seeds) made.push(await oneDay({ kind, seed }));
  return together(made);
}

function printTable(kind: DayKind, counted: Tally): boolean {
  const rows = judged(counted);
  console.log(`\n${kind}\n${"measure".padEnd(36)} ${"n".padStart(5)} ${"inside".padStart(8)}  ${"95 % chance band".padEnd(17)} ${"mean error".padStart(11)} ${"mean z".padStart(7)} ${"rms z".padStart(6)}`);
  for (const { name, count, share, band, meanError, meanZ, rmsZ, ok } of rows) {
    console.log(`${name.padEnd(36)} ${String(count).padStart(5)} ${`${(100 * share).toFixed(1)} %`.padStart(8)}  ${band.map((end) => `${(100 * end).toFixed(1)} %`).join(" … ").padEnd(17)} ${meanError.toExponential(2).padStart(11)} ${meanZ.toFixed(2).padStart(7)} ${rmsZ.toFixed(2).padStart(6)}${ok ? "" : "  ← outside 93 … 97 %"}`);
  }
  for (const line of [...counted.missing.map((missing) => `not determined: ${missing}`), ...counted.heldBack.map((held) => `held back: ${held}`)].slice(0, 20)) console.log(line);
  return rows.every((row) => row.ok);
}

/** Largest mean error allowed. */
const biasLimits: Readonly<Record<string, number>> = { "pull as a share of the load": 0.005, slip: 0.005, skid: 0.005 };

function printBiases({ biases }: Tally): boolean {
  const rows = Object.entries(biasLimits).map(([name, limit]) => ({ name, limit, mean: average(biases.filter((bias) => bias.name === name).map((bias) => bias.error)) })).filter((row) => !Number.isNaN(row.mean));
  for (const { name, limit, mean } of rows) console.log(`bias of ${name}: ${mean.toExponential(2)}, limit ${limit}${Math.abs(mean) < limit ? "" : "  ← too large"}`);
  return rows.every(({ mean, limit }) => Math.abs(mean) < limit);
}

async function main(): Promise<void> {
  const { values } = parseArgs({ options: { days: { type: "string", default: "500" }, seed: { type: "string", default: "1" }, only: { type: "string", default: dayKinds.join(",") } } });
  const count = Number(values.days);
  const first = Number(values.seed);
  const kinds = values.only.split(",") as DayKind[];
  if (!Number.isInteger(count) || count < 1 || !Number.isInteger(first) || kinds.some((kind) => !dayKinds.includes(kind))) {
    console.error(usage);
    process.exitCode = 3;
    return;
  }
  const pool = new Piscina<DayTask, Tally>({ filename: new URL("./coverage/days.ts", import.meta.url).href, minThreads: 2, maxThreads: 2 });
  const seeds = Array.from({ length: count }, (_, i) => first + i);
  let ok = true;
  console.log(`${count} made days of each kind with known truth, seeds ${first} … ${first + count - 1}: how often the 95 % interval holds it.`);
  for (const kind of kinds) {
    const counted = await manyDays(pool, kind, seeds);
    ok = printTable(kind, counted) && ok;
    ok = printBiases(counted) && ok;
  }
  await pool.destroy();
  if (!ok) process.exitCode = 1;
}

await main();
