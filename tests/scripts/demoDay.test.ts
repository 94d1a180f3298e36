import { createHash } from "node:crypto";
import { mkdtempSync, readdirSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { parse } from "yaml";
import { readCampaign } from "../../src/campaign/readCampaign.ts";
import { rigSchema } from "../../src/campaign/rigSchema.ts";
import { dayPlan, loads, slips } from "../../scripts/demo/dayPlan.ts";
import { dice } from "../../scripts/demo/dice.ts";
import { chooseFaults } from "../../scripts/demo/faults.ts";
import { makeDay } from "../../scripts/makeDemoDay.ts";
import { dropRun } from "../../scripts/demo/dropRun.ts";
import { decoupling, gravity, inverse, sensorErrors } from "../../scripts/demo/rigTruth.ts";
import { simulant } from "../../scripts/demo/soilTruth.ts";
import { mark, putFixed, textBytes, written } from "../../scripts/demo/textBytes.ts";
import { rollingOnSoil, standingSinkage } from "../../scripts/demo/wheelOnSoil.ts";
import { deflection, loadAtDeflection, rollingRadius, tipRadius, wheels } from "../../scripts/demo/wheelTruth.ts";

const places: string[] = [];
const place = (): string => {
  const folder = mkdtempSync(join(tmpdir(), "drawbar-demo-"));
  places.push(folder);
  return folder;
};
afterAll(() => places.forEach((folder) => rmSync(folder, { recursive: true, force: true })));

/** What is kept beside the maker's files: where they come from, and what the pipeline makes of them. */
const keptBeside = ["ORIGIN.md", "expected.json"];

/** Name and hash of every file of a folder that the maker writes. */
function hashes(folder: string): Record<string, string> {
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => /\.\w+$/.test(name) && !keptBeside.includes(name)).sort();
  return Object.fromEntries(files.map((name) => [name, createHash("sha256").update(readFileSync(join(folder, name))).digest("hex")]));
}

describe("the day maker", () => {
  const excerpt = { seed: 7, scale: 1, faults: false, excerpt: true };
  let first = "";
  beforeAll(() => {
    first = place();
    makeDay(first, excerpt);
  });

  test("gives the same bytes for the same seed, others for another", () => {
    const second = place();
    const other = place();
    makeDay(second, excerpt);
    makeDay(other, { ...excerpt, seed: 8 });
    expect(hashes(second)).toEqual(hashes(first));
    expect(hashes(other)["logs/R009_frame.txt"]).not.toBe(hashes(first)["logs/R009_frame.txt"]);
  });

  test("gives the excerpt that is kept in fixtures/", () => {
    expect(hashes("fixtures/excerpt-day")).toEqual(hashes(first));
  });

  test("makes a folder again without leaving old logs", () => {
    const before = readdirSync(join(first, "logs"));
    makeDay(first, excerpt);
    expect(readdirSync(join(first, "logs"))).toEqual(before);
  });

  test.each(["fixtures/excerpt-day", "fixtures/open-plates"])("%s is a day drawbar can read", (folder) => {
    const text = readFileSync(join(folder, "rig.yaml"), "utf8");
    expect(() => rigSchema.parse(parse(text))).not.toThrow();
    expect(readCampaign(folder).issues).toEqual([]);
  });

  test("says in its first line that it is invented", () => {
    expect(readFileSync(join(first, "rig.yaml"), "utf8")).toMatch(/^# Invented data/);
  });
});

describe("the maker stands apart from what it is there to test", () => {
  const allowed = /^(node:.*|fast-png|\.\/[A-Za-z]+\.ts|\.\/demo\/[A-Za-z]+\.ts|\.\.\/\.\.\/src\/(core\/units|campaign\/[A-Za-z]+)\.ts)$/;
  test.each([...readdirSync("scripts/demo").map((name) => `scripts/demo/${name}`), "scripts/makeDemoDay.ts"])("%s imports only its own folder, node, a picture format and campaign types", (file) => {
    const text = readFileSync(file, "utf8");
    const imports = [...text.matchAll(/(?:import|export)\s+(type\s+)?[^;]*?from\s+"([^"]+)"/g)];
    for (const [, type, from] of imports) {
      expect(from).toMatch(allowed);
      if (from?.includes("/src/") === true) expect(type, `${from} is imported for its types only`).toBeDefined();
    }
  });
});

describe("the plan", () => {
  const runs = dayPlan(7, 1);
  const traction = runs.filter((run) => run.kind === "traction");

  test("covers wheels, loads and slips, with three repeats at 20 %", () => {
    for (const wheel of wheels) {
      for (const load of loads) {
        for (const slip of slips) expect(traction.filter((run) => run.wheel === wheel.id && run.loadN === load && run.slip === slip)).toHaveLength(slip === 0.2 ? 3 : 1);
        expect(runs.filter((run) => run.kind === "hardFloor" && run.wheel === wheel.id && run.loadN === load)).toHaveLength(1);
      }
    }
    expect(new Set(runs.map((run) => run.id)).size).toBe(runs.length);
  });

  test("begins every block with the control wheel and mixes the rest", () => {
    for (const block of ["A", "B", "C"]) {
      const order = traction.filter((run) => run.block === block);
      expect(order[0]?.remark).toBe("control wheel");
      const sorted = order.map((run) => run.wheel).sort();
      expect(order.map((run) => run.wheel)).not.toEqual(sorted);
    }
  });

  test("a larger day repeats the traction runs and nothing else", () => {
    const larger = dayPlan(7, 3);
    expect(larger.filter((run) => run.kind === "traction")).toHaveLength(3 * traction.length);
    expect(larger.filter((run) => run.kind !== "traction")).toHaveLength(runs.length - traction.length);
  });

  test("puts each fault into a run of its own", () => {
    const { logs, copies, excluded, knocks } = chooseFaults(runs);
    const faulty = [...logs.keys(), ...copies.keys(), ...excluded.keys(), ...knocks];
    expect(new Set(faulty).size).toBe(faulty.length);
    expect(faulty).toHaveLength(6);
    for (const [run, source] of copies) expect(runs.find((one) => one.id === run)?.wheel).not.toBe(runs.find((one) => one.id === source)?.wheel);
  });
});

describe("the truth obeys physics", () => {
  const cases = wheels.flatMap((wheel) => loads.flatMap((loadN) => slips.map((slip) => ({ wheel, loadN, slip, name: `${wheel.id} at ${loadN} N and slip ${slip}` }))));

  test.each(cases)("$name: the ground carries the load, and no energy comes from nowhere", ({ wheel, loadN, slip }) => {
    const state = rollingOnSoil(wheel, simulant, loadN, slip);
    // bisection over 90 mm in 50 steps leaves far less than a millionth of the load
    expect(Math.abs(state.loadN - loadN)).toBeLessThan(1e-6 * loadN);
    const speed = 0.25;
    const speedRatio = slip >= 0 ? 1 - slip : 1 / (1 + slip);
    const spin = speed / (speedRatio * rollingRadius(wheel, loadN));
    expect(state.torqueNm * spin).toBeGreaterThan(state.pullN * speed);
    expect(state.sinkageM).toBeGreaterThan(standingSinkage(wheel, simulant, loadN));
  });

  test("pull grows with slip, sinkage with load, on every wheel", () => {
    for (const wheel of wheels) {
      const pulls = slips.map((slip) => rollingOnSoil(wheel, simulant, 70, slip).pullN);
      expect(pulls).toEqual([...pulls].sort((a, b) => a - b));
      const depths = loads.map((loadN) => rollingOnSoil(wheel, simulant, loadN, 0.2).sinkageM);
      expect(depths).toEqual([...depths].sort((a, b) => a - b));
    }
  });

  test("a wheel rolls on a radius between loaded and unloaded", () => {
    for (const wheel of wheels) {
      for (const loadN of loads) {
        const bend = deflection(wheel, loadN);
        expect(loadAtDeflection(wheel, bend)).toBeCloseTo(loadN, 6);
        expect(rollingRadius(wheel, loadN)).toBeLessThan(tipRadius(wheel));
        expect(rollingRadius(wheel, loadN)).toBeGreaterThan(tipRadius(wheel) - bend);
      }
    }
  });

  test("a dropped wheel arrives no faster than it can fall and loses energy at each contact", () => {
    for (const wheel of wheels) {
      const run = { ...dayPlan(7, 1).find((one) => one.kind === "drop" && one.wheel === wheel.id && one.dropHeightM === 0.1)! };
      const { truth, bytes } = dropRun(7, run, wheel, sensorErrors(7), 10_000, false);
      expect(truth.impactSpeedMps).toBeLessThan(Math.sqrt(2 * gravity * 0.1) * 1.001);
      expect(truth.impactSpeedMps).toBeGreaterThan(Math.sqrt(2 * gravity * 0.1) * 0.98);
      expect(truth.restitution.length).toBeGreaterThan(0);
      for (const share of truth.restitution) expect(share).toBeLessThan(1);
      expect(truth.restitution[0]).toBeGreaterThan(0.3);
      const rows = Buffer.from(bytes).toString().trimEnd().split("\n");
      const heights = rows.slice(-Math.round(10_000 / truth.naturalFrequencyHz)).map((row) => Number(row.split(",")[2]));
      // it rings out around its standing deflection below first touch: the mean of the last cycle, 0.1 mm for the sensor's zero
      const standing = deflection(wheel, truth.massKg * gravity) * 1000;
      expect(Math.abs(heights.reduce((sum, height) => sum + height, 0) / heights.length + standing)).toBeLessThan(0.1);
    }
  });
});

describe("numbers as text", () => {
  test.each([
    [0, 3, "0.000"],
    [-0.0001, 3, "0.000"],
    [-0.0006, 3, "-0.001"],
    [9.9996, 3, "10.000"],
    [12.05, 1, "12.1"],
    [-1234.5, 1, "-1234.5"],
    [65535, 0, "65535"],
    [0.00005, 5, "0.00005"],
  ])("%f with %i decimals is %s", (value, decimals, expected) => {
    const text = textBytes(32);
    putFixed(text, value, decimals, mark.point);
    expect(Buffer.from(written(text)).toString()).toBe(expected);
  });

  test("agrees with the language's own rounding to the last digit", () => {
    const random = dice(1, "numbers");
    for (let i = 0; i < 2000; i++) {
      const value = 200 * (random.uniform() - 0.5);
      const text = textBytes(32);
      putFixed(text, value, 4, mark.point);
      // both round; only ties may fall either way
      expect(Math.abs(Number(Buffer.from(written(text)).toString()) - value)).toBeLessThanOrEqual(0.5e-4 + 1e-12);
    }
  });
});

describe("dice and matrix", () => {
  test("normal numbers have mean 0 and standard deviation 1", () => {
    const random = dice(3, "check");
    const count = 20_000;
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < count; i++) {
      const value = random.normal();
      sum += value;
      squares += value * value;
    }
    // five standard errors
    expect(Math.abs(sum / count)).toBeLessThan(5 / Math.sqrt(count));
    expect(Math.abs(squares / count - 1)).toBeLessThan(5 * Math.sqrt(2 / count));
  });

  test("the bridges' cross-talk is undone by the certificate's matrix", () => {
    const back = inverse(decoupling);
    for (let i = 0; i < 6; i++) {
      for (let j = 0; j < 6; j++) {
        const cell = decoupling[i]!.reduce((sum, value, k) => sum + value * back[k]![j]!, 0);
        expect(cell).toBeCloseTo(i === j ? 1 : 0, 10);
      }
    }
  });
});
