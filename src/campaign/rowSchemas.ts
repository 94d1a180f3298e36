import { z } from "zod";
import type { Unit } from "../core/units.ts";
import { runKinds } from "./rigSchema.ts";

// Keys are the headings, without brackets and in small letters. A number that has a unit states it in its `unit` entry:
// its heading must carry brackets with a unit of that kind, and the checks below see the number in that unit.
const quantity = (schema: z.ZodNumber, unit: Unit, what: string) => schema.meta({ unit, description: what });
const optionalQuantity = (schema: z.ZodNumber, unit: Unit, what: string) => schema.optional().meta({ unit, description: what });

const compact = (text: unknown) => (typeof text === "string" ? text.toLowerCase().replace(/[^a-z0-9]+/g, "") : text);

/** A choice whose capitals, spaces and hyphens do not matter: `hard floor`, `Hard-floor`, `hardFloor`. */
const choice = <const T extends readonly [string, ...string[]]>(options: T) =>
  z.preprocess((cell) => options.find((option) => compact(option) === compact(cell)) ?? cell, z.enum(options));

const yesNoWords: Readonly<Record<string, "yes" | "no">> = { yes: "yes", y: "yes", true: "yes", "1": "yes", no: "no", n: "no", false: "no", "0": "no" };
const yesNo = z.preprocess((cell) => (typeof cell === "string" ? (yesNoWords[cell.toLowerCase()] ?? cell) : cell), z.enum(["yes", "no"]));

const name = z.string().min(1).max(80);
const positive = z.number().positive();
const notNegative = z.number().nonnegative();

/** What a wheel stands on while its footprint is taken. */
export const grounds = ["flat", "step", "rock"] as const;
export type Ground = (typeof grounds)[number];

/** Edges of an obstacle; a rock has a far side, a step has none. */
export const edges = ["sharp", "rounded", "rock"] as const;
export type Edge = (typeof edges)[number];

/** What may stand in a run's id: it becomes part of file names. */
export const runIdPattern = /^[A-Za-z0-9](?:[A-Za-z0-9._-]{0,62}[A-Za-z0-9_-])?$/;

const freeColumns = "Other headings are free columns; numbers in them need a unit in the heading's brackets.";

export const runRow = z
  .looseObject({
    run: z.string().regex(runIdPattern).describe("the run's id: letters, digits, . _ -; the loggers' files are named after it"),
    kind: choice(runKinds).describe("what kind of run it was; `hard floor`, `free spin` and `load deflection` may be written with a space"),
    wheel: name.optional().describe("a wheel of wheels.csv"),
    bed: name.optional().describe("a bed of beds.csv"),
    load: optionalQuantity(notNegative, "N", "set vertical load"),
    slip: optionalQuantity(z.number().min(-1).max(1), "1", "set slip; driven positive, skid negative"),
    speed: optionalQuantity(notNegative, "m/s", "set carriage speed"),
    repeat: name.optional().describe("which repeat of its condition"),
    pass: z.number().int().positive().optional().describe("how often the wheel has driven over this ground, this time included: 2 = once before, in the same rut; empty = 1. Passes are never pooled"),
    block: name.optional().describe("which block of the plan, e.g. a bed preparation"),
    height: optionalQuantity(positive, "m", "drop height; drop runs"),
    plate: choice(["circle", "rectangle"]).optional().describe("plate shape; plate runs"),
    "plate width": optionalQuantity(positive, "m", "diameter of a circular plate, smaller side of a rectangular one"),
    "plate length": optionalQuantity(positive, "m", "larger side of a rectangular plate"),
    "shear area": optionalQuantity(positive, "m2", "sheared area; shear runs"),
    "normal stress": optionalQuantity(notNegative, "Pa", "set normal stress; shear runs"),
    "obstacle height": optionalQuantity(positive, "m", "height of the step, bar or rock above the floor in front of it; obstacle runs"),
    "footprint from": choice(["pad", "image"]).optional().describe("what recorded the footprint; footprint runs"),
    ground: choice(grounds).optional().describe("what the wheel stood on; footprint runs: flat, step or rock"),
    edge: choice(edges).optional().describe("how the obstacle's edge is; obstacle runs: sharp, rounded, or rock (no step: it has a far side)"),
    "edge friction": optionalQuantity(notNegative, "1", "friction coefficient between wheel and edge, measured apart; gives the height that friction alone would climb"),
    climbed: yesNo.optional().describe("whether the wheel got over the obstacle, as a person saw it; obstacle runs"),
    "contact angle": optionalQuantity(z.number().min(-2 * Math.PI).max(2 * Math.PI), "rad", "which part of the wheel touches, as an angle round it from the wheel's mark; load–deflection runs of one wheel at several angles show how even it is"),
    remark: z.string().optional().describe("anything worth knowing"),
    excluded: yesNo.optional().describe("yes = a person takes the run out; empty = no"),
    reason: z.string().min(1).optional().describe("why it is excluded; needed when it is"),
  })
  .describe(`A run. ${freeColumns}`);

export const wheelRow = z
  .looseObject({
    wheel: name.describe("the wheel's name"),
    radius: quantity(positive, "m", "unloaded, to the rim, without lugs"),
    width: quantity(positive, "m", "width of the rim"),
    mass: quantity(positive, "kg", "mass of the wheel"),
    lugs: z.number().int().nonnegative().describe("number of lugs around the wheel; 0 = none"),
    "lug height": optionalQuantity(notNegative, "m", "from the rim to the lugs' tips; needed where there are lugs"),
    flexible: yesNo.describe("yes = its deflection is taken off the sinkage"),
    description: z.string().optional().describe("how it is made"),
    "bare frame": name.optional().describe("the wheel of this table that is this one without its core; stiffness and loss of the core follow from the difference"),
  })
  .describe(`A wheel. ${freeColumns}`);

export const bedRow = z
  .looseObject({
    bed: name.describe("the bed's name"),
    density: optionalQuantity(positive, "kg/m3", "bulk density"),
    moisture: optionalQuantity(notNegative, "1", "mass of water over mass of dry soil"),
    "target gradient": optionalQuantity(positive, "Pa/m", "cone index gradient the bed was prepared for"),
    remark: z.string().optional().describe("anything worth knowing"),
  })
  .describe(`A bed as prepared. ${freeColumns} Of these \`soil depth\` and \`side clearance\` (wheel to wall) are held against the wheel, \`cone diameter\` (of its base, measured) and \`cone rate\` against the standard cone.`);

export const coneRow = z
  .looseObject({
    bed: name.describe("a bed of beds.csv"),
    position: name.optional().describe("where in the bed; readings of one position are one profile"),
    x: optionalQuantity(z.number(), "m", "where in the bed, along it; with y it makes the map of the bed"),
    y: optionalQuantity(z.number(), "m", "where in the bed, across it"),
    depth: quantity(notNegative, "m", "depth of the cone's base below the surface"),
    index: quantity(notNegative, "Pa", "cone index: force over base area"),
  })
  .describe("One cone reading.");

export const surfaceRow = z
  .looseObject({
    run: z.string().regex(runIdPattern).describe("the run before or after which the lane was scanned"),
    scan: choice(["before", "after"]).describe("before = the levelled bed; after = with the rut in it"),
    position: quantity(z.number(), "m", "along the lane, on the scale of carriagePosition"),
    across: optionalQuantity(z.number(), "m", "from the middle of the lane, either way; empty = in the middle. Points beside the wheel count for nothing"),
    height: quantity(z.number(), "m", "height of the surface above any level that keeps to the rails, upwards positive"),
  })
  .describe("One point of the surface of a lane. How the scanner is to be believed stands in rig.yaml, surfaceScan.");

export const inspectionRow = z
  .looseObject({
    wheel: name.describe("a wheel of wheels.csv"),
    distance: quantity(notNegative, "m", "how far the wheel had run when it was inspected; 0 = before the test"),
    mass: optionalQuantity(positive, "kg", "mass of the wheel as weighed, with the soil that stuck to it"),
    "soil mass": optionalQuantity(notNegative, "kg", "mass of the soil that stuck to it; 0 = it was clean"),
    "cleaned mass": optionalQuantity(positive, "kg", "mass weighed again after cleaning; it counts where both are stated"),
    radius: optionalQuantity(positive, "m", "unloaded, to the rim, without lugs"),
    stiffness: optionalQuantity(positive, "N/m", "at the load and in the way it was measured at every inspection"),
    "pull coefficient": optionalQuantity(z.number(), "1", "on the control soil at one slip and load; empty where `run` names the run that measured it"),
    run: z.string().regex(runIdPattern).optional().describe("a run of the run sheet whose pull coefficient belongs to this inspection"),
    "broken elements": z.number().int().nonnegative().optional().describe("how many spokes, wires or lugs are broken by now"),
    failed: yesNo.describe("yes = the wheel can no longer do its work; the first such row ends its life"),
    remark: z.string().optional().describe("anything worth knowing"),
  })
  .describe(`A wheel inspected during an endurance test. ${freeColumns}`);

/** The unit a column's numbers are checked in; null = its cells are text or bare numbers. */
export function columnUnit(schema: z.core.$ZodType): Unit | null {
  return (z.globalRegistry.get(schema)?.["unit"] as Unit | undefined) ?? null;
}

/** What is inside `optional()`. */
export function required(schema: z.core.$ZodType): z.core.$ZodType {
  return schema instanceof z.ZodOptional ? required(schema.unwrap()) : schema;
}
