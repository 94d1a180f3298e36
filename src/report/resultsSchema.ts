import { runKinds } from "../campaign/rigSchema.ts";
import { edges, grounds } from "../campaign/rowSchemas.ts";
import { units } from "../core/units.ts";
import type { Json } from "./stableJson.ts";
import { wheelSoilSchema } from "./wheelSoilSchema.ts";

type Schema = { readonly [key: string]: Json };

/** JSON Schema (draft 2020-12) of results.json, kept by hand beside `resultsJson`; a test holds the two together. */
export function resultsSchema(): Schema {
  return {
    $schema: "https://json-schema.org/draft/2020-12/schema",
    title: "drawbar results",
    description: "One day of rig tests reduced by drawbar. SI units unless a key or a unit field says otherwise.",
    ...object({
      format: { const: "drawbar results" },
      formatVersion: { const: 1 },
      drawbarVersion: text,
      notes: { type: "object", additionalProperties: text },
      rig: { type: "object", description: "the rig description as checked; its own schema is the rig schema" },
      files: list(object({ file: text, sha256: hash }), "the written files: rig description and sheets"),
      wheels: list(ref("wheel")),
      beds: list(ref("bed")),
      coneReadings: list(object({ bed: text, position: text, place: orNull(object({ xM: number, yM: number })), depthM: number, indexPa: number, line: count })),
      issues: list(object({ code: text, at: text, message: text, hint: text, run: orNull(text) }), "mistakes in the written files"),
      findings: list(ref("finding"), "findings that concern the day, not one run"),
      unclaimedFiles: list(text, "log files that no run on the sheet claims"),
      runs: list(ref("run")),
      rollingRadii: list(object({ wheel: text, loadN: number, runs: list(text), estimate: ref("estimate") })),
      deflections: list(object({ wheel: text, runs: list(text), loadN: list(number), deflectionM: list(number), uncertaintyM: list(number, "standard uncertainty of each deflection") })),
      circumferences: list(object({ wheel: text, setLoadN: number, measure: text, runs: list(text), mean: ref("estimate"), range: ref("estimate"), amplitude: ref("estimate"), fit: ref("fit") }), "a measure round a wheel, from contact angles"),
      conformity: list(object({ wheel: text, setLoadN: number, from: { enum: ["pad", "image"] }, ground: { enum: ["step", "rock"] }, runs: list(text), index: ref("estimate"), area: ref("estimate") }), "a footprint on uneven ground over that on flat ground: ratios of conformity index and contact area"),
      coreDifferences: list(object({ wheel: text, frame: text, setLoadN: number, runs: list(text), differences: list(object({ measure: text, withCore: ref("estimate"), bare: ref("estimate"), core: ref("estimate") })) }), "a wheel with its core less its bare frame"),
      climbCurves: list(
        object({ wheel: text, edge: { enum: [...edges] }, runs: list(text), climbed: count, failed: count, fit: ref("fit"), heights: list(object({ chance: number, estimate: ref("estimate"), low: number, high: number }), "low and high: 95 % interval of the profile likelihood; null = no bound"), frictionAtHalf: ref("estimate"), heightByFriction: ref("estimate"), band: orNull(ref("band")) }),
        "chance of getting over an obstacle against its height [m]",
      ),
      pullCurves: list(ref("pullCurve")),
      dropFits: list(
        object({
          wheel: text,
          restitution: ref("fit"),
          restitutionBand: orNull(ref("band")),
          contact: ref("fit"),
          misfit: { ...number, description: "scatter between drops and misfit of the contact, as a share of each quantity" },
          heldOut: list(object({ heightM: number, run: text, quantity: text, error: number, inside: yesNo }), "heights left out of the fit: measured over predicted, less one"),
          predicted: list(object({ heightM: number, gravity: number, impactSpeedMps: number, extrapolated: yesNo, cautions: list(text), acceleration: ref("estimate"), force: orNull(ref("estimate")), compression: ref("estimate"), duration: ref("estimate"), restitution: ref("estimate") })),
        }),
        "what the drops of one wheel say together",
      ),
      endurance: { ...orNull(ref("endurance")), description: "inspections and endurance runs; null = the day has neither" },
      covariateEffects: list(object({ wheel: text, covariate: { enum: ["coneGradient", "speed"] }, estimate: ref("estimate"), runs: list(text), middle: number }), "change of the pull coefficient per 10 % of cone index gradient, or per doubling of the speed; middle: mean gradient [Pa/m] or speed [m/s]"),
      repeatability: list(
        object({ measure: text, unit, pooledSd: number, degreesOfFreedom: number, conditions: list(object({ wheel: text, condition: text, runs: list(text), mean: number, sd: number, scatter: orNull(object({ sd: number, degreesOfFreedom: number })), estimate: ref("estimate") }), "sd: of this condition's repeats alone; scatter: as conditions of this size scatter on the day; estimate: mean of the repeats with that scatter, and what they share whole") }),
      ),
      rankings: list(
        object({ label: text, better: { enum: ["more", "less"] }, condition: text, repeated: yesNo, places: list(object({ wheel: text, estimate: ref("estimate"), behind: orNull(ref("estimate")), probability: number, apart: yesNo }), "the best first; behind: what it lacks to the first; probability: of such a difference between like wheels, by Holm's rule; apart: below 0.05"), unranked: list(object({ wheel: text, why: text })) }),
        "which wheel, and how sure: one entry per question and condition",
      ),
      coneTrend: { ...orNull(ref("fit")), description: "of the gradient" },
      coneIndexTrend: { ...orNull(ref("fit")), description: "of the mean index" },
      cones: list(object({ bed: text, acceptance: { enum: ["accepted", "look", "rejected", "no target", "not determined"] }, gradient: ref("estimate"), index: ref("estimate"), profiles: list(object({ position: text, indexPa: number })), findings: list(ref("finding")) })),
      soil: object({
        pressureSinkage: orNull(ref("fit")),
        plateWidths: list(object({ widthM: number, runs: list(text), fit: ref("fit"), band: orNull(ref("band")) })),
        shearStrength: orNull(ref("fit")),
        jointRegion: list({ type: "array", prefixItems: [number, number], minItems: 2, maxItems: 2 }, "outline of the 95 % region: [cohesion Pa, friction angle rad]"),
        shearCurves: list(object({ normalStressPa: number, runs: list(text), fit: ref("fit") })),
      }),
      wheelSoil: orNull(wheelSoilSchema(object, list, ref)),
    }),
    $defs: definitions,
  };
}

const text: Schema = { type: "string" };
const number: Schema = { type: ["number", "null"] };
const count: Schema = { type: "integer", minimum: 0 };
const yesNo: Schema = { type: "boolean" };
const hash: Schema = { type: "string", pattern: "^[0-9a-f]{64}$" };
const unit: Schema = { enum: Object.keys(units) };
const free: Schema = { type: "object", additionalProperties: { anyOf: [object({ value: number, unit }), object({ text })] } };

const shapeName: Schema = { enum: ["saturating", "saturatingFall", "monotone"] };
const slipCurve: Schema = { shape: shapeName, knots: { type: "array", items: number, description: "slips of the monotone form's knots" }, fit: ref("fit"), band: orNull(ref("band")) };

const definitions: Schema = {
  budgetRow: object({ cause: text, effect: { ...number, description: "signed change of the value per one standard uncertainty of the cause" }, sharedBy: orNull(text), degreesOfFreedom: number }),
  estimate: {
    description: "standardUncertainty null = not determined; method then says why. degreesOfFreedom null = unlimited.",
    ...object({ value: number, standardUncertainty: number, unit, degreesOfFreedom: number, method: text, budget: list(ref("budgetRow")) }),
  },
  finding: object({ code: text, severity: { enum: ["note", "look", "reject"] }, channel: orNull(text), fromS: number, toS: number, message: text, measured: number, limit: number }),
  segment: object({ kind: { enum: ["preZero", "postZero", "steady", "static", "freeFall", "contact", "flight", "decay", "loading", "unloading", "drive", "run"] }, fromS: number, toS: number, reason: text }),
  band: object({ x: list(number), value: list(number), low: list(number), high: list(number) }),
  curveSide: object({ label: text, unit, values: list(number) }),
  curve: object({ name: { type: "string", pattern: "^[a-z][A-Za-z0-9]*$" }, method: text, x: ref("curveSide"), y: ref("curveSide"), yUncertainty: orNull(list(number, "standard uncertainty of each y")) }),
  fit: object({
    model: text,
    formula: text,
    verdict: { enum: ["determined", "atLimit", "undetermined"] },
    sentence: text,
    parameters: list(object({ name: text, symbol: text, estimate: ref("estimate") })),
    covariance: list(list(number), "in the order and units of parameters"),
    degreesOfFreedom: number,
    points: list(object({ run: text, x: number, y: number, yUncertainty: number, kept: yesNo, reason: text })),
    residuals: list(number, "y − model(x) of the kept points, in order"),
    findings: list(ref("finding")),
  }),
  slipCurve: object(slipCurve),
  pullCurve: object({
    wheel: text,
    setLoadN: number,
    pass: count,
    ...slipCurve,
    simultaneousBand: { ...orNull(ref("band")), description: "holds the whole curve at once with 95 %; band holds it at any one slip" },
    candidates: list(object({ shape: shapeName, knots: list(number), fit: ref("fit"), heldOutError: number, comparable: yesNo, chosen: yesNo }), "every form that was tried on the same runs; what the comparable ones read otherwise is in the doubt of a reading"),
    choice: text,
    scatter: { ...orNull(object({ run: number, bed: number, tilt: number, beds: count, runs: count, sentence: text })), description: "standard deviations beyond the runs' own uncertainties: from run to run, from bed to bed (null: not told apart), and what grows with slip, at the greatest slip; null without a curve" },
    atSlip: list(object({ slip: number, estimate: ref("estimate") })),
    atPull: list(object({ pull: number, estimate: ref("estimate") }), "slip at which a pull coefficient is reached"),
    grossTraction: ref("slipCurve"),
    bestEfficiency: object({ efficiency: ref("estimate"), slip: ref("estimate") }),
    bothSigns: { ...orNull(object({ pull: ref("slipCurve"), grossTraction: ref("slipCurve") })), description: "driven and braked runs together; slip below zero is minus the skid 1 − rω/v" },
    selfPropelled: { ...ref("estimate"), description: "slip at no pull" },
    towed: object({ slip: ref("estimate"), pull: ref("estimate") }),
  }),
  interval: object({ low: number, high: number }),
  endurance: object({
    wheels: list(
      object({
        wheel: text,
        inspections: list(object({ distanceM: number, weighedKg: number, soilMassKg: number, cleanedMassKg: number, radiusM: number, stiffnessNm: number, pullCoefficient: number, run: orNull(text), brokenElements: orNull(count), failed: yesNo, remark: text, line: count, mass: { ...ref("estimate"), description: "without soil" }, refused: { ...orNull(text), description: "why the row counts nowhere" } })),
        trends: list(object({ quantity: { enum: ["mass", "radius", "stiffness", "pullCoefficient"] }, form: { enum: ["line", "logarithm"] }, choice: text, fit: ref("fit"), band: orNull(ref("band")), predictionBand: orNull(ref("band")), atMission: ref("estimate"), prediction: orNull(ref("interval")) }), "over the distance [m]; band: of the trend, predictionBand and prediction: of one more inspection, 95 %"),
        massLossPerDistance: ref("estimate"),
        specificWear: ref("estimate"),
        damage: orNull(object({ runs: list(text), distance: ref("estimate"), cycles: number, largestRangeN: number, damage: ref("estimate"), damageInterval: { ...orNull(ref("interval")), description: "95 %, on the logarithmic scale" }, atMission: ref("estimate"), missionInterval: { ...orNull(ref("interval")), description: "95 %, on the logarithmic scale" } })),
        findings: list(ref("finding")),
      }),
    ),
    lives: object({ lives: list(object({ wheel: text, distanceM: number, failed: yesNo })), survival: list(object({ distanceM: number, share: number }), "share that outlives each failure, by product limit"), fit: ref("fit"), b10: { ...ref("estimate"), description: "distance that nine of ten wheels outlive" }, b10Interval: orNull(ref("interval")) }),
    demonstration: object({ verdict: { enum: ["determined", "atLimit", "undetermined"] }, sentence: text, reliability: number, needed: list(object({ wheels: count, missions: number, distanceM: number })) }),
  }),
  wheel: object({ id: text, radiusM: number, widthM: number, massKg: number, lugs: number, lugHeightM: number, flexible: yesNo, description: text, bareFrame: orNull(text), factors: free, line: count }),
  bed: object({ id: text, densityKgM3: number, moisture: number, targetGradientPaM: number, remark: text, more: free, line: count }),
  plan: object({
    sheetId: text,
    kind: { enum: [...runKinds, null] },
    wheel: orNull(text),
    bed: orNull(text),
    setLoadN: number,
    setSlip: number,
    setSpeedMps: number,
    repeat: orNull(text),
    pass: orNull(count),
    block: orNull(text),
    dropHeightM: number,
    plate: orNull(object({ shape: { enum: ["circle", "rectangle"] }, widthM: number, lengthM: number })),
    shearAreaM2: number,
    normalStressPa: number,
    contactAngleRad: number,
    footprint: orNull(object({ from: { enum: ["pad", "image"] }, ground: { enum: [...grounds] } })),
    obstacle: orNull(object({ heightM: number, edge: { enum: [...edges] }, friction: number, climbed: orNull(yesNo) })),
    remark: text,
    excluded: orNull(text),
    line: count,
    more: free,
  }),
  run: object({
    id: text,
    verdict: { enum: ["go", "look", "repeat", "excluded", "unread"] },
    reasons: list(text),
    plan: ref("plan"),
    measures: list(object({ name: { type: "string", pattern: "^[a-z][A-Za-z0-9]*$" }, label: text, estimate: ref("estimate"), segment: orNull(ref("segment")) })),
    curves: list(ref("curve"), "results of this run that are curves, thinned"),
    fits: list(ref("fit")),
    findings: list(ref("finding")),
    issues: list(object({ code: text, at: text, message: text, hint: text })),
    segments: list(ref("segment")),
    windowChoices: list(object({ label: text, fromS: number, toS: number, pullCoefficient: number })),
    sampling: list(
      object({
        logger: text,
        file: text,
        statedRateHz: { ...number, description: "from the rig description, where the file has no time column" },
        intervals: orNull(
          object({ count, medianS: number, onePercentS: number, ninetyNinePercentS: number, shortestS: number, longestS: number, jitterS: { ...number, description: "root mean square deviation from the median, gaps left out" }, gaps: count, missing: count, duplicates: count, backward: count, rollovers: count }),
        ),
      }),
      "intervals between the rows of each log, on its own clock",
    ),
    alignments: list(object({ logger: text, method: text, offset: ref("estimate"), ratePpm: object({ value: number, standardUncertainty: number }) })),
    sources: list(object({ file: text, sha256: hash, format: text, bytes: count, rowsRead: count, rowsRefused: count })),
    steps: list(object({ name: text, version: text, parameters: { type: "object", additionalProperties: { type: ["string", "number", "boolean", "null"] } } })),
  }),
};

/** An object with exactly these keys. */
function object(properties: Schema): Schema {
  return { type: "object", properties, required: Object.keys(properties), additionalProperties: false };
}

function list(items: Schema, description?: string): Schema {
  return description === undefined ? { type: "array", items } : { type: "array", items, description };
}

function orNull(schema: Schema): Schema {
  return { anyOf: [schema, { type: "null" }] };
}

function ref(name: string): Schema {
  return { $ref: `#/$defs/${name}` };
}
