import { describe, expect, it } from "vitest";
import type { RunKind } from "../../src/campaign/rigSchema.ts";
import { estimateFrom } from "../../src/core/estimate.ts";
import type { References } from "../../src/processing/references.ts";
import { deflectionOf, dragAt, restsOn, slipRadius } from "../../src/processing/references.ts";
import { agrees } from "../helpers/agrees.ts";
import { plan } from "./checks/rolled.ts";
import { cause } from "./readings.ts";
import { rigWith, wheel } from "./recordings.ts";

const flexible = { ...wheel, id: "F1", flexible: true };
const radius = (loadN: number, value: number) => ({ wheel: "F1", loadN, runs: [`H${loadN}`], estimate: estimateFrom(value, "m", "test", [cause(`scatter H${loadN}`, 1e-4)]) });
const references: References = {
  rollingRadii: [radius(40, 0.104), radius(100, 0.1)],
  drags: [
    { wheel: "F1", run: "S1", wheelSpeed: estimateFrom(1, "rad/s", "test", []), torque: estimateFrom(0.1, "N.m", "test", [cause("a", 0.01)]) },
    { wheel: "F1", run: "S2", wheelSpeed: estimateFrom(3, "rad/s", "test", []), torque: estimateFrom(0.2, "N.m", "test", [cause("b", 0.01)]) },
  ],
  deflections: [{ wheel: "F1", runs: ["D1"], loadN: [0, 50, 100], deflectionM: [0, 0.003, 0.005], uncertaintyM: [1e-4, 1e-4, 1e-4] }],
};
const policy = (kind: "unloaded" | "loaded" | "effective", lugs: "with" | "without") => rigWith({ slipRadius: { policy: kind, lugs, uncertainty: 2e-4 } });

describe("what a run rests on", () => {
  it("its own wheel's references for every kind that is driven or pressed under a load, none for the others", () => {
    const resting = (kind: RunKind) => restsOn({ ...plan, kind, wheel: "F1" }, references).rollingRadii.length;
    expect((["traction", "sweep", "endurance", "footprint"] as const).map(resting)).toEqual([2, 2, 2, 2]);
    expect((["drop", "hardFloor", "plate"] as const).map(resting)).toEqual([0, 0, 0]);
    expect(restsOn({ ...plan, kind: "sweep", wheel: "other" }, references).rollingRadii).toEqual([]);
  });
});

describe("the radius that slip is counted from", () => {
  it("effective: between the loads of the hard-floor runs", () => {
    agrees(slipRadius(policy("effective", "with"), flexible, 70, references).value, { expected: 0.104 - (0.004 * 1.4) / 2.6, within: 1e-12, source: "deflections 2.4, 3.8 and 5.0 mm at 40, 70 and 100 N: 1.4/2.6 of the way from 0.104 to 0.100 m" });
    agrees(slipRadius(policy("effective", "without"), flexible, 70, references).value, { expected: 0.099 - (0.004 * 1.4) / 2.6, within: 1e-12, source: "less the lug height of 5 mm" });
    agrees(slipRadius(policy("effective", "with"), flexible, 70, { ...references, deflections: [] }).value, { expected: 0.102, within: 1e-12, source: "deflection not measured: straight line over the load, half-way" });
  });

  it("effective: a little below the lowest load the radius lies between as it stands and the whole further deflection", () => {
    const below = slipRadius(policy("effective", "with"), flexible, 38, references);
    agrees(below.value, { expected: 0.104 + 0.00006, within: 1e-12, source: "deflections 2.40 and 2.28 mm: half of 0.12 mm added" });
    agrees(Math.abs(below.budget.find((row) => row.cause.startsWith("how the radius"))?.effect ?? 0), { expected: 0.00012 / Math.sqrt(12), within: 1e-12, source: "rectangular distribution 0.12 mm wide" });
    expect(slipRadius(policy("effective", "with"), flexible, 38, { ...references, deflections: [] }).method).toContain("is not known");
  });

  it("effective: a flexible wheel's radius is not carried beyond the loads measured", () => {
    expect(slipRadius(policy("effective", "with"), flexible, 105, references).standardUncertainty).not.toBeNull();
    const beyond = slipRadius(policy("effective", "with"), flexible, 150, references);
    expect(beyond.standardUncertainty).toBeNull();
    expect(beyond.method).toContain("extrapolation");
    expect(slipRadius(policy("effective", "with"), wheel, 70, references).method).toContain("no usable hard-floor run of wheel W1");
  });

  it("unloaded and loaded, with and without lugs", () => {
    agrees(slipRadius(policy("unloaded", "without"), flexible, 50, references).value, { expected: 0.1, within: 1e-12, source: "wheel record" });
    agrees(slipRadius(policy("unloaded", "with"), flexible, 50, references).value, { expected: 0.105, within: 1e-12, source: "wheel record: rim plus lugs" });
    agrees(slipRadius(policy("loaded", "with"), flexible, 50, references).value, { expected: 0.102, within: 1e-12, source: "rim plus lugs less 3 mm of deflection" });
    expect(slipRadius(policy("loaded", "with"), flexible, 500, references).standardUncertainty).toBeNull();
  });
});

describe("free-spin drag", () => {
  it("lies on the line between the measured speeds, and nowhere else", () => {
    agrees(dragAt(flexible, 2, references).value, { expected: 0.15, within: 1e-12, source: "straight line" });
    expect(dragAt(flexible, 6, references).standardUncertainty).toBeNull();
    expect(dragAt(wheel, 2, references).method).toContain("no usable free-spin run of wheel W1");
  });
});

describe("deflection", () => {
  it("is measured for a flexible wheel, none for one recorded as rigid", () => {
    agrees(deflectionOf(flexible, 75, references).value, { expected: 0.004, within: 1e-12, source: "straight line between measured loads" });
    expect(deflectionOf(wheel, 75, references)).toMatchObject({ value: 0, standardUncertainty: 0 });
    expect(deflectionOf({ ...flexible, id: "F2" }, 75, references).standardUncertainty).toBeNull();
  });
});
