import { parseArgs } from "node:util";
import { preflightQuestions, ruledOut } from "../src/campaign/preflight.ts";
import { cleanDays, falseAlarms, runFault } from "./faults/bench.ts";
import type { FaultResult, FalseAlarms, StrengthResult } from "./faults/bench.ts";
import { faults } from "./faults/registry.ts";

const usage = "usage: npm run faults -- [--seeds 3] [--clean 200] [--only 5,6]";
const strengthNames = ["weak", "medium", "strong"] as const;

/** Tells apart catching, moving the number, and withholding it. */
function strengthLine(name: string, result: StrengthResult): string {
  const times = (value: number): string => value.toFixed(value < 10 ? 2 : 0);
  const shift = result.shift === null ? "headline withheld" : `headline moves ${times(result.shift.ofClean)} × (own statement ${times(result.shift.ofOwn)} ×)${result.withheld > 0 ? `, withheld in ${result.withheld}` : ""}`;
  const misled = result.misled > 0 ? `  ← MISLEADS UNSEEN ${result.misled}/${result.of}` : "";
  const codes = [...result.codes].map(([code, count]) => `${code} ${count}`).join(", ");
  return `      ${name.padEnd(7)} caught ${result.caught}/${result.of}  ${shift}  [${result.says}]${codes === "" ? "" : `  by ${codes}`}${misled}`;
}

function printFault({ fault, strengths }: FaultResult): void {
  console.log(`${String(fault.number).padStart(2)} ${fault.severity}  ${fault.title}`);
  strengths.forEach((result, i) => console.log(strengthLine(strengthNames[i] as string, result)));
}

function printFalseAlarms(found: FalseAlarms): void {
  console.log(`\nFalse alarms on ${found.days} clean days (${found.runs} runs):`);
  const rows = [...found.byCode].sort((a, b) => b[1].runs - a[1].runs);
  if (rows.length === 0) console.log("  none");
  for (const [code, { runs, days }] of rows) console.log(`  ${code.padEnd(24)} ${((100 * runs) / found.runs).toFixed(2).padStart(6)} % of runs, ${((100 * days) / found.days).toFixed(1).padStart(5)} % of days`);
}

async function main(): Promise<void> {
  const { values } = parseArgs({ options: { seeds: { type: "string", default: "3" }, clean: { type: "string", default: "200" }, only: { type: "string", default: "" } } });
  const count = Number(values.seeds);
  const clean = Number(values.clean);
  const only = values.only === "" ? [] : values.only.split(",").map(Number);
  if (!Number.isInteger(count) || count < 1 || !Number.isInteger(clean) || clean < 0 || only.some((number) => !Number.isInteger(number))) {
    console.error(usage);
    process.exitCode = 3;
    return;
  }
  console.log("Moves: median change of the headline number in halves of its 95 % interval as the clean day states it (as the spoiled day states it).\n");
  const seeds = Array.from({ length: count }, (_, i) => 101 + i);
  const days = cleanDays();
  for (const fault of faults.filter((candidate) => only.length === 0 || only.includes(candidate.number))) printFault(await runFault(fault, seeds, days));
  if (clean > 0) printFalseAlarms(await falseAlarms(clean, 1001));
  console.log("\nRuled out by how drawbar counts:");
  for (const { pitfall, how, proof } of ruledOut) console.log(`  ${String(pitfall).padStart(2)}  ${how} (${proof})`);
  console.log("\nWhat the data cannot show, or shows only when more is recorded; asked instead:");
  for (const { pitfalls, when, ask, record } of preflightQuestions) console.log(`  ${pitfalls.join(", ").padStart(6)}  ${when}: ${ask}${record === null ? "" : ` [record: ${record}]`}`);
}

await main();
