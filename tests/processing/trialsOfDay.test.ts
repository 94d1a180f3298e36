import { appendFileSync, cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { reduceDay } from "../../src/day.ts";

test("trials asked for in rig.yaml hold what a drop's results are worked out from by a formula, and change no number", async () => {
  const folder = mkdtempSync(join(tmpdir(), "trials-"));
  try {
    cpSync("fixtures/excerpt-day", folder, { recursive: true });
    const sheet = readFileSync(join(folder, "runs.csv"), "utf8").split("\n");
    writeFileSync(join(folder, "runs.csv"), sheet.filter((line, i) => i === 0 || /R011/.test(line)).join("\n"));
    const plain = (await reduceDay(folder)).runs[0];
    appendFileSync(join(folder, "rig.yaml"), "\ntrials: true\n");
    const tried = (await reduceDay(folder)).runs[0];
    const told = (tried?.measures ?? []).filter(({ estimate }) => / trials /.test(estimate.method)).map(({ name }) => name);
    expect(told).toEqual(expect.arrayContaining(["restitution", "restitutionFromFlightTimes", "restitutionFromHeights", "absorbedShare", "reboundSpeed", "peakForce", "impactEnergy", "absorbedEnergy"]));
    // the acceleration itself was read
    expect(told).not.toContain("impactSpeed");
    expect(tried?.measures.map(({ name, estimate: { value, standardUncertainty } }) => [name, value, standardUncertainty])).toEqual(plain?.measures.map(({ name, estimate: { value, standardUncertainty } }) => [name, value, standardUncertainty]));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
});
