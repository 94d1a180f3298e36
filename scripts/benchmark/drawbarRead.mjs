// Reads one delimited log with the built package; prints the seconds of the reading alone, rows, and bytes of the columns.
// Usage: node drawbarRead.mjs LOG COLUMN,COLUMN…
import { dirname, basename, resolve } from "node:path";
import { pathToFileURL } from "node:url";

const { readLog } = await import(pathToFileURL(resolve("dist/importers/readLog.js")).href);
const [log, columns] = process.argv.slice(2);
const started = process.hrtime.bigint();
const table = await readLog(dirname(log), basename(log), { clock: { kind: "elapsed", column: "t", unit: "s" }, columns: columns.split(","), missing: [], overload: [] });
const seconds = Number(process.hrtime.bigint() - started) / 1e9;
process.stdout.write(`${seconds} ${table.timesS.length} ${8 * table.timesS.length * (table.columns.length + 1)}\n`);
