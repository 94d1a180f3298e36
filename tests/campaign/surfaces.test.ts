import { describe, expect, it } from "vitest";
import { exampleDay } from "./exampleDay.ts";
import { reading, stopping } from "./issuesOf.ts";

const heading = "run,scan,position [mm],across [mm],height [mm]";
const sheet = (...rows: readonly string[]) => ({ "surfaces.csv": [heading, ...rows, ""].join("\n") });

describe("surfaces.csv", () => {
  it("may be left out, and then no run has a surface", () => {
    expect(reading().runs.filter((run) => run.surface !== undefined)).toEqual([]);
  });

  it("stands with its run in SI units, in order of the position", () => {
    const day = reading(sheet("T01,before,300,,12.5", "T01,before,100,-8,12", "T01,After,100,0,-6"));
    expect(day.issues).toEqual([]);
    expect(day.runs.find((run) => run.id === "T01")?.surface).toEqual({
      before: [{ positionM: 0.1, acrossM: -0.008, heightM: 0.012 }, { positionM: 0.3, acrossM: null, heightM: 0.0125 }],
      after: [{ positionM: 0.1, acrossM: 0, heightM: -0.006 }],
    });
    expect(day.files.map((file) => file.file)).toContain("surfaces.csv");
  });

  it("leaves out a point of a run, a scan or a place nobody knows, and says where", () => {
    const day = reading(sheet("T01,before,100,,1", "T99,before,100,,1", "T01,during,100,,1", "T01,after,here,,1"));
    expect(day.runs.find((run) => run.id === "T01")?.surface).toEqual({ before: [{ positionM: 0.1, acrossM: null, heightM: 0.001 }], after: [] });
    expect(day.issues.map((issue) => [issue.code, issue.at])).toEqual([
      ["unknown-run", 'surfaces.csv line 3, column "run"'],
      [expect.any(String), 'surfaces.csv line 4, column "scan"'],
      ["bad-number", 'surfaces.csv line 5, column "position [mm]"'],
    ]);
  });

  it("asks for the units of place and height", () => {
    expect(stopping({ "surfaces.csv": "run,scan,position,height [kg]\nT01,before,1,1\n" }).map((issue) => issue.code)).toEqual(["missing-unit", "wrong-dimension"]);
  });

  it("wants the scanner described whole", () => {
    const declared = (block: string) => ({ "rig.yaml": `${exampleDay["rig.yaml"].trimEnd()}\nsurfaceScan: ${block}\n` });
    expect(reading(declared("{ relative: 0.01, offset: 0.0002, slope: 0.0004, date: 2026-09-01, certificate: SCN-3 }")).rig.surfaceScan?.offset).toBe(0.0002);
    expect(stopping(declared("{ relative: 0.01, offset: 0.0002, date: 2026-09-01, certificate: SCN-3 }"))[0]?.at).toContain("surfaceScan");
  });
});
