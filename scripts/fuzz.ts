import { mkdirSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { trialOf } from "./fuzz/target.ts";
import { targets } from "./fuzz/targets.ts";
import { bounds, runTrials } from "./fuzz/trials.ts";
import type { Failure, Tally } from "./fuzz/trials.ts";

const usage = `usage: npm run fuzz -- [--seconds 20] [--seed 1] [--only "${targets[0]?.name},rig.yaml"]\nreaders: ${targets.map(({ name }) => name).join(", ")}`;

/** The input of a failure beside its story, so that it can be looked at and repeated. */
async function keep(folder: string, name: string, { seed, how, what }: Failure): Promise<void> {
  const file = join(folder, `${name.replace(/[^\w.-]+/g, "-")}-${seed}`);
  mkdirSync(folder, { recursive: true });
  writeFileSync(file, (await trialOf(targets.find((target) => target.name === name)!, seed)).bytes);
  console.log(`FAILURE  ${name}, --seed ${seed}  ${how}\n  ${what.split("\n").slice(0, 6).join("\n  ").slice(0, 1200)}\n  input: ${file}\n`);
}

function row(name: string, { trials, read, refused, failures, slowest, peak }: Tally): string {
  return [name.padEnd(22), String(trials).padStart(7), String(read).padStart(7), String(refused).padStart(8), String(failures.length).padStart(9), `${slowest.s.toFixed(2)} s (${slowest.seed})`.padStart(18), `${peak.mb.toFixed(0)} MB (${peak.seed})`.padStart(18)].join("  ");
}

async function main(): Promise<void> {
  const { values } = parseArgs({ options: { seconds: { type: "string", default: "20" }, seed: { type: "string", default: "1" }, only: { type: "string", default: "" } } });
  const [seconds, seed] = [Number(values.seconds), Number(values.seed)];
  const only = values.only === "" ? targets.map(({ name }) => name) : values.only.split(",");
  if (!(seconds > 0) || !Number.isSafeInteger(seed) || only.some((name) => !targets.some((target) => target.name === name))) {
    console.error(usage);
    process.exitCode = 3;
    return;
  }
  const folder = join(tmpdir(), "drawbar-fuzz-failures");
  const rows: string[] = [];
  let failed = 0;
  for (const name of only) {
    const tally = await runTrials(name, seed, seconds);
    for (const failure of tally.failures.slice(0, 20)) await keep(folder, name, failure);
    failed += tally.failures.length;
    rows.push(row(name, tally));
    console.log(rows.at(-1));
  }
  console.log(`\nSeeds from ${seed} on, ${seconds} s a reader. A reading may take ${bounds.restMb} MB and ${bounds.perByte} × the file, and ${bounds.seconds} s of work.\n`);
  console.log(["reader".padEnd(22), " trials", "   read", " refused", " failures", "    slowest (seed)", "       peak (seed)"].join("  "));
  console.log(rows.join("\n"));
  process.exitCode = failed === 0 ? 0 : 1;
}

await main();
