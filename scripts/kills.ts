import { rmSync } from "node:fs";
import { parseArgs } from "node:util";
import { tinyFiles, writeDay } from "../tests/helpers/tinyDay.ts";
import { killReduce } from "./kills/killReduce.ts";
import type { Killed } from "./kills/killReduce.ts";
import { killWatch } from "./kills/killWatch.ts";

const usage = "usage: npm run kills -- [--times 100] [--day <folder>] [--built]   (a small made day where none is given; --built runs dist/)";

function tell({ command, struck, begun, whileWriting, faults }: Killed): void {
  console.log(`${command}: killed ${struck} times before it ended by itself, in ${begun} runs; ${whileWriting} ${command === "watch" ? "with its page up" : "while or after it wrote"}; ${faults.length === 0 ? "input untouched, nothing torn, the next run right" : `${faults.length} FAULTS`}`);
  for (const fault of faults) console.log(`  ${fault}`);
}

const { values } = parseArgs({ options: { times: { type: "string", default: "100" }, day: { type: "string" }, built: { type: "boolean", default: false } } });
const times = Number(values.times);
if (!Number.isInteger(times) || times < 1) {
  console.error(usage);
  process.exitCode = 3;
} else {
  const day = values.day ?? writeDay(tinyFiles());
  const all: Killed[] = [];
  for (const kill of [killReduce, killWatch]) {
    all.push(await kill(day, times, values.built));
    tell(all.at(-1) as Killed);
  }
  if (values.day === undefined) rmSync(day, { recursive: true });
  process.exitCode = all.every(({ faults }) => faults.length === 0) ? 0 : 1;
}
