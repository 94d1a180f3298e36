import { describe, expect, it } from "vitest";
import { exampleDay } from "./exampleDay.ts";
import { changed, reading, stopping } from "./issuesOf.ts";

const runs = exampleDay["runs.csv"];
const issuesOf = (changes: Record<string, string>) => reading(changes).issues.map((issue) => [issue.run, issue.code, issue.at]);
const dropped = ",drop,Alm,,,,,1,C,250\n";

describe("a mistake that stops one run", () => {
  it.each([
    ["unknown wheel", "T01,traction,Birk", "T01,traction,Brik", "T01", "unknown-wheel", 'runs.csv line 2, column "wheel"'],
    ["unknown bed", "Birk,Bed 1", "Birk,Bed 2", "T01", "unknown-bed", 'runs.csv line 2, column "bed"'],
    ["unknown kind", "hard floor", "hard flor", "H01", "unknown-choice", 'runs.csv line 4, column "kind"'],
    ["text in a number", "150,20,", "15O,20,", "T01", "bad-number", 'runs.csv line 2, column "load [N]"'],
    ["unit in a cell", "150,20,", "150,20 %,", "T01", "bad-number", 'runs.csv line 2, column "slip [%]"'],
    ["thousands or decimals", "150,20,", '"1,150",20,', "T01", "bad-number", 'runs.csv line 2, column "load [N]"'],
    ["slip beyond 100 %", "150,20,", "150,200,", "T01", "out-of-range", 'runs.csv line 2, column "slip [%]"'],
    ["a negative load", "150,20,", "-150,20,", "T01", "out-of-range", 'runs.csv line 2, column "load [N]"'],
    ["exclusion without a reason", "carriage stuck", "", "T02", "missing-reason", 'runs.csv line 3, column "reason"'],
    ["reason without exclusion", "yes,carriage", ",carriage", "T02", "reason-without-exclusion", 'runs.csv line 3, column "excluded"'],
    ["exclusion neither yes nor no", "yes,carriage", "perhaps,carriage", "T02", "unknown-choice", 'runs.csv line 3, column "excluded"'],
    ["no load for a traction run", "150,20,", ",20,", "T01", "missing", 'runs.csv line 2, column "load [N]"'],
    ["no height for a drop", "C,250", "C,", "D01", "missing", 'runs.csv line 9, column "height [mm]"'],
    ["no area for a shear run", ",100,5,", ",,5,", "S01", "missing", 'runs.csv line 8, column "shear area [cm2]"'],
    ["no length for a rectangle", "50,150,", "50,,", "P02", "missing", 'runs.csv line 7, column "plate length [mm]"'],
    ["sides of a rectangle swapped", "50,150,", "150,50,", "P02", "plate-size", 'runs.csv line 7, column "plate length [mm]"'],
    ["a circle with another length", "circle,100,,", "circle,100,90,", "P01", "plate-size", 'runs.csv line 6, column "plate length [mm]"'],
    ["no shape", "circle,100", ",100", "P01", "missing", 'runs.csv line 6, column "plate"'],
    ["a cell too many", "150,20,", "150,2,0,", "T01", "too-many-cells", "runs.csv line 2"],
  ])("%s", (_, from, to, run, code, at) => {
    const day = reading(changed("runs.csv", from, to));
    expect(day.issues.map((issue) => [issue.run, issue.code, issue.at])).toContainEqual([run, code, at]);
    expect(day.issues.every((issue) => issue.run === run)).toBe(true);
    expect(day.runs).toHaveLength(9);
  });

  it("leaves null where the cell was wrong and keeps the rest", () => {
    const day = reading({ "runs.csv": runs.replace("hard floor", "soft floor").replace("150,20,50", "15O,20,50") });
    expect(day.runs.find((run) => run.id === "H01")).toMatchObject({ kind: null, setLoadN: 150 });
    expect(day.runs.find((run) => run.id === "T01")).toMatchObject({ kind: "traction", setLoadN: null, setSlip: 0.2 });
  });

  it("suggests what may be meant", () => {
    const hints = (from: string, to: string) => reading(changed("runs.csv", from, to)).issues.map((issue) => issue.hint);
    expect(hints("T01,traction,Birk", "T01,traction,Brik")).toEqual(["Did you mean Birk?"]);
    expect(hints("hard floor", "hard flor")).toEqual(["Did you mean hardFloor?"]);
  });

  it("takes an exclusion without a reason for an exclusion all the same", () => {
    expect(reading(changed("runs.csv", "carriage stuck", "")).runs[1]?.excluded).toBe("no reason given");
  });
});

describe("kinds", () => {
  it.each(["hard floor", "hardFloor", "Hard floor", "HARD-FLOOR", "hard_floor"])("%s", (kind) => {
    expect(reading(kind === "hard floor" ? {} : changed("runs.csv", "hard floor", kind)).runs[2]?.kind).toBe("hardFloor");
  });
});

describe("run ids", () => {
  it("used twice: every row is named, none is lost, all stay apart", () => {
    const day = reading({ "runs.csv": `${runs}t01${dropped}` });
    expect(day.issues.map((issue) => [issue.run, issue.code, issue.at])).toEqual([
      ["T01 (line 2)", "duplicate-run", 'runs.csv line 2, column "run"'],
      ["t01 (line 11)", "duplicate-run", 'runs.csv line 11, column "run"'],
    ]);
    expect(day.issues[0]?.message).toBe('expected each run id once (capitals do not count), found "T01" on lines 2, 11');
    expect(day.runs.map((run) => run.sheetId)).toContain("T01");
    expect(new Set(day.runs.map((run) => run.id)).size).toBe(10);
  });

  it.each(["<script>alert(1)</script>", "=1+1", "../T09", "T 09", "T09.", ".T09", "x".repeat(65), "Å1"])("%s may not become part of a file name", (id) => {
    const day = reading({ "runs.csv": `${runs}${id}${dropped}` });
    expect(day.issues.map((issue) => [issue.code, issue.at])).toEqual([["bad-run-id", 'runs.csv line 11, column "run"']]);
    expect(day.runs[9]?.id).toBe(`${id.slice(0, 64)} (line 11)`);
    expect(day.issues[0]?.run).toBe(day.runs[9]?.id);
  });

  it.each(["T-09_b.2", "9", "x".repeat(64)])("%s may", (id) => {
    expect(reading({ "runs.csv": `${runs}${id}${dropped}` }).issues).toEqual([]);
  });

  it("missing", () => {
    const day = reading({ "runs.csv": runs + dropped });
    expect(day.issues.map((issue) => [issue.run, issue.code, issue.at])).toEqual([["? (line 11)", "missing", 'runs.csv line 11, column "run"']]);
  });
});

describe("columns", () => {
  const codes = (changes: Record<string, string>) => stopping(changes).map((issue) => [issue.code, issue.at, issue.hint]);
  it("missing, with the one that may be meant", () => {
    expect(codes(changed("runs.csv", "kind", "knid"))[0]).toEqual(["missing-column", "runs.csv", 'Is "knid" meant? Rename it.']);
    expect(codes({ "runs.csv": "run,kind\nA,shear\nB,shear\n" })).toEqual([
      ["missing-column", "runs.csv", "Add the column."],
      ["missing-column", "runs.csv", "Add the column."],
    ]);
  });
  it("without a unit, of an unknown one, of the wrong kind", () => {
    expect(codes(changed("runs.csv", "load [N]", "load"))).toEqual([["missing-unit", 'runs.csv, column "load"', 'Write the unit in brackets, e.g. "load [N]".']]);
    expect(codes(changed("runs.csv", "load [N]", "load [Nn]"))[0]?.slice(0, 2)).toEqual(["unknown-unit", 'runs.csv, column "load [Nn]"']);
    expect(codes(changed("runs.csv", "load [N]", "load [kg]"))[0]?.slice(0, 2)).toEqual(["wrong-dimension", 'runs.csv, column "load [kg]"']);
    expect(codes(changed("runs.csv", "wheel", "wheel [mm]"))[0]?.slice(0, 2)).toEqual(["needless-unit", 'runs.csv, column "wheel [mm]"']);
  });
  it("near a known one: said, and carried along", () => {
    const day = reading(changed("runs.csv", "speed [mm/s]", "sped [mm/s]"));
    expect(day.issues.map((issue) => [issue.run, issue.code, issue.at])).toEqual([[null, "near-heading", 'runs.csv, column "sped [mm/s]"']]);
    expect(day.runs[0]).toMatchObject({ setSpeedMps: null, more: { sped: { value: 50, unit: "mm/s" } } });
  });
  it("headings only", () => expect(stopping({ "runs.csv": "run,kind\n" }).map((issue) => issue.code)).toEqual(["no-runs"]));
});

describe("records", () => {
  it("a wheel whose row has a mistake stops its runs only", () => {
    expect(issuesOf(changed("wheels.csv", "Alm,130", "Alm,13o"))).toEqual([
      ["T02", "broken-wheel", 'runs.csv line 3, column "wheel"'],
      ["D01", "broken-wheel", 'runs.csv line 9, column "wheel"'],
      ["L01", "broken-wheel", 'runs.csv line 10, column "wheel"'],
      [null, "bad-number", 'wheels.csv line 3, column "radius [mm]"'],
    ]);
  });
  it("a wheel on two rows names nothing", () => {
    expect(issuesOf({ "wheels.csv": `${exampleDay["wheels.csv"]}Alm,130,110,1.6,0,,no,\n` }).filter(([run]) => run === null)).toEqual([
      [null, "duplicate-wheel", 'wheels.csv line 3, column "wheel"'],
      [null, "duplicate-wheel", 'wheels.csv line 4, column "wheel"'],
    ]);
  });
  it("lugs need a height", () => {
    expect(issuesOf(changed("wheels.csv", "24,8,no", "24,,no"))).toContainEqual([null, "missing", "wheels.csv line 2"]);
  });
  it("construction factors keep their unit; a bad one stops no run", () => {
    const day = reading(changed("wheels.csv", "1.2,35", "1.2 mm,35"));
    expect(day.issues.map((issue) => [issue.run, issue.code, issue.at])).toEqual([[null, "bad-number", 'wheels.csv line 3, column "spoke thickness [mm]"']]);
    expect(day.wheels[1]?.factors).toMatchObject({ "spoke thickness": { text: "1.2 mm" }, "core fraction": { value: 35, unit: "%" } });
    expect(issuesOf(changed("wheels.csv", "core fraction [%]", "core fraction [furlong]"))).toEqual([[null, "unknown-unit", 'wheels.csv, column "core fraction [furlong]"']]);
  });
});
