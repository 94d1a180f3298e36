import { parseArgs } from "node:util";
import { Piscina } from "piscina";
import { judged } from "./coverage/judged.ts";
import { binomialBand, together } from "./coverage/tally.ts";
import type { Tally } from "./coverage/tally.ts";
import { recoveryDays } from "./recovery/wheelSoilDay.ts";
import type { RecoveryDay, RecoveryTask } from "./recovery/wheelSoilDay.ts";

const usage = "usage: npm run recovery -- [--seeds 200] [--first 1]";
/** Chance that a sound interval falls out of the band on one side, as for the closure tests. */
const bandOut = 0.0005;
/** Share of days of one load that must say that n is not determined; the others must say that belief carries part of it. */
const mustRefuse = 0.8;

function printTable(day: RecoveryDay, counted: Tally, days: number): boolean {
  const rows = judged(counted);
  console.log(`\n${day}\n${"constant".padEnd(10)} ${"printed".padStart(9)} ${"inside".padStart(8)}  ${"99.9 % chance band".padEnd(18)} ${"mean z".padStart(7)} ${"rms z".padStart(6)}`);
  const within = rows.map(({ name, count, share, meanZ, rmsZ }) => {
    const [low, high] = binomialBand(count, 0.95, bandOut).map((successes) => successes / count) as [number, number];
    const ok = share >= low && share <= high;
    console.log(`${name.padEnd(10)} ${`${count}/${days}`.padStart(9)} ${`${(100 * share).toFixed(1)} %`.padStart(8)}  ${`${(100 * low).toFixed(1)} % … ${(100 * high).toFixed(1)} %`.padEnd(18)} ${meanZ.toFixed(2).padStart(7)} ${rmsZ.toFixed(2).padStart(6)}${ok ? "" : "  ← outside the band"}`);
    return ok;
  });
  const refused = counted.missing.filter((symbol) => symbol === "n").length;
  const alone = counted.trials.filter(({ name, where }) => name === "n" && where.startsWith("determined")).length;
  console.log(`n: not determined on ${refused} of ${days} days, by data and belief together on ${days - refused - alone}, by the data on ${alone}`);
  return within.every(Boolean) && (day === "three loads" || (alone === 0 && refused >= mustRefuse * days));
}

async function main(): Promise<void> {
  const { values } = parseArgs({ options: { seeds: { type: "string", default: "200" }, first: { type: "string", default: "1" } } });
  const [count, first] = [Number(values.seeds), Number(values.first)];
  if (!Number.isInteger(count) || count < 1 || !Number.isInteger(first)) {
    console.error(usage);
    process.exitCode = 3;
    return;
  }
  const pool = new Piscina<RecoveryTask, Tally>({ filename: new URL("./recovery/wheelSoilDay.ts", import.meta.url).href, minThreads: 2, maxThreads: 2 });
  console.log(`${count} made days of each kind, soils drawn as the beliefs say soils are, seeds ${first} … ${first + count - 1}: which constants are printed, and how often their 95 % interval holds the truth.`);
  for (const day of Object.keys(recoveryDays) as RecoveryDay[]) {
    const days = await Promise.all(Array.from({ length: count }, (_, i) => pool.run({ day, seed: first + i })));
    if (!printTable(day, together(days), count)) process.exitCode = 1;
  }
  await pool.destroy();
}

await main();
