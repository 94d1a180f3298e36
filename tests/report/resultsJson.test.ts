import { describe, expect, it } from "vitest";
import { resultsJson } from "../../src/report/resultsJson.ts";
import { resultsSchema } from "../../src/report/resultsSchema.ts";
import { soilSchema } from "../../src/campaign/soilFileSchema.ts";
import { soilJson } from "../../src/report/soilJson.ts";
import { schemaFaults } from "./jsonSchemaCheck.ts";
import { formulaName, sampleDay } from "./sampleDay.ts";

type Any = Record<string, any>;

describe("results.json", () => {
  const text = resultsJson(sampleDay());
  const results = JSON.parse(text) as Any;
  it("obeys its schema", () => {
    expect(schemaFaults(results, resultsSchema())).toEqual([]);
  });
  it("is refused by the schema when a key, a type or a unit is wrong (the check can fail)", () => {
    const spoil = (change: (copy: Any) => void): string[] => {
      const copy = JSON.parse(text) as Any;
      change(copy);
      return schemaFaults(copy, resultsSchema());
    };
    expect(spoil((copy) => delete copy["runs"][0].verdict)).toEqual(['$.runs[0]: lacks "verdict"']);
    expect(spoil((copy) => (copy["runs"][0].measures[0].estimate.unit = "furlong"))).toHaveLength(1);
    expect(spoil((copy) => (copy["runs"][0].measures[0].estimate.value = "0.3"))).toHaveLength(1);
    expect(spoil((copy) => (copy["files"][0].sha256 = "ABC"))).toHaveLength(1);
    expect(spoil((copy) => (copy["extra"] = 1))).toEqual(['$: has the unexpected "extra"']);
    expect(spoil((copy) => (copy["soil"].jointRegion[0] = [1]))).not.toEqual([]);
  });
  it("is the same for the same day, keys of free columns in order whatever the order they came in", () => {
    expect(resultsJson(sampleDay())).toBe(text);
    const day = sampleDay();
    const wheels = day.campaign.wheels.map((wheel) => ({ ...wheel, factors: Object.fromEntries(Object.entries(wheel.factors).reverse()) }));
    expect(resultsJson({ ...day, campaign: { ...day.campaign, wheels } })).toBe(text);
  });
  it("writes missing numbers as null and never as a word", () => {
    expect(text).not.toMatch(/NaN|Infinity/);
    const open = results["runs"].find((run: Any) => run["id"] === "T5").measures.find((measure: Any) => measure["name"] === "sinkageRunning").estimate;
    expect(open).toMatchObject({ value: null, standardUncertainty: null, method: "the first touch was not found" });
  });
  it("carries every run, finding, budget row and hash", () => {
    const day = sampleDay();
    expect(results["runs"].map((run: Any) => run["id"])).toEqual(day.runs.map((run) => run.plan.id));
    expect(results["runs"].find((run: Any) => run["id"] === formulaName).plan.excluded).toBe("+the belt tore");
    expect(results["runs"][0].measures[0].estimate.budget).toHaveLength(day.runs[0]?.measures[0]?.estimate.budget.length as number);
    expect(results["findings"]).toHaveLength(1);
    expect(results["runs"][0].sources[0].sha256).toBe("c".repeat(64));
  });
});

describe("soil.json", () => {
  const soil = JSON.parse(soilJson(sampleDay())) as Any;
  it("obeys its schema, with and without wheels; a spoilt one does not", () => {
    expect(schemaFaults(soil, soilSchema())).toEqual([]);
    expect(schemaFaults(JSON.parse(soilJson({ ...sampleDay(), wheelSoil: null })), soilSchema())).toEqual([]);
    const { draws: _draws, ...card } = soil["underWheels"];
    expect(schemaFaults({ ...soil, underWheels: { ...card } }, soilSchema())).toEqual(['$.underWheels: lacks "draws"']);
    expect(schemaFaults({ ...soil, underWheels: { ...soil["underWheels"], gravityMps2: 0 } }, soilSchema())).not.toEqual([]);
  });
  it("says under the wheels what a forecast needs: units in words, joint draws, conditions, beds, wheels", () => {
    const card = soil["underWheels"];
    expect(card.constants.map((constant: Any) => constant["unitInWords"])).toEqual(["pascal, newton per metre to the power 2", "pure number"]);
    expect(card.draws.rows[0]).toHaveLength(card.draws.columns.length);
    expect(card.validity.conditions.map((condition: Any) => condition["run"])).toEqual(["T1", "T2"]);
    expect(card.beds).toEqual(["B1"]);
    expect(card.wheels[0].curve.loadN).toEqual([40, 90]);
    expect(card.slipRadius).toEqual({ policy: sampleDay().campaign.rig.slipRadius.policy, lugs: sampleDay().campaign.rig.slipRadius.lugs });
  });
  it("spells the power of metre with the n it belongs to", () => {
    expect(soil["pressureSinkage"].constants.map((constant: Any) => constant["unitInWords"])).toEqual(["newton per metre to the power (n + 1), here n = 0.95", "newton per metre to the power (n + 2), here n = 0.95", "pure number"]);
  });
  it("keeps a negative k_c", () => {
    expect(soil["pressureSinkage"].constants[0].estimate.value).toBe(-1040);
  });
  it("states the range of the points that were kept, not of those left out", () => {
    expect(soil["validity"].sinkageM).toEqual({ from: 0.005, to: 0.03 });
    expect(soil["validity"].normalStressPa).toEqual({ from: 2000, to: 12000 });
    expect(soil["validity"].plateWidthsM).toEqual([0.05, 0.1]);
  });
  it("names the bed's state and the files behind the constants", () => {
    expect(soil["beds"][0]).toMatchObject({ id: "B1", densityKgM3: 1620, moisture: 0.004, coneGradient: { value: 3.05e6 } });
    expect(soil["runs"].map((run: Any) => run["id"])).toEqual(["T1", "P1", "S1"]);
    expect(soil["runs"][1].sources[0]).toEqual({ file: "logs/P1.csv", sha256: "d".repeat(64) });
  });
  it("says null, not zero, where there is no soil test", () => {
    const day = sampleDay();
    const none = JSON.parse(soilJson({ ...day, soil: { pressureSinkage: null, plateWidths: [], shearStrength: null, jointRegion: [], shearCurves: [] } })) as Any;
    expect(none["pressureSinkage"]).toBeNull();
    expect(none["validity"].sinkageM).toBeNull();
  });
});
