import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, test, vi } from "vitest";
import { predictCommand } from "../../src/cli/predictCommand.ts";
import type { PredictOptions } from "../../src/cli/predictCommand.ts";
import { InputError, UsageError } from "../../src/core/errors.ts";
import { slipForecast } from "../../src/fitting/slipForecast.ts";
import { flexible, rigid, soilCard, soilFile } from "../helpers/soilCard.ts";

const root = mkdtempSync(join(tmpdir(), "drawbar-predict-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));
const file = (name: string, text: string): string => {
  writeFileSync(join(root, name), text);
  return join(root, name);
};
const card = soilCard({ draws: 40 });
const soil = file("soil.json", soilFile(card));

/** What the command prints. */
function printed(options: PredictOptions, from = soil): string {
  let said = "";
  const out = vi.spyOn(process.stdout, "write").mockImplementation((chunk) => ((said += String(chunk)), true));
  const err = vi.spyOn(process.stderr, "write").mockImplementation(() => true);
  try {
    expect(predictCommand(from, options)).toBe(0);
  } finally {
    out.mockRestore();
    err.mockRestore();
  }
  return said;
}
const issuesOf = (options: PredictOptions, from = soil): string[] => {
  try {
    predictCommand(from, options);
  } catch (error) {
    if (error instanceof InputError) return error.issues.map(({ at, message, hint }) => `${at.replace(`${root}/`, "")}: ${message}. ${hint}`);
    throw error;
  }
  return [];
};

describe("what is printed", () => {
  test("a table a load: a row a slip, slope, what lies outside, what it rests on", () => {
    const text = printed({ wheel: "M1", load: "60,150", slip: "0.2,0.8", slopeAt: "0.3" });
    expect(text).toMatch(/^Wheel M1 \(310 mm over the lugs, 100 mm wide, rigid\) on the soil of .*soil\.json: 12 runs, bed B1\n\nLoad 60 N\n/);
    const [row] = slipForecast(card, rigid, 60, [0.2, 0.8]).rows;
    expect(text).toMatch(new RegExp(`\\n +0\\.2 +${(row?.best?.pullN as number).toFixed(1).replace(".", "\\.")}\\d* +\\(`));
    expect(text).toContain("Outside the runs: load 150 N above the runs' 30 N to 100 N, by a factor of 1.5");
    expect(text).toContain("[1] slip above the runs' 0.05 to 0.5");
    expect(text).toMatch(/At slip 0\.3 it climbs \d+\.\d° \(\d+\.\d … \d+\.\d\)\./);
    expect(text.split("\n").every((line) => line.length <= 150)).toBe(true);
  });

  test("without slips: those of the runs, in round steps", () => {
    const { forecasts: [forecast] } = JSON.parse(printed({ wheel: "M1", load: "60", json: true })) as { forecasts: { rows: { slip: number }[] }[] };
    expect(forecast?.rows.map(({ slip }) => slip)).toEqual([0.05, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4, 0.45, 0.5]);
  });

  test("JSON: the forecast's own numbers, null where there is none", () => {
    const { forecasts: [forecast] } = JSON.parse(printed({ wheel: "M2", load: "60", slip: "-0.2,0.2", json: true })) as { forecasts: { rows: Record<string, { value: number | null; interval95: number[] | null }>[] }[] };
    const { rows } = slipForecast(card, flexible, 60, [-0.2, 0.2]);
    expect(forecast?.rows[1]?.["pullN"]).toEqual({ value: rows[1]?.best?.pullN, interval95: rows[1]?.band.pullN });
    expect(forecast?.rows[0]?.["efficiency"]).toEqual({ value: null, interval95: null });
  });

  test("CSV: a row a slip, and one a slope", () => {
    const lines = printed({ wheel: "M1", load: "60", slip: "0.2", slopeAt: "0.3", csv: true }).split("\r\n").slice(0, -1);
    expect(lines).toHaveLength(3);
    expect(lines[0]).toMatch(/^\ufeffwheel,load \[N\],slip \[1\],pull \[N\],low pull \[N\],high pull \[N\],torque \[N\.m\]/);
    expect(lines[1]?.split(",").slice(0, 4).map(Number).slice(1)).toEqual([60, 0.2, slipForecast(card, rigid, 60, [0.2]).rows[0]?.best?.pullN]);
  });

  test("a mass weighs by the gravity given, else by that of the day; elsewhere it is said what is taken for granted", () => {
    const moon = printed({ wheel: "M1", mass: "30", gravity: "1.62", slip: "0.2" });
    expect(moon).toContain("Load 30 kg at 1.62 m/s² = 48.6 N");
    expect(moon.replace(/\s+/g, " ")).toContain("The soil's constants are taken not to change with gravity: this is not tested by this data.");
    const here = printed({ wheel: "M1", mass: "5", slip: "0.2" });
    expect(here).toContain("Load 5 kg at 9.81 m/s² = 49.05 N");
    expect(here).not.toContain("change with gravity");
  });

  test("no balance is an answer", () => {
    expect(printed({ wheel: "M1", load: "1e6", slip: "0.2", slopeAt: "0.2" })).toMatch(/– .*\[1\]\n {2}\[1\] no balance: the soil does not carry 1000000 N before the wheel is in up to its axle\n\n {2}At slip 0\.2 it finds no balance on a slope\./);
  });
});

describe("wheels", () => {
  const yaml = (more: string): string => `wheel: N1\ndiameter: 30 cm\nwidth: 100 mm\nlugs: 24\nlugHeight: 5 mm\n${more}`;

  test("from a YAML file: the same as one of the day with these sizes", () => {
    const same = { ...rigid, id: "N1" };
    const { forecasts: [forecast], wheel } = JSON.parse(printed({ wheel: file("n1.yaml", yaml("flexible: false\n")), load: "60", slip: "0.2", json: true })) as { wheel: unknown; forecasts: { rows: { pullN: { value: number } }[] }[] };
    expect(wheel).toEqual({ ...same, rimM: expect.closeTo(0.15, 12) as number, lugHeightM: expect.closeTo(0.005, 12) as number });
    expect(forecast?.rows[0]?.pullN.value).toBeCloseTo(slipForecast(card, same, 60, [0.2]).rows[0]?.best?.pullN as number, 9);
  });

  test("a flexible one brings its load–deflection pairs, in any unit", () => {
    const { wheel } = JSON.parse(printed({ wheel: file("n2.yaml", yaml("flexible: true\nloadDeflection: { load: kN, deflection: mm, points: [[0.03, 2], [0.08, 5]] }\n")), load: "60", slip: "0.2", json: true })) as { wheel: { curve: { loadN: number[]; deflectionM: number[] } } };
    expect(wheel.curve).toEqual({ loadN: [30, 80], deflectionM: [0.002, 0.005] });
  });

  test("from a table like wheels.csv; a flexible one has no curve there", () => {
    const table = file("wheels.csv", "wheel;radius [mm];width [mm];mass [kg];lugs;lug height [mm];flexible\nA1;150;100;1;12;5;no\nA2;150;100;1;0;;yes\n");
    expect(JSON.parse(printed({ wheel: "A1", wheels: table, load: "60", slip: "0.2", json: true }))).toMatchObject({ wheel: { id: "A1", rimM: 0.15, lugHeightM: 0.005 } });
    expect(issuesOf({ wheel: "A2", wheels: table, load: "60" })[0]).toMatch(/^wheels\.csv line 3, column "flexible": expected a rigid wheel, found that .*A2.* is flexible, and the table has no load–deflection curve\. /);
    expect(issuesOf({ wheel: "A3", wheels: table, load: "60" })[0]).toMatch(/^wheels\.csv: expected the wheel .*A3.*, found A1, A2\. Give the name of one of them/);
  });

  test("mistakes in a wheel's file are told all at once, each with its line", () => {
    expect(issuesOf({ wheel: file("bad.yaml", "wheel: N1\ndiametre: 300 mm\nwidth: 100\nlugs: 12\nflexible: perhaps\n"), load: "60" }).map((issue) => issue.split(":")[0])).toEqual(["bad.yaml, diameter", "bad.yaml line 5, flexible", "bad.yaml line 2, diametre"]);
    expect(issuesOf({ wheel: file("bare.yaml", "wheel: N1\ndiameter: 300\nwidth: 0 mm\nlugs: 12\nflexible: true\n"), load: "60" })).toEqual([
      expect.stringMatching(/^bare\.yaml line 2, diameter: expected a length above 0 with its unit, such as 240 mm, found .*300/),
      expect.stringMatching(/^bare\.yaml line 3, width: expected a length above 0/),
      expect.stringMatching(/^bare\.yaml line 4, lugs: expected lugHeight for a wheel with 12 lugs, found nothing/),
      expect.stringMatching(/^bare\.yaml line 5, flexible: expected loadDeflection for a flexible wheel, found nothing/),
    ]);
    expect(issuesOf({ wheel: file("fall.yaml", yaml("flexible: true\nloadDeflection: { load: N, deflection: kg, points: [[30, 2], [20, 5]] }\n")), load: "60" })).toEqual([
      expect.stringMatching(/^fall\.yaml line 7, loadDeflection\.deflection: expected a unit of length, found .*kg/),
      expect.stringMatching(/^fall\.yaml line 7, loadDeflection\.points\.1: expected load and deflection above those of the pair before \(30, 2\), found 20, 5/),
    ]);
    expect(issuesOf({ wheel: file("twice.yaml", "wheel: &a N1\ndiameter: *a\n"), load: "60" })).toEqual(["twice.yaml: expected plain values, found blocks to be repeated. Write the values out."]);
    expect(issuesOf({ wheel: file("list.yaml", "- 3\n"), load: "60" })[0]).toMatch(/^list\.yaml: expected the keys wheel, diameter/);
    expect(issuesOf({ wheel: file("open.yaml", "wheel: [\n"), load: "60" })[0]).toMatch(/^open\.yaml line \d: expected YAML/);
    expect(issuesOf({ wheel: "nowhere.yaml", load: "60" })).toEqual(["nowhere.yaml: expected a file that can be read, found none of that name. Check the path."]);
    expect(issuesOf({ wheel: "M3", load: "60" })[0]).toMatch(/^soil\.json, underWheels\.wheels: expected a wheel of this soil file \(M1, M2\), found "M3"\. For another wheel give a YAML file/);
  });
});

describe("cards", () => {
  const bad = (name: string, text: string): string => issuesOf({ wheel: "M1", load: "60" }, file(name, text))[0] ?? "";

  test("that are none, hold nothing on wheels, or do not hang together", () => {
    expect(bad("a.json", "{")).toMatch(/^a\.json: expected JSON, found .*Give the soil\.json of a folder/);
    expect(bad("b.json", "[1]")).toMatch(/^b\.json: expected "format": "drawbar soil constants", found none/);
    expect(bad("c.json", soilFile(null))).toMatch(/^c\.json, underWheels: expected the soil under the wheels, found null\. Write wheelModel: \{\} under soil in rig\.yaml/);
    expect(bad("d.json", soilFile({ ...card, draws: { ...card.draws, rows: [[1, 2]] } }))).toMatch(/^d\.json, underWheels\.draws\.rows\.0: expected 15 numbers, found 2/);
    expect(bad("e.json", soilFile({ ...card, gravityMps2: -1 }))).toMatch(/^e\.json, underWheels\.gravityMps2: expected a number above 0, found -1/);
    expect(bad("f.json", soilFile({ ...card, wheels: [{ ...flexible, curve: { deflectionM: [0.002, 0.001], loadN: [1, 2] } }] }))).toMatch(/^f\.json, underWheels\.wheels\.0\.curve: expected deflections and loads of equal number, both rising/);
  });
});

describe("wrong calls", () => {
  const refused = (options: Partial<PredictOptions>): string => {
    try {
      predictCommand(soil, { wheel: "M1", ...options });
    } catch (error) {
      return error instanceof UsageError ? error.message : String(error);
    }
    return "";
  };

  test("are told with what is expected", () => {
    expect(refused({})).toMatch(/^expected either --load or --mass, found neither/);
    expect(refused({ load: "1", mass: "1" })).toMatch(/found both/);
    expect(refused({ load: "60", gravity: "1.62" })).toMatch(/^expected --mass with --gravity, found --load/);
    expect(refused({ load: "60,heavy" })).toBe('expected --load as numbers above 0 [N], found "heavy"');
    expect(refused({ load: "60", slip: "20" })).toMatch(/^expected --slip as slips above −1 and up to 1/);
    expect(refused({ load: "60", slip: "0.5:0.1:0.1" })).toMatch(/^expected --slip as from:to:step/);
    expect(refused({ load: "60", json: true, csv: true })).toBe("expected --json or --csv, found both");
  });
});

test("the page stands alone, is written once, and never over a file", () => {
  const page = join(root, "page.html");
  const main = fileURLToPath(new URL("../../src/cli/main.ts", import.meta.url));
  const run = spawnSync(process.execPath, ["--import", "tsx", main, "predict", soil, "--wheel", "M1", "--load", "60", "--slip=0:1:0.1", "--page", page], { encoding: "utf8" });
  expect(run).toMatchObject({ status: 0, stderr: `Page: ${page}\n` });
  const html = readFileSync(page, "utf8");
  expect(html.match(/<svg /g)?.length).toBeGreaterThanOrEqual(4);
  expect(html).not.toMatch(/<script|https?:\/\/(?!www\.w3\.org)/);
  const again: string[] = [];
  const out = vi.spyOn(process.stdout, "write").mockImplementation(() => true);
  again.push(...issuesOf({ wheel: "M1", load: "60", slip: "0.2", page }));
  out.mockRestore();
  expect(again).toEqual([`page.html: expected no file of that name, found one. Remove it, or give another name or folder`]);
  expect(readFileSync(page, "utf8")).toBe(html);
  expect(existsSync(`${page}.part`)).toBe(false);
});
