import { z } from "zod";
import { rigSchema } from "./rigSchema.ts";
import { bedRow, coneRow, inspectionRow, runRow, surfaceRow, wheelRow } from "./rowSchemas.ts";

export type SchemaName = "rig" | "runs" | "wheels" | "beds" | "cones" | "surfaces" | "inspections";
export type JsonSchema = Readonly<Record<string, unknown>>;

const tables = "Rows as objects; keys are the headings without their brackets, numbers in the unit that `unit` names. In the file any unit of that kind may stand in the heading's brackets.";

/** JSON Schemas (draft 2020-12) of everything people write, made from the schemas that check it. */
export function jsonSchemas(): Readonly<Record<SchemaName, JsonSchema>> {
  return {
    rig: published(rigSchema, "Rig description (rig.yaml)", "Written once per rig."),
    runs: published(z.array(runRow), "Run sheet (runs.csv)", tables),
    wheels: published(z.array(wheelRow), "Wheel records (wheels.csv)", tables),
    beds: published(z.array(bedRow), "Bed records (beds.csv)", tables),
    cones: published(z.array(coneRow), "Cone readings (cones.csv)", tables),
    surfaces: published(z.array(surfaceRow), "Scanned surfaces of lanes (surfaces.csv)", tables),
    inspections: published(z.array(inspectionRow), "Inspections of an endurance test (inspections.csv)", tables),
  };
}

function published(schema: z.ZodType, title: string, description: string): JsonSchema {
  const { $schema, ...rest } = z.toJSONSchema(schema, { io: "input", target: "draft-2020-12" });
  return { $schema, title, description, ...rest };
}
