import { existsSync, mkdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { reduceDay } from "../../src/day.ts";
import { removeDays } from "../helpers/tinyDay.ts";
import { dayWith, drawbar, measured, refusal, replaced } from "./days.ts";
import type { Change } from "./days.ts";

afterAll(removeDays);

const letters = ["a", "b", "c", "d", "e", "f"];
const exploding = letters.map((letter, i) => `${letter}: &${letter} [${new Array(9).fill(i === 0 ? "x" : `*${letters[i - 1]}`).join(", ")}]`).join("\n");

/** What makes the whole day unreadable: the change, then code and place. */
const refused: readonly (readonly [what: string, change: Change, code: string, at: string])[] = [
  ["no rig description", (files) => void delete files["rig.yaml"], "missing-file", "rig.yaml"],
  ["no run sheet", (files) => void delete files["runs.csv"], "missing-file", "runs.csv"],
  ["an empty run sheet", (files) => void (files["runs.csv"] = ""), "empty-file", "runs.csv"],
  ["a run sheet of headings", replaced("runs.csv", /\n[^]*/, "\n"), "no-runs", "runs.csv"],
  ["an unknown unit on the sheet", replaced("runs.csv", "load [N]", "load [Nt]"), "unknown-unit", 'runs.csv, column "load [Nt]"'],
  ["a unit of the wrong dimension on the sheet", replaced("runs.csv", "load [N]", "load [mm]"), "wrong-dimension", 'runs.csv, column "load [mm]"'],
  ["an unknown unit in rig.yaml", replaced("rig.yaml", "column: X, unit: mm", "column: X, unit: mn"), "unknown-unit", "rig.yaml line 14, loggers.box.channels.carriagePosition.unit"],
  ["a unit of the wrong dimension in rig.yaml", replaced("rig.yaml", "column: X, unit: mm", "column: X, unit: s"), "wrong-dimension", "rig.yaml line 14, loggers.box.channels.carriagePosition.unit"],
  ["no radius policy", replaced("rig.yaml", /slipRadius.*\n/, ""), "no-radius-policy", "rig.yaml, slipRadius"],
  ["a path that leaves the day folder", replaced("rig.yaml", "logs/{run}.csv", "../{run}.csv"), "path-leaves-folder", "rig.yaml line 7, loggers.box.files"],
  ["an absolute path", replaced("rig.yaml", "logs/{run}.csv", "/{run}.csv"), "path-leaves-folder", "rig.yaml line 7, loggers.box.files"],
  ["anchors that explode", replaced("rig.yaml", "rig: Tiny rig", `${exploding}\nrig: Tiny rig`), "too-many-aliases", "rig.yaml line 3"],
];

describe("a day that cannot be understood is refused as a whole", () => {
  test.each(refused)("%s", async (_, change, code, at) => {
    const folder = dayWith(change);
    const issues = await refusal(folder);
    expect(issues.map((issue) => [issue.code, issue.at])).toContainEqual([code, at]);
    const out = join(folder, "out");
    const ended = drawbar("reduce", folder, "--out", out, "--quiet");
    expect(ended).toMatchObject({ code: 2, out: "" });
    expect(ended.err).toContain(`${at}: expected`);
    expect(existsSync(out)).toBe(false);
  });

  test("mistakes in several files are all told at once", async () => {
    const folder = dayWith((files) => {
      replaced("rig.yaml", /slipRadius.*\n/, "")(files);
      replaced("runs.csv", "load [N]", "load [mm]")(files);
      replaced("wheels.csv", "mass [kg]", "mass")(files);
    });
    expect((await refusal(folder)).map((issue) => issue.code)).toEqual(["no-radius-policy", "wrong-dimension", "missing-unit"]);
  });

  test("no folder, and a file for a folder", () => {
    const folder = dayWith(() => undefined);
    expect(drawbar("check", join(folder, "nowhere"))).toMatchObject({ code: 2, out: "" });
    expect(drawbar("check", join(folder, "rig.yaml"))).toMatchObject({ code: 2, out: "" });
  });
});

describe("wrong use", () => {
  test.each([
    ["an unknown command", ["reduse"]],
    ["an unknown option", ["check", ".", "--quick"]],
    ["no day", ["reduce"]],
    ["no output folder", ["reduce", "."]],
  ])("%s ends with 3 and a word", (_, words) => {
    const ended = drawbar(...words);
    expect(ended.code).toBe(3);
    expect(ended.err).not.toBe("");
  });
});

describe("names that are code elsewhere", () => {
  const script = "<script>alert(1)</script>";
  const change: Change = (files) => {
    replaced("runs.csv", "B1,70,10,", `B1,70,10,${script}`)(files);
    replaced("runs.csv", "B1,70,20,", "B1,70,20,=1+2")(files);
    replaced("wheels.csv", "W1,", `${script},`)(files);
    replaced("wheels.csv", /$/, "=cmd,100,80,1.1,0,no\n")(files);
    files["runs.csv"] = String(files["runs.csv"]).replaceAll(",W1,", `,${script},`).replace(`T2,traction,${script}`, "T2,traction,=cmd");
    replaced("rig.yaml", "rig: Tiny rig", `rig: "${script}"`)(files);
  };

  test("come out as text in the page and as text in the table", () => {
    const folder = dayWith(change);
    const out = join(folder, "results");
    mkdirSync(out);
    const ended = drawbar("reduce", folder, "--out", out, "--quiet");
    expect(ended.err).toBe("");
    // T2's wheel has no hard-floor run, so its slip has no radius
    expect(ended.code).toBe(1);
    const page = readFileSync(join(out, "report.html"), "utf8");
    expect(page).toContain("&lt;script&gt;alert(1)");
    expect(page.match(/<script>alert/g)).toBeNull();
    const table = readFileSync(join(out, "runs.csv"), "utf8");
    expect(table.split(/[,\r\n]/).filter((cell) => /^"?[=+@\t]/.test(cell))).toEqual([]);
    expect(table).toContain("'=cmd");
  });

  test("and the runs are measured all the same", async () => {
    const day = await reduceDay(dayWith(change));
    expect(measured(day, "T1")).toBe(true);
    expect(day.runs[1]?.plan).toMatchObject({ wheel: script, remark: script });
  });
});
