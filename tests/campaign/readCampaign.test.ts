import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { readCampaign } from "../../src/campaign/readCampaign.ts";
import { exampleDay } from "./exampleDay.ts";
import { changed, reading, stopping } from "./issuesOf.ts";

describe("a complete day", () => {
  const day = reading();

  it("is read without an issue", () => {
    expect(day.issues).toEqual([]);
    expect(day.runs.map((run) => run.kind)).toEqual(["traction", "traction", "hardFloor", "freeSpin", "plate", "plate", "shear", "drop", "loadDeflection"]);
    expect(day.files.map((file) => file.file)).toEqual(["rig.yaml", "runs.csv", "wheels.csv", "beds.csv", "cones.csv"]);
    expect(day.files[0]?.sha256).toBe(createHash("sha256").update(exampleDay["rig.yaml"]).digest("hex"));
  });

  it("stands in SI units", () => {
    const [traction, skid, , , circle, rectangle, shear, drop] = day.runs;
    expect(traction).toMatchObject({ id: "T01", sheetId: "T01", wheel: "Birk", bed: "Bed 1", setLoadN: 150, setSlip: 0.2, setSpeedMps: 0.05, repeat: "1", block: "A", excluded: null, line: 2, more: { operator: { text: "IS" } } });
    expect(skid).toMatchObject({ setSlip: -0.1, excluded: "carriage stuck", remark: "dust in the rail" });
    expect(circle?.plate).toEqual({ shape: "circle", widthM: 0.1, lengthM: 0.1 });
    expect(rectangle?.plate).toEqual({ shape: "rectangle", widthM: 0.05, lengthM: 0.15 });
    expect(shear).toMatchObject({ normalStressPa: 5000 });
    expect(shear?.shearAreaM2).toBeCloseTo(0.01, 12);
    expect(drop?.dropHeightM).toBe(0.25);
    expect(day.wheels[1]).toEqual({ id: "Alm", radiusM: 0.13, widthM: 0.11, massKg: 1.6, lugs: 0, lugHeightM: 0, flexible: true, description: "hoop with spokes", bareFrame: null, line: 3, factors: { "spoke thickness": { value: 1.2, unit: "mm" }, "core fraction": { value: 35, unit: "%" }, "core material": { text: "cork" } } });
    expect(day.beds[0]).toMatchObject({ id: "Bed 1", densityKgM3: 1620, moisture: 0.003, targetGradientPaM: 4.5e6, more: { "raked by": { text: "IS" } } });
    expect(day.cones[1]).toEqual({ bed: "Bed 1", position: "left", depthM: 0.06, indexPa: 270000, line: 3 });
  });

  it("knows where a cone was pushed when both x and y are written", () => {
    const day = reading({ "cones.csv": "bed,position,x [mm],y [mm],depth [mm],index [kPa]\nBed 1,left,200,-90,20,95\nBed 1,left,200,,60,270\nBed 1,right,,,20,98\n" });
    expect(day.cones.map((cone) => cone.place)).toEqual([{ xM: 0.2, yM: -0.09 }, undefined, undefined]);
    expect(day.issues.map((issue) => `${issue.code} ${issue.at}`)).toEqual(["missing cones.csv line 3"]);
  });

  it("may do without tables no run needs", () => {
    const plates = "run,kind,plate,plate width [mm]\nP01,plate,circle,100\n";
    const bare = reading({ "runs.csv": plates, "wheels.csv": null, "beds.csv": null, "cones.csv": null });
    expect([bare.wheels, bare.beds, bare.cones, bare.issues]).toEqual([[], [], [], []]);
  });

  it("keeps texts that look like formulas or markup as texts", () => {
    const name = '<script>alert("1")</script>';
    const quoted = `"${name.replaceAll('"', '""')}"`;
    const odd = reading({ ...changed("wheels.csv", "Birk", quoted), "runs.csv": exampleDay["runs.csv"].replaceAll("Birk", quoted).replace("dust in the rail", "=HYPERLINK(1)") });
    expect(odd.issues).toEqual([]);
    expect(odd.wheels[0]?.id).toBe(name);
    expect(odd.runs[0]?.wheel).toBe(name);
    expect(odd.runs[1]?.remark).toBe("=HYPERLINK(1)");
  });
});

describe("a day that cannot be understood", () => {
  it("says every mistake of every file at once, in file order", () => {
    const issues = stopping({
      "rig.yaml": exampleDay["rig.yaml"].replace(/slipRadius.*\n/, "").replace("gravity: 9.819", "gravity: 9,819").replace("column: Pot", "column: 7").replace("shearForce:", "shaerForce:"),
      "runs.csv": exampleDay["runs.csv"].replace("slip [%]", "slip [mm]").replace("T01,traction,Birk", "T01,traction,Brik"),
      "wheels.csv": exampleDay["wheels.csv"].replace("mass [kg]", "mass").replace("radius [mm]", "radius [mn]"),
      "beds.csv": exampleDay["beds.csv"].replace("1.62", "dense"),
      "cones.csv": exampleDay["cones.csv"].replace("Bed 1,right,20", "Bed 7,right,20"),
    });
    expect(issues.map((issue) => [issue.code, issue.at])).toEqual([
      ["no-radius-policy", "rig.yaml, slipRadius"],
      ["wrong-type", "rig.yaml line 3, gravity"],
      ["wrong-type", "rig.yaml line 22, loggers.frame.channels.hubHeight.column"],
      ["unknown-channel", "rig.yaml line 56, loggers.box.channels.shaerForce"],
      ["wrong-dimension", 'runs.csv, column "slip [mm]"'],
      ["unknown-wheel", 'runs.csv line 2, column "wheel"'],
      ["broken-bed", 'runs.csv line 2, column "bed"'],
      ["broken-bed", 'runs.csv line 3, column "bed"'],
      ["broken-bed", 'runs.csv line 6, column "bed"'],
      ["broken-bed", 'runs.csv line 7, column "bed"'],
      ["broken-bed", 'runs.csv line 8, column "bed"'],
      ["unknown-unit", 'wheels.csv, column "radius [mn]"'],
      ["missing-unit", 'wheels.csv, column "mass"'],
      ["bad-number", 'beds.csv line 2, column "density [g/cm3]"'],
      ["unknown-bed", 'cones.csv line 4, column "bed"'],
    ]);
    for (const issue of issues) {
      expect(issue.message).toMatch(/^expected .+, found .+/s);
      expect(issue.hint.length).toBeGreaterThan(5);
    }
  });

  it("names absent files, and the file that may be meant", () => {
    expect(stopping({ "rig.yaml": null, "runs.csv": null, "rig.yml": "x" }).map((issue) => [issue.code, issue.at, issue.hint])).toEqual([
      ["missing-file", "rig.yaml", "Rename rig.yml to rig.yaml."],
      ["missing-file", "runs.csv", "Write it, or check the folder."],
    ]);
    const [issue] = stopping({ "wheels.csv": null });
    expect(issue).toMatchObject({ code: "missing-file", at: "wheels.csv", message: "expected wheels.csv, because the runs T01, H01, F01, D01, L01 name a wheel, found no file of that name" });
  });

});

describe("a folder that is not there", () => {
  it("is named", () => {
    expect(() => readCampaign("/nonexistent/day")).toThrow("/nonexistent/day: expected a day folder with rig.yaml and runs.csv, found no folder that can be read. Check the path.");
  });
});
