import { parseArgs } from "node:util";
import { pathToFileURL } from "node:url";
import { makeDay } from "./demo/makeDay.ts";

export { makeDay } from "./demo/makeDay.ts";
export type { DayOptions, MadeDay } from "./demo/makeDay.ts";

const usage = "usage: npx tsx scripts/makeDemoDay.ts <folder> [--seed 7] [--scale 1] [--no-faults] [--excerpt]";

function main(): void {
  const { values, positionals } = parseArgs({
    allowPositionals: true,
    options: { seed: { type: "string", default: "7" }, scale: { type: "string", default: "1" }, "no-faults": { type: "boolean", default: false }, excerpt: { type: "boolean", default: false } },
  });
  const folder = positionals[0];
  const seed = Number(values.seed);
  const scale = Number(values.scale);
  if (folder === undefined || positionals.length > 1 || !Number.isInteger(seed) || !Number.isInteger(scale) || scale < 1) {
    console.error(usage);
    process.exitCode = 3;
    return;
  }
  const made = makeDay(folder, { seed, scale, faults: !values["no-faults"], excerpt: values.excerpt });
  console.log(`${made.runs} runs, ${(made.bytes / 1e6).toFixed(0)} MB in ${folder}`);
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) main();
