import { isMap, LineCounter, parseDocument, visit } from "yaml";
import { z } from "zod";
import { InputError } from "../core/errors.ts";
import type { Issue } from "../core/errors.ts";
import { convert, parseUnit, unitKind, unitsOfKind } from "../core/units.ts";
import type { Unit } from "../core/units.ts";
import { decodeText } from "./decodeText.ts";
import { list, show } from "./nearest.ts";
import { plainWords } from "./plainWords.ts";
import type { CardWheel } from "./soilFileSchema.ts";
import { yamlPlace } from "./yamlPlaces.ts";
import type { KeyPath } from "./yamlPlaces.ts";

const maximumBytes = 250_000;

/** A bare number lacks its unit: told as a length, not as a text in want of quotation marks. */
const length = z.preprocess((value) => (typeof value === "number" ? String(value) : value), z.string());

/** One wheel that need not have been built yet, as a small YAML file. */
export const wheelFileSchema = z.strictObject({
  wheel: z.string().min(1).max(80).describe("the wheel's name"),
  diameter: length.describe("unloaded, over the rim without lugs, with its unit: 240 mm"),
  width: length.describe("of the rim, with its unit"),
  lugs: z.number().int().nonnegative().describe("number of lugs around the wheel; 0 = none"),
  lugHeight: length.optional().describe("from the rim to the lugs' tips, with its unit; needed where there are lugs"),
  flexible: z.boolean().describe("true = it needs loadDeflection"),
  loadDeflection: z
    .strictObject({
      load: z.string().describe("unit of the loads"),
      deflection: z.string().describe("unit of the deflections"),
      points: z.array(z.tuple([z.number().positive(), z.number().positive()])).min(1).describe("pairs [load, deflection] on a hard plate, both rising, from above zero"),
    })
    .optional()
    .describe("load against deflection on a hard plate; flexible wheels"),
});

type WheelFile = z.infer<typeof wheelFileSchema>;

/** @throws InputError with every mistake, its line and what to do */
export function readWheelFile(bytes: Uint8Array, file: string): CardWheel {
  const whole = (code: string, message: string, hint: string): never => {
    throw new InputError([{ code, at: file, message, hint }]);
  };
  if (bytes.length > maximumBytes) whole("file-too-large", `expected at most ${maximumBytes / 1e6} MB, found ${(bytes.length / 1e6).toFixed(1)} MB`, "Is this the description of one wheel?");
  const lines = new LineCounter();
  const document = parseDocument(decodeText(bytes).text, { lineCounter: lines, prettyErrors: false, version: "1.2", merge: false });
  const syntax = document.errors[0];
  if (syntax !== undefined) throw new InputError([{ code: "bad-yaml", at: `${file} line ${lines.linePos(syntax.pos[0]).line}`, message: `expected YAML, found ${syntax.message}`, hint: "Write one `key: value` a line." }]);
  if (!isMap(document.contents)) whole("empty-file", `expected the keys ${list(Object.keys(wheelFileSchema.shape))}, found none`, "Describe the wheel, one `key: value` a line.");
  let repeated = false;
  visit(document, { Alias: () => void (repeated = true) });
  if (repeated) whole("bad-yaml", "expected plain values, found blocks to be repeated", "Write the values out.");
  const written: unknown = document.toJS();
  const place = (path: KeyPath): string => yamlPlace(file, document, lines, path);
  const parsed = wheelFileSchema.safeParse(written);
  if (!parsed.success) {
    throw new InputError(parsed.error.issues.flatMap((issue) => {
      const found = issue.path.reduce<unknown>((value, key) => (value as Record<PropertyKey, unknown> | null | undefined)?.[key], written);
      const told = issue.code === "unrecognized_keys" ? issue.keys.map((key) => ({ path: [...issue.path, key], issue: { ...issue, keys: [key] } })) : [{ path: issue.path, issue }];
      return told.map((one) => ({ at: place(one.path), ...plainWords(one.issue, found, meaningOf(issue.path), Object.keys(wheelFileSchema.shape)) }));
    }));
  }
  const { wheel, issues } = wheelFrom(parsed.data, place);
  if (wheel === null) throw new InputError(issues);
  return wheel;
}

function meaningOf(path: KeyPath): string {
  return wheelFileSchema.shape[path[0] as keyof WheelFile]?.description ?? "";
}

function wheelFrom(written: WheelFile, place: (path: KeyPath) => string): { readonly wheel: CardWheel | null; readonly issues: readonly Issue[] } {
  const issues: Issue[] = [];
  const metres = (key: "diameter" | "width" | "lugHeight", text: string): number => {
    const parts = /^\s*([+-]?[\d.]+(?:[eE][+-]?\d+)?)\s*(\S+)\s*$/.exec(text);
    const unit = parts === null ? undefined : parseUnit(parts[2] as string);
    const value = parts === null || unit === undefined || unitKind(unit) !== "length" ? Number.NaN : convert(Number(parts[1]), unit, "m");
    if (!(value > 0)) issues.push({ code: "not-a-length", at: place([key]), message: `expected a length above 0 with its unit, such as 240 mm, found ${show(text)}`, hint: `Units of length are ${list(unitsOfKind("length"))}.` });
    return value;
  };
  const rimM = metres("diameter", written.diameter) / 2;
  const widthM = metres("width", written.width);
  if (written.lugs > 0 && written.lugHeight === undefined) issues.push({ code: "missing", at: place(["lugs"]), message: `expected lugHeight for a wheel with ${written.lugs} lugs, found nothing`, hint: "Add the height from the rim to the lugs' tips with its unit." });
  const lugHeightM = written.lugs > 0 && written.lugHeight !== undefined ? metres("lugHeight", written.lugHeight) : 0;
  const { loadDeflection } = written;
  if (written.flexible && loadDeflection === undefined) issues.push({ code: "missing", at: place(["flexible"]), message: "expected loadDeflection for a flexible wheel, found nothing", hint: "Add load against deflection on a hard plate: loadDeflection: { load: N, deflection: mm, points: [[20, 1.1], [40, 2.0]] }." });
  if (!written.flexible && loadDeflection !== undefined) issues.push({ code: "not-flexible", at: place(["loadDeflection"]), message: "expected no loadDeflection for a rigid wheel, found one", hint: "Write flexible: true, or remove it." });
  const curve = loadDeflection === undefined ? null : curveFrom(loadDeflection, place, issues);
  return { wheel: issues.length > 0 ? null : { id: written.wheel, rimM, widthM, lugs: written.lugs, lugHeightM, curve }, issues };
}

function curveFrom({ load, deflection, points }: NonNullable<WheelFile["loadDeflection"]>, place: (path: KeyPath) => string, issues: Issue[]): CardWheel["curve"] {
  const unitOf = (key: "load" | "deflection", text: string, like: Unit): Unit => {
    const unit = parseUnit(text);
    if (unit !== undefined && unitKind(unit) === unitKind(like)) return unit;
    issues.push({ code: "unknown-unit", at: place(["loadDeflection", key]), message: `expected a unit of ${unitKind(like)}, found ${show(text)}`, hint: `Such as ${list(unitsOfKind(unitKind(like)))}.` });
    return like;
  };
  const [loadUnit, deflectionUnit] = [unitOf("load", load, "N"), unitOf("deflection", deflection, "m")];
  points.forEach(([force, bend], i) => {
    const [forceBefore, bendBefore] = points[i - 1] ?? [0, 0];
    if (!(force > forceBefore && bend > bendBefore)) issues.push({ code: "curve-not-rising", at: place(["loadDeflection", "points", i]), message: `expected load and deflection above those of the pair before (${forceBefore}, ${bendBefore}), found ${force}, ${bend}`, hint: "Give the loading branch alone, in rising order." });
  });
  return { loadN: points.map(([force]) => convert(force, loadUnit, "N")), deflectionM: points.map(([, bend]) => convert(bend, deflectionUnit, "m")) };
}
