import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { enduranceFrom } from "../../src/fitting/enduranceFrom.ts";
import { enduranceSection } from "../../src/report/sections/endurance.ts";
import { inspection } from "../fitting/inspections.ts";
import { rigWith } from "../processing/recordings.ts";
import { sampleDay } from "./sampleDay.ts";
import { sampleBlock, sampleRun } from "./sampleEndurance.ts";

const followed = (wheel: string) => [0, 1, 3, 10, 20].map((km, i) => inspection(km * 1000, { wheel, massKg: 1.6 - 0.0004 * km + 0.0001 * (i % 2), soilMassKg: 0, pullCoefficient: [0.3, 0.298, 0.295, 0.29, 0.28][i] as number }));
const ran = (wheel: string, km: number, failed: boolean) => [inspection(5000, { wheel }), inspection(km * 1000, { wheel, failed, brokenElements: failed ? 3 : 0 })];
const rig = rigWith({ endurance: { ...sampleBlock, pullUncertainty: 0.002 } });
const endurance = enduranceFrom([sampleRun], { rig, inspections: [...followed("W1"), ...followed("W2"), ...ran("K1", 12, true), ...ran("K2", 31, true), ...ran("K3", 40, false)] });
const { document } = parseHTML(`<!doctype html><html><body>${enduranceSection({ ...sampleDay(), endurance }).html}</body></html>`);
const tables = [...document.querySelectorAll("table")].map((one) => [...one.querySelectorAll("tr")].map((row) => [...row.querySelectorAll("th, td")].map((cell) => cell.textContent ?? "")));
const firstCells = (rows: readonly string[][] | undefined) => rows?.slice(1).map((row) => row[0]);

describe("the endurance part", () => {
  it("lists wear and damage of wheels of which something was measured, and the others by their last inspection", () => {
    expect(firstCells(tables.find((rows) => rows[0]?.includes("Specific wear rate")))).toEqual(["W1", "W2"]);
    const others = tables.find((rows) => rows[0]?.includes("Inspections"));
    expect(firstCells(others)).toEqual(["K1", "K2", "K3"]);
    expect(others?.[0]).not.toContain("Mass without soil");
    expect(others?.[2]?.slice(1, 5)).toEqual(["2", "31", "3", "failed"]);
  });

  it("writes a column to one place, and the damage with its interval on the logarithmic scale", () => {
    const own = tables.filter((rows) => rows[0]?.includes("Weighed [kg]"))[0];
    const pull = own?.[0]?.indexOf("Pull coefficient [–]") ?? -1;
    expect(own?.slice(1).map((row) => row[pull])).toEqual(["0.300", "0.298", "0.295", "0.290", "0.280"]);
    expect(tables[0]?.[1]?.[3]).toMatch(/^[\d.·⁻⁰¹²³⁴-⁹]+ 95 %: [^−-]+ to [^−-]+$/);
  });

  it("says once what is found of two wheels in the same words", () => {
    const said = [...document.querySelectorAll(".reasons li")].filter((item) => item.closest("details") === null).map((item) => item.textContent ?? "").filter((text) => text.includes("Mass without soil at 40 km is extrapolated"));
    expect(said).toHaveLength(1);
    expect(said[0]).toContain("W1, W2: ");
  });

  it("draws lives as steps with the fitted distribution, and gives distances in kilometres", () => {
    const figure = [...document.querySelectorAll("figure")].find((one) => one.textContent?.includes("Wheels still sound"));
    expect(figure?.querySelector("svg")?.getAttribute("aria-label")).toContain("product limit");
    expect(figure?.textContent).toContain("the fitted distribution");
    // W1, W2 and K3 were sound where they were seen last
    expect([...(figure?.querySelectorAll("title") ?? [])].map((title) => title.textContent)).toEqual(["W1: sound after 20 km", "W2: sound after 20 km", "K3: sound after 40 km"]);
    const scale = tables.find((rows) => rows[0]?.[0] === "Constant" && rows.some((row) => row[0]?.startsWith("scale")))?.find((row) => row[0]?.startsWith("scale"));
    expect(scale?.[1]).toMatch(/ km$/);
  });
});
