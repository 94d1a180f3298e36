import type { Json } from "./stableJson.ts";

type Schema = { readonly [key: string]: Json };

/** The part of results.json's schema that `wheelSoilJson` fills. */
export function wheelSoilSchema(object: (properties: Schema) => Schema, list: (of: Schema, description?: string) => Schema, ref: (name: string) => Schema): Schema {
  const text: Schema = { type: "string" };
  const number: Schema = { type: ["number", "null"] };
  const pair: Schema = { type: "array", prefixItems: [number, number], minItems: 2, maxItems: 2 };
  const byQuantity = object({ pull: number, torque: number, sinkage: number });
  const points = list(object({ run: text, slip: number, measured: number, uncertainty: number }));
  return object({
    verdict: { enum: ["determined", "undetermined"] },
    sentence: text,
    runs: list(text),
    refused: list(object({ run: text, x: number, y: number, yUncertainty: number, kept: { type: "boolean" }, reason: text })),
    parameters: list(object({ name: text, symbol: text, estimate: ref("estimate"), believed: object({ value: number, sd: number, reason: text }), narrowing: number, interval: pair, profile: { anyOf: [object({ low: number, high: number }), { type: "null" }], description: "of the data without the constant's own belief; a null end is open" }, bootstrap: { anyOf: [pair, { type: "null" }] }, share: { enum: ["determined", "partly", "undetermined"] }, sentence: text }), "constants of the soil under the wheels; believed: before the runs, in the estimate's unit"),
    fitted: object({ values: list(number), covariance: list(list(number)), referenceWidthM: number, unitWeight: number }),
    discrepancy: { type: "object", additionalProperties: number, description: "what the model misses beyond the runs' own uncertainties: shares of load, load times radius, and radius" },
    bedSpread: byQuantity,
    wheelSpread: byQuantity,
    points: list(object({ run: text, quantity: { enum: ["pull", "torque", "sinkage"] }, measured: number, fitted: number, weight: number, unseen: { anyOf: [object({ foretold: number, uncertainty: number }), { type: "null" }], description: "by a fit that had not seen its load" }, reason: text }), "what was fitted to; reason: why a point counts less"),
    combinations: list(object({ narrowing: number, weights: list(object({ symbol: text, weight: number })) }), "directions of the parameters, the best determined first"),
    nextTests: list(object({ name: text, ratios: list(number) }), "standard deviation of each parameter after that test, over now"),
    scores: list(object({ model: text, heldOut: text, points: { type: "integer", minimum: 0 }, error: byQuantity, logScore: byQuantity, inside: number, insideBy: byQuantity, failed: list(text) }), "models on conditions they had not seen"),
    flexibleForm: { type: ["string", "null"] },
    forecasts: list(object({ wheel: text, loadN: number, points: object({ pull: points, torque: points, sinkage: points }), bands: object({ pull: ref("band"), torque: ref("band"), sinkage: ref("band") }) }), "pull/W, torque/(R W), sinkage/R over slip"),
    range: object({ loadN: pair, slip: pair, diameterM: pair, widthM: pair, pressurePa: pair }),
    posterior: object({ sentence: text, converged: { type: "boolean" }, greatestRhat: number, leastEffective: number, insideReplicates: number }),
  });
}
