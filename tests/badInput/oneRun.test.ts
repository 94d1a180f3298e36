import { afterAll, describe, expect, test } from "vitest";
import { reduceDay } from "../../src/day.ts";
import { removeDays } from "../helpers/tinyDay.ts";
import { cells, dayWith, drawbar, measured, replaced, verdicts } from "./days.ts";
import type { Change } from "./days.ts";

afterAll(removeDays);

test("the tiny day itself is without a mistake", async () => {
  const folder = dayWith(() => undefined);
  const day = await reduceDay(folder);
  expect(verdicts(day)).toEqual({ H1: "go", T1: "go", T2: "go" });
  expect(["H1", "T1", "T2"].filter((id) => !measured(day, id))).toEqual([]);
  expect(drawbar("check", folder, "--quiet")).toMatchObject({ code: 0, err: "" });
});

const log = "logs/T1.csv";

/** What stops one run: the change, then code and place of the issue. */
const unread: readonly (readonly [what: string, change: Change, code: string, at: string])[] = [
  ["a missing file", (files) => void delete files[log], "missing-file", log],
  ["an unknown wheel", replaced("runs.csv", "T1,traction,W1", "T1,traction,W7"), "unknown-wheel", 'runs.csv line 3, column "wheel"'],
  ["an unknown bed", replaced("runs.csv", "T1,traction,W1,B1", "T1,traction,W1,B8"), "unknown-bed", 'runs.csv line 3, column "bed"'],
  ["text in a number of the sheet", replaced("runs.csv", "B1,70,10,", "B1,seventy,10,"), "bad-number", 'runs.csv line 3, column "load [N]"'],
  ["a run id that leaves the day folder", replaced("runs.csv", "T1,traction", "../T1,traction"), "bad-run-id", 'runs.csv line 3, column "run"'],
  ["a column missing in the log", replaced(log, "P [N]", "Q [N]"), "missing-column", "logs/T1.csv line 1"],
  ["another unit in the log than rig.yaml states", replaced(log, "X [mm]", "X [m]"), "unit-differs", 'logs/T1.csv, column "X"'],
  ["a unit of the wrong dimension in the log", replaced(log, "X [mm]", "X [s]"), "unit-differs", 'logs/T1.csv, column "X"'],
  ["text in a number of the log", cells((row, i) => void (i === 499 && (row[2] = "abc"))), "text-in-number", 'logs/T1.csv line 501, column "P"'],
  ["constant time", cells((row) => void (row[0] = "1.00")), "time-constant", "logs/T1.csv, time column"],
  ["time running backwards", cells((row, i) => void (i >= 500 && (row[0] = (i / 50 - 5).toFixed(2)))), "time-backwards", "logs/T1.csv, data row 501, time column"],
  ["an empty file", (files) => void (files[log] = ""), "empty-file", log],
  ["a header only", replaced(log, /\n[^]*/, "\n"), "no-rows", log],
  ["a log of one row", replaced(log, /^(.*\n.*\n)[^]*/, "$1"), "one-row", log],
  ["a file that is no text", (files) => void (files[log] = new Uint8Array([0x7f, 0x45, 0x4c, 0x46, 0, 0, 0, 1, 0, 0])), "unknown-format", log],
];

describe("one run's mistake stays with that run", () => {
  test.each(unread)("%s", async (_, change, code, at) => {
    const folder = dayWith(change);
    const day = await reduceDay(folder);
    const bad = day.runs.find((run) => run.verdict === "unread");
    expect(bad?.plan.line).toBe(3);
    expect(bad?.issues.map((issue) => [issue.code, issue.at])).toEqual([[code, at]]);
    expect(bad?.issues[0]?.message).toMatch(/^expected .*found /);
    expect(bad?.issues[0]?.hint).not.toBe("");
    expect(["H1", "T2"].filter((id) => !measured(day, id))).toEqual([]);
    const { code: ended, out } = drawbar("check", folder, "--quiet");
    expect(ended).toBe(1);
    expect(out).toContain(`${at}: expected`);
  });

  test("a duplicate run id: none of the two rows is measured, the others are", async () => {
    const folder = dayWith(replaced("runs.csv", "T1,traction,W1,B1,70,10,", "T1,traction,W1,B1,70,10,\nt1,traction,W1,B1,70,20,"));
    const day = await reduceDay(folder);
    expect(verdicts(day)).toEqual({ H1: "go", "T1 (line 3)": "unread", "t1 (line 4)": "unread", T2: "go" });
    expect(day.runs.flatMap((run) => run.issues.map((issue) => [issue.code, issue.at]))).toEqual([3, 4].map((line) => ["duplicate-run", `runs.csv line ${line}, column "run"`]));
    expect(measured(day, "T2")).toBe(true);
    expect(drawbar("check", folder, "--quiet").code).toBe(1);
  });

  test("mistakes in several runs are all told", async () => {
    const folder = dayWith((files) => {
      replaced("runs.csv", "T1,traction,W1", "T1,traction,W7")(files);
      delete files["logs/T2.csv"];
    });
    const day = await reduceDay(folder);
    expect(day.runs.flatMap((run) => run.issues.map((issue) => issue.code))).toEqual(["unknown-wheel", "missing-file"]);
    expect(measured(day, "H1")).toBe(true);
  });
});

describe("doubtful data are found, the other runs measured", () => {
  test("a channel of NaN alone", async () => {
    const folder = dayWith(cells((row) => void (row[2] = "NaN")));
    const day = await reduceDay(folder);
    expect(verdicts(day)).toEqual({ H1: "go", T1: "repeat", T2: "go" });
    expect(day.runs[1]?.findings).toContainEqual(expect.objectContaining({ code: "missing-samples", severity: "reject", channel: "drawbarPull", measured: 1 }));
    expect(day.runs[1]?.findings).toContainEqual(expect.objectContaining({ code: "zero-missing", severity: "reject", channel: "drawbarPull" }));
    expect(measured(day, "T2")).toBe(true);
    expect(drawbar("check", folder, "--quiet").code).toBe(1);
  });

  test.each([["load", 1], ["pull", 2], ["angle", 3], ["position", 4]] as const)("NaN in every row of the %s: that run gives no number that passes for measured", async (_, column) => {
    const day = await reduceDay(dayWith(cells((row) => void (row[column] = "NaN"))));
    expect(day.runs[1]?.verdict).toBe("repeat");
    expect(measured(day, "T1")).toBe(false);
    expect(measured(day, "T2")).toBe(true);
  });

  test("a wheel angle in a unit far too small is told, not counted turn by turn", async () => {
    const day = await reduceDay(dayWith(cells((row) => void (row[3] = String(Number(row[3]) * 1e9)))));
    expect(day.runs[1]?.findings).toContainEqual(expect.objectContaining({ code: "angle-too-coarse", severity: "reject", channel: "wheelAngle" }));
    expect(verdicts(day)).toEqual({ H1: "go", T1: "repeat", T2: "go" });
  });

  test("a single NaN does not cost the run", async () => {
    const day = await reduceDay(dayWith(cells((row, i) => void (i === 500 && (row[2] = "NaN")))));
    expect(measured(day, "T1")).toBe(true);
  });

  test("two runs with the same bytes are both rejected, since nothing says whose file it is", async () => {
    const folder = dayWith((files) => void (files[log] = files["logs/T2.csv"] ?? ""));
    const day = await reduceDay(folder);
    expect(verdicts(day)).toEqual({ H1: "go", T1: "repeat", T2: "repeat" });
    for (const run of day.runs.slice(1)) expect(run.findings).toContainEqual(expect.objectContaining({ code: "same-bytes", severity: "reject" }));
    expect(measured(day, "H1")).toBe(true);
    expect(drawbar("check", folder, "--quiet").code).toBe(1);
  });

  test("a log for a run not on the sheet is told; nothing is rejected for it", async () => {
    const folder = dayWith((files) => void (files["logs/T9.csv"] = String(files["logs/T2.csv"]).replace("0.00", "0.0")));
    const day = await reduceDay(folder);
    expect(day.unclaimedFiles).toEqual(["logs/T9.csv"]);
    expect(day.findings).toContainEqual(expect.objectContaining({ code: "log-not-on-sheet", severity: "look" }));
    expect(verdicts(day)).toEqual({ H1: "go", T1: "go", T2: "go" });
    const { code, out } = drawbar("check", folder, "--quiet");
    expect(code).toBe(0);
    expect(out).toContain("logs/T9.csv belongs to no run");
  });
});
