import { z } from "zod";

const number = z.number();
const orNull = z.number().nullable();
const notNegative = z.number().nonnegative();
const positive = z.number().positive();
const text = z.string();
const pair = z.tuple([number, number]).describe("from, to");
const span = z.strictObject({ from: number, to: number }).nullable();
const sha256 = z.string().regex(/^[0-9a-f]{64}$/);

const estimate = z.strictObject({
  value: orNull,
  standardUncertainty: orNull,
  unit: text,
  degreesOfFreedom: orNull,
  method: text,
  budget: z.array(z.strictObject({ cause: text, effect: orNull, sharedBy: text.nullable(), degreesOfFreedom: orNull })),
});
const constant = { name: text, symbol: text, unitInWords: text.describe("the unit with its power of metre spelled out"), estimate };
const fit = {
  model: text,
  formula: text,
  verdict: z.enum(["determined", "atLimit", "undetermined"]),
  sentence: text,
  constants: z.array(z.strictObject(constant)),
  covariance: z.array(z.array(orNull)).describe("in the order and units of constants"),
  degreesOfFreedom: orNull,
  points: z.strictObject({ kept: number, refused: number }),
};
const runs = z.array(text);

const wheel = z.strictObject({
  id: text,
  rimM: positive.describe("radius of the rim, without lugs"),
  widthM: positive,
  lugs: z.number().int().nonnegative().describe("how many round the wheel; 0 = none"),
  lugHeightM: notNegative,
  curve: z.strictObject({ deflectionM: z.array(positive).min(1), loadN: z.array(positive).min(1) }).nullable().describe("load against deflection on a hard plate, both rising; null = taken as rigid"),
});

/** What a design model needs to foretell a wheel on a tested soil: the part `underWheels` of soil.json. */
export const soilCardSchema = z
  .strictObject({
    model: z.literal("stress integrals"),
    flexibleForm: z.enum(["wider circle", "flat contact"]).nullable().describe("how flexible wheels are taken; null = none was among the runs"),
    sentence: text,
    runs,
    constants: z.array(z.strictObject({ ...constant, share: z.enum(["determined", "partly", "undetermined"]), sentence: text })),
    fitted: z.strictObject({
      names: z.array(text),
      values: z.array(number),
      covariance: z.array(z.array(number)),
      referenceWidthM: positive.describe("b0, the width at which p10 and chi hold"),
      unitWeight: positive.nullable().describe("gamma, density of the beds times gravity [N/m3], against which lugs push; null = no density was stated: they push against cohesion alone"),
      notes: text,
    }),
    discrepancy: z.record(text, notNegative).describe("what the model misses beyond the runs' own uncertainties: shares of load, of load times radius, of radius"),
    wheelSpread: z.strictObject({ pull: notNegative, torque: notNegative, sinkage: notNegative }).describe("the part of discrepancy that goes from wheel to wheel, by which forecasts of wheels not among these are widened; 0 = these runs cannot tell it"),
    draws: z.strictObject({ columns: z.array(text), rows: z.array(z.array(number)).min(1), notes: text }).describe("draws of the joint posterior"),
    posterior: text,
    wheels: z.array(wheel).describe("the wheels of these runs as the model saw them"),
    validity: z.strictObject({
      sentence: text,
      loadN: pair,
      slip: pair,
      diameterM: pair,
      widthM: pair,
      pressurePa: pair.describe("load over radius times width"),
      conditions: z.array(z.strictObject({ run: text, flexible: z.boolean(), loadN: positive, slip: number, diameterM: positive, widthM: positive, pressurePa: positive })).min(1),
    }),
    gravityMps2: positive.describe("where the runs were made"),
    slipRadius: z.strictObject({ policy: z.enum(["unloaded", "loaded", "effective"]), lugs: z.enum(["with", "without"]) }).describe("what slip was counted from"),
    beds: runs.describe("of these runs; their state stands under beds"),
  })
  .describe("the soil as wheels felt it");

export type SoilCard = z.infer<typeof soilCardSchema>;
export type CardWheel = SoilCard["wheels"][number];

/** soil.json as a whole. */
export const soilFileSchema = z.strictObject({
  format: z.literal("drawbar soil constants"),
  formatVersion: z.literal(1),
  drawbarVersion: text,
  notes: text,
  circularPlateWidth: z.enum(["radius", "diameter"]).nullable(),
  pressureSinkage: z.strictObject(fit).nullable(),
  plateWidths: z.array(z.strictObject({ widthM: orNull, runs, ...fit })),
  shearStrength: z.strictObject(fit).nullable(),
  shearModulus: z.array(z.strictObject({ normalStressPa: orNull, runs, ...fit })),
  underWheels: soilCardSchema.nullable(),
  validity: z.strictObject({ sentence: text, sinkageM: span, pressurePa: span, plateWidthsM: z.array(orNull), normalStressPa: span, shearDisplacementM: span }),
  beds: z.array(z.strictObject({ id: text, densityKgM3: orNull, moisture: orNull, coneGradient: estimate.nullable(), targetGradientPaM: orNull, remark: text, more: z.record(text, z.unknown()) })),
  runs: z.array(z.strictObject({ id: text, kind: text.nullable(), bed: text.nullable(), verdict: text, sources: z.array(z.strictObject({ file: text, sha256 })) })),
  files: z.array(z.strictObject({ file: text, sha256 })),
});

/** JSON Schema (draft 2020-12) of soil.json, made from the schema that checks it when it is read back. */
export function soilSchema(): Readonly<Record<string, unknown>> {
  const { $schema, ...rest } = z.toJSONSchema(soilFileSchema, { target: "draft-2020-12" });
  return { $schema, title: "Soil constants (soil.json)", description: "Written by `drawbar reduce`, read by design models and by `drawbar predict`. SI units.", ...rest };
}
