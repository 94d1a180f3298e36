import { describe, expect, it } from "vitest";
import { exampleDay } from "./exampleDay.ts";
import { reading, stopping } from "./issuesOf.ts";

const heading = "wheel,distance [km],mass [g],soil mass [g],cleaned mass [g],radius [mm],stiffness [N/mm],pull coefficient [1],run,broken elements,failed,remark";
const sheet = (...rows: readonly string[]) => ({ "inspections.csv": [heading, ...rows, ""].join("\n") });

describe("inspections.csv", () => {
  it("may be left out", () => {
    expect(reading().inspections).toEqual([]);
  });

  it("stands in SI units; an empty cell was not written down", () => {
    const day = reading(sheet("Alm,0,1600,0,,130,12,0.31,,0,no,", "Alm,10,1612,14.5,1597.8,,,,T01,2,yes,two spokes"));
    expect(day.issues).toEqual([]);
    expect(day.inspections[0]).toMatchObject({ wheel: "Alm", distanceM: 0, massKg: 1.6, soilMassKg: 0, cleanedMassKg: null, radiusM: 0.13, stiffnessNm: 12000, pullCoefficient: 0.31, run: null, brokenElements: 0, failed: false });
    expect(day.inspections[1]).toMatchObject({ distanceM: 10000, soilMassKg: 0.0145, radiusM: null, stiffnessNm: null, pullCoefficient: null, run: "T01", brokenElements: 2, failed: true, remark: "two spokes", line: 3 });
    expect(day.inspections[1]?.cleanedMassKg).toBeCloseTo(1.5978, 12);
    expect(day.files.map((file) => file.file)).toContain("inspections.csv");
  });

  it("leaves out a row with a wheel, a run or a number nobody knows, and says where", () => {
    const day = reading(sheet("Alm,0,1600,0,,,,,,,no,", "Aln,1,1600,0,,,,,,,no,", "Alm,2,1600,0,,,,,T99,,no,", "Alm,-3,1600,0,,,,,,,no,", "Alm,4,1600,0,,,,,,,perhaps,"));
    expect(day.inspections.map((row) => row.distanceM)).toEqual([0]);
    expect(day.issues.map((issue) => [issue.code, issue.at])).toEqual([
      ["unknown-wheel", 'inspections.csv line 3, column "wheel"'],
      ["unknown-run", 'inspections.csv line 4, column "run"'],
      [expect.any(String), 'inspections.csv line 5, column "distance [km]"'],
      [expect.any(String), 'inspections.csv line 6, column "failed"'],
    ]);
  });

  it("asks for a distance with its unit, and whether the wheel failed", () => {
    const issues = stopping({ "inspections.csv": "wheel,distance\nAlm,1\n" });
    expect(issues.map((issue) => [issue.code, issue.at])).toEqual([
      ["missing-column", "inspections.csv"],
      ["missing-unit", 'inspections.csv, column "distance"'],
    ]);
  });
});

describe("endurance in rig.yaml", () => {
  const declared = (block: string) => ({ "rig.yaml": `${exampleDay["rig.yaml"].trimEnd()}\nendurance: ${block}\n` });

  it("has no default", () => {
    expect(reading(declared("{}")).rig.endurance).toEqual({});
    expect(reading().rig.endurance).toBeUndefined();
  });

  it("asks whether a life line has a cut-off", () => {
    const line = "range: 100, cycles: 1e6, exponent: 5";
    expect(reading(declared(`{ lifeLine: { ${line}, cutOff: null } }`)).rig.endurance?.lifeLine?.cutOff).toBeNull();
    expect(stopping(declared(`{ lifeLine: { ${line} } }`))[0]?.at).toContain("endurance.lifeLine");
  });
});
