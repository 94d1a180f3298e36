import { describe, expect, it } from "vitest";
import { z } from "zod";
import { quantities } from "../../src/campaign/quantities.ts";
import { rigSchema } from "../../src/campaign/rigSchema.ts";
import { bedRow, coneRow, inspectionRow, runRow, surfaceRow, wheelRow } from "../../src/campaign/rowSchemas.ts";
import { jsonSchemas } from "../../src/campaign/schemas.ts";
import { tolerancesSchema } from "../../src/campaign/tolerances.ts";
import { units } from "../../src/core/units.ts";

type Node = { readonly [key: string]: any };
const schemas = jsonSchemas() as Record<string, Node>;

describe("published schemas", () => {
  it.each(["rig", "runs", "wheels", "beds", "cones", "surfaces", "inspections"])("%s is draft 2020-12 with a title", (name) => {
    expect(schemas[name]).toMatchObject({ $schema: "https://json-schema.org/draft/2020-12/schema", title: expect.any(String), description: expect.any(String) });
  });

  it("are the same bytes every time", () => {
    expect(JSON.stringify(jsonSchemas())).toBe(JSON.stringify(jsonSchemas()));
  });

  it("name every key that is checked", () => {
    const rows = { runs: runRow, wheels: wheelRow, beds: bedRow, cones: coneRow, surfaces: surfaceRow, inspections: inspectionRow };
    for (const [name, row] of Object.entries(rows)) expect(Object.keys(schemas[name]?.["items"].properties)).toEqual(Object.keys(row.shape));
    expect(Object.keys(schemas["rig"]?.["properties"])).toEqual(Object.keys(rigSchema.shape));
    expect(Object.keys(schemas["rig"]?.["properties"].tolerances.properties)).toEqual(Object.keys(tolerancesSchema.shape));
  });

  it("describe every column and every key of a channel's calibration", () => {
    for (const name of ["runs", "wheels", "beds", "cones", "surfaces", "inspections"]) for (const column of Object.values(schemas[name]?.["items"].properties as Record<string, Node>)) expect(column["description"]).toBeTypeOf("string");
    const channel = schemas["rig"]?.["properties"].loggers.additionalProperties.properties.channels.additionalProperties;
    for (const key of Object.values({ ...channel.properties.calibration.properties, unit: channel.properties.unit, sign: channel.properties.sign } as Record<string, Node>)) expect(key["description"]).toBeTypeOf("string");
    expect(channel.properties.unit.enum).toEqual(Object.keys(units));
  });

  it("let nobody leave out the slip radius, and offer no default for it", () => {
    expect(schemas["rig"]?.["required"]).toEqual(["rig", "gravity", "slipRadius", "loggers"]);
    expect(schemas["rig"]?.["properties"].slipRadius).toMatchObject({ required: ["policy", "lugs"], additionalProperties: false });
    expect(JSON.stringify(schemas["rig"]?.["properties"].slipRadius)).not.toContain('"default"');
  });

  it("state the unit of every number that has one", () => {
    expect(schemas["runs"]?.["items"].properties.load).toMatchObject({ type: "number", unit: "N", minimum: 0 });
    expect(schemas["beds"]?.["items"].properties["target gradient"].unit).toBe("Pa/m");
  });

  it("can be read back and then judge like the code", () => {
    const rig = z.fromJSONSchema(schemas["rig"] as Parameters<typeof z.fromJSONSchema>[0]);
    const good = { rig: "a", gravity: 9.8, slipRadius: { policy: "loaded", lugs: "without" }, loggers: {} };
    for (const value of [good, { ...good, gravity: 0 }, { ...good, other: 1 }, { ...good, slipRadius: undefined }, { ...good, drop: { filterClass: 100, filterStandard: "SAE J211", restS: 1, carriageMass: 1 } }]) {
      expect(rig.safeParse(value).success).toBe(rigSchema.safeParse(value).success);
    }
  });
});

describe("quantities", () => {
  it("stand in units drawbar knows", () => {
    for (const quantity of Object.values(quantities)) expect(Object.keys(units)).toContain(quantity.unit);
  });
});
