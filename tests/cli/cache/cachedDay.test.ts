import { appendFileSync, mkdtempSync, readFileSync, readdirSync, rmSync, truncateSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { cachePlace } from "../../../src/cli/cache/cachePlace.ts";
import { checkCommand } from "../../../src/cli/checkCommand.ts";
import { reduceCommand } from "../../../src/cli/reduceCommand.ts";
import { reportFiles } from "../../../src/report/writeTogether.ts";
import { replaced, drawbar } from "../../badInput/days.ts";
import { removeDays, tinyFiles, tinyLog, writeDay } from "../../helpers/tinyDay.ts";
import type { DayFiles } from "../../helpers/tinyDay.ts";
import { saidBy } from "./commands.ts";
import type { Said } from "./commands.ts";

const root = mkdtempSync(join(tmpdir(), "drawbar-cached-"));
afterAll(() => (removeDays(), rmSync(root, { recursive: true, force: true })));
let folders = 0;
const fresh = (): string => join(root, String(folders++));
const fromCache = "the results come from the cache";

/** The four files of a report, the moment it was made taken out. */
function report(out: string): string[] {
  return reportFiles.map((name) => readFileSync(join(out, name), "utf8").replace(/<time>[^<]*<\/time>/, "<time></time>"));
}

async function reduced(day: string, cache: string | false): Promise<Said & { readonly files: readonly string[] }> {
  const out = fresh();
  const said = await saidBy(() => reduceCommand(day, { out, cache }));
  return { ...said, out: said.out.replace(out, ""), files: report(out) };
}

const kinds = (cache: string): Record<string, number> => {
  const counts: Record<string, number> = {};
  for (const name of readdirSync(cache)) counts[name.replace(/-.*/, "")] = (counts[name.replace(/-.*/, "")] ?? 0) + 1;
  return counts;
};

const entries = (cache: string, kind: string): string[] => readdirSync(cache).filter((name) => name.startsWith(`${kind}-`)).map((name) => join(cache, name));
const removed = (cache: string, kind: string): void => entries(cache, kind).forEach((path) => rmSync(path));
const damaged = (cache: string, kind: string): number => entries(cache, kind).map((path) => appendFileSync(path, "!")).length;

/** Writes into a day that was made by writeDay. */
function change(day: string, path: string, how: (files: DayFiles) => void): void {
  const files: DayFiles = { [path]: readFileSync(join(day, path)) };
  how(files);
  writeFileSync(join(day, path), files[path] as string);
}

test("a second run says and writes the very same, from the cache", { timeout: 60_000 }, async () => {
  const copied = tinyFiles();
  for (const day of [writeDay(copied), writeDay({ ...copied, "logs/T2.csv": copied["logs/T1.csv"] as string })]) {
    const cache = fresh();
    const [without, first, second] = [await reduced(day, false), await reduced(day, cache), await reduced(day, cache)];
    const { err, ...same } = second;
    expect({ ...first, err: "" }).toEqual({ ...without, err: "" });
    expect({ ...same, err: "" }).toEqual({ ...first, err: "" });
    expect([without, first, second].map((said) => said.err.includes(fromCache))).toEqual([false, false, true]);
    // rejected runs are named again, though in the sheet's order
    const rejected = (text: string): string[] => text.split("\n").filter((line) => /^\S+ {2}(repeat|unread): /.test(line)).sort();
    expect(rejected(err)).toEqual(rejected(without.err));
    removed(cache, "day");
    // the runs alone
    expect({ ...(await reduced(day, cache)), err: "" }).toEqual({ ...without, err: "" });
    removed(cache, "day");
    removed(cache, "run");
    // the tables alone
    expect({ ...(await reduced(day, cache)), err: "" }).toEqual({ ...without, err: "" });
  }
});

describe("whatever changes in the day, the cache gives what the files give", { timeout: 60_000 }, () => {
  const cache = fresh();
  test.each<[string, (day: string) => void, Record<string, number>]>([
    ["a sample of a log", (day) => change(day, "logs/T1.csv", replaced("logs/T1.csv", "5.00,", "5.001,")), { table: 1, run: 1 }],
    ["a calibration: the tables hold", (day) => change(day, "rig.yaml", replaced("rig.yaml", "gain: 1,", "gain: 1.01,")), { run: 3, table: 0 }],
    ["what the reader is told", (day) => change(day, "rig.yaml", replaced("rig.yaml", "kinds: [traction", 'missing: ["-"]\n    kinds: [traction')), { run: 3, table: 3 }],
    ["a hard-floor run: what rests on it is done anew", (day) => writeFileSync(join(day, "logs/H1.csv"), tinyLog(0.01, -1)), { run: 3, table: 1 }],
    ["a remark", (day) => change(day, "runs.csv", replaced("runs.csv", "70,20,", "70,20,windy")), { run: 1, table: 0 }],
    ["a row above the others: no run is done anew", (day) => change(day, "runs.csv", replaced("runs.csv", "H1,", "H0,hard floor,W1,,70,,\nH1,")), { run: 0, table: 0 }],
    ["a log that is gone", (day) => rmSync(join(day, "logs/T2.csv")), { run: 0, table: 0 }],
    ["a log under another's name", (day) => writeFileSync(join(day, "logs/T2.csv"), readFileSync(join(day, "logs/T1.csv"))), { run: 1, table: 1 }],
    ["a file beside the logs", (day) => writeFileSync(join(day, "logs/X9.csv"), "t,W\n0,1\n"), { run: 0, table: 0 }],
    ["a record", (day) => change(day, "beds.csv", replaced("beds.csv", "1650", "1660")), { run: 0, table: 0 }],
    ["a table that comes", (day) => writeFileSync(join(day, "cones.csv"), "bed,position,depth [mm],index [kPa]\nB1,left,25,82\nB1,left,50,167\n"), { run: 0, table: 0 }],
    ["a log that breaks off", (day) => truncateSync(join(day, "logs/T1.csv"), 9000), { run: 1, table: 1 }],
  ])("%s", async (_, how, made) => {
    const day = writeDay(tinyFiles());
    await reduced(day, cache);
    expect((await reduced(day, cache)).err).toContain(fromCache);
    const before = kinds(cache);
    how(day);
    const [without, after] = [await reduced(day, false), await reduced(day, cache)];
    const now = kinds(cache);
    expect({ run: (now["run"] ?? 0) - (before["run"] ?? 0), table: (now["table"] ?? 0) - (before["table"] ?? 0) }).toEqual(made);
    expect(after.err).not.toContain(fromCache);
    expect(after).toEqual(without);
    expect((await reduced(day, cache)).files).toEqual(without.files);
  });
});

test("a run that could not be read is read again, and its day as well", { timeout: 60_000 }, async () => {
  const [day, cache] = [writeDay({ ...tinyFiles(), "logs/T1.csv": "t,W\n0,x\n" }), fresh()];
  const first = await reduced(day, cache);
  expect(first.code).toBe(1);
  expect(kinds(cache)).toEqual({ table: 2, run: 2 });
  expect(await reduced(day, cache)).toEqual(first);
  writeFileSync(join(day, "logs/T1.csv"), String(tinyFiles()["logs/T1.csv"]));
  expect((await reduced(day, cache)).code).toBe(0);
});

test.each(["day", "run", "table"])("a damaged %s entry is noticed, said, and made anew; the results are the same", { timeout: 60_000 }, async (kind) => {
  const [day, cache] = [writeDay(tinyFiles()), fresh()];
  const first = await reduced(day, cache);
  const layers = ["day", "run", "table"];
  for (const above of layers.slice(0, layers.indexOf(kind))) removed(cache, above);
  const spoilt = damaged(cache, kind);
  const second = await reduced(day, cache);
  expect(second.err.split("\n").filter((line) => line.includes("is damaged"))).toHaveLength(spoilt);
  expect(second.files).toEqual(first.files);
  const third = await reduced(day, cache);
  expect(third.err).not.toContain("is damaged");
  expect([third.err.includes(fromCache), third.files]).toEqual([true, first.files]);
});

test("in threads as in one: the same results, and damage is said", { timeout: 120_000 }, () => {
  const [day, cache] = [manyRuns(), fresh()];
  const run = (...options: string[]): { readonly files: string[]; readonly err: string } => {
    const out = fresh();
    const { code, err } = drawbar("reduce", day, "--out", out, ...options);
    expect(code).toBeLessThan(2);
    return { files: report(out), err };
  };
  const without = run("--no-cache");
  expect(run("--cache", cache).files).toEqual(without.files);
  expect(kinds(cache)).toEqual({ day: 1, run: 18, table: 18 });
  const second = run("--cache", cache);
  expect([second.files, second.err.includes(fromCache)]).toEqual([without.files, true]);
  removed(cache, "day");
  expect(damaged(cache, "run") + damaged(cache, "table")).toBe(36);
  const third = run("--cache", cache);
  expect([third.files, third.err.match(/is damaged/g)?.length]).toEqual([without.files, 36]);
});

test("a check uses what reduce kept", { timeout: 60_000 }, async () => {
  const [day, cache] = [writeDay(tinyFiles()), fresh()];
  await reduced(day, cache);
  const before = kinds(cache);
  const [without, kept] = [await saidBy(() => checkCommand(day, { cache: false })), await saidBy(() => checkCommand(day, { cache }))];
  expect(kept).toEqual(without);
  expect(kinds(cache)).toEqual(before);
});

describe("where the cache stands", () => {
  test("never in the day folder", () => {
    for (const inside of ["day", "day/cache", "day/../day/x"]) expect(() => cachePlace("day", { cache: inside })).toThrow(/outside the day folder/);
    expect(cachePlace("day", { cache: "day-cache" })?.folder).toBe(resolve("day-cache"));
    expect(cachePlace("day", { cache: "..cache" })?.folder).toBe(resolve("..cache"));
  });

  test("the user's own place, or none", () => {
    expect(cachePlace("day", {})?.folder).toBe(join(process.env["XDG_CACHE_HOME"] as string, "drawbar"));
    expect(cachePlace("day", { cache: false })).toBeNull();
  });
});

/** A day that is large enough for threads. */
function manyRuns(): string {
  const files = tinyFiles();
  for (let i = 3; i < 18; i++) {
    files[`logs/T${i}.csv`] = tinyLog(0.1 + i / 1000, 8);
    files["runs.csv"] = `${String(files["runs.csv"])}T${i},traction,W1,B1,70,10,\n`;
  }
  return writeDay(files);
}
