import { createHash } from "node:crypto";
import { mkdtempSync, readFileSync, readdirSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { checkCommand } from "../../src/cli/checkCommand.ts";
import { exportCommand } from "../../src/cli/exportCommand.ts";
import { inspectCommand } from "../../src/cli/inspectCommand.ts";
import { reduceCommand } from "../../src/cli/reduceCommand.ts";
import { settleRule } from "../../src/cli/watch/settle.ts";
import { watchDay } from "../../src/cli/watch/watchDay.ts";
import { removeDays, tinyFiles, writeDay } from "../helpers/tinyDay.ts";
import { saidBy } from "./cache/commands.ts";

const root = mkdtempSync(join(tmpdir(), "drawbar-untouched-"));
afterAll(() => (removeDays(), rmSync(root, { recursive: true, force: true })));
const day = writeDay({ ...tinyFiles(), "logs/T2.csv": "t,W\n0,x\n", "notes.txt": "kept beside the sheets" });

/** Every file and folder of the day: its times, its mode, its bytes. */
function state(folder: string, path = ""): unknown[] {
  const seen = statSync(join(folder, path), { bigint: true });
  const about = [path, seen.mode, seen.size, seen.mtimeNs, seen.ctimeNs, seen.ino];
  if (!seen.isDirectory()) return [[...about, createHash("sha256").update(readFileSync(join(folder, path))).digest("hex")]];
  return [about, ...readdirSync(join(folder, path)).sort().flatMap((name) => state(folder, join(path, name)))];
}

async function watched(): Promise<void> {
  const ended = new AbortController();
  let now = 0;
  await watchDay(day, ended.signal, {
    rule: settleRule,
    // a clock that runs on from look to look, so that no file is waited for
    nowMs: () => (now += 60_000),
    clockText: String,
    onView: (_, cards) => void (cards.some(({ plan, state: at }) => plan.id === "T1" && at === "go") && ended.abort()),
  });
}

test.each<[string, () => Promise<unknown>]>([
  ["reduce", () => saidBy(() => reduceCommand(day, { out: join(root, "out"), cache: join(root, "cache") }))],
  ["reduce, from the cache", () => saidBy(() => reduceCommand(day, { out: join(root, "out"), cache: join(root, "cache") }))],
  ["reduce, without a cache", () => saidBy(() => reduceCommand(day, { out: join(root, "out"), cache: false }))],
  ["check", () => saidBy(() => checkCommand(day, { questions: true }))],
  ["watch", watched],
  ["export", () => saidBy(() => exportCommand(day, "T1", { as: "csv", out: join(root, "exported") }))],
  ["inspect", () => saidBy(() => inspectCommand(join(day, "logs/T1.csv")))],
])("%s writes to no file of the day", { timeout: 60_000 }, async (_, command) => {
  const before = state(day);
  expect(before.length).toBeGreaterThan(8);
  await command();
  expect(state(day)).toEqual(before);
});
