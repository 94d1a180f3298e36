import { InputError } from "../core/errors.ts";
import type { Issue } from "../core/errors.ts";
import { decodeText } from "./decodeText.ts";
import { plainWords } from "./plainWords.ts";
import { soilFileSchema } from "./soilFileSchema.ts";
import type { SoilCard } from "./soilFileSchema.ts";

/** A soil file with its draws stays far below this. */
const maximumBytes = 20_000_000;
/** Of very many mistakes the first are told: the rest follow from them. */
const mostIssues = 12;

/**
 * What a design model needs, from the bytes of a soil.json.
 *
 * @throws InputError when it is no soil.json, holds nothing on the soil under wheels, or does not hang together
 */
export function readSoilCard(bytes: Uint8Array, file: string): SoilCard {
  const refuse = (...issues: Issue[]): never => {
    throw new InputError(issues);
  };
  const another = "Give the soil.json of a folder that `drawbar reduce` wrote; reduce the day again if it was edited.";
  if (bytes.length > maximumBytes) refuse({ code: "file-too-large", at: file, message: `expected at most ${maximumBytes / 1e6} MB, found ${(bytes.length / 1e6).toFixed(1)} MB`, hint: another });
  let written: unknown;
  try {
    written = JSON.parse(decodeText(bytes).text);
  } catch (error) {
    refuse({ code: "bad-json", at: file, message: `expected JSON, found ${(error as Error).message}`, hint: another });
  }
  const format = (written as { format?: unknown } | null)?.format;
  if (format !== "drawbar soil constants") refuse({ code: "not-a-soil-file", at: file, message: `expected "format": "drawbar soil constants", found ${format === undefined ? "none" : JSON.stringify(format)}`, hint: another });
  const parsed = soilFileSchema.safeParse(written);
  if (!parsed.success) {
    return refuse(...parsed.error.issues.slice(0, mostIssues).map((issue) => {
      const found = issue.path.reduce<unknown>((value, key) => (value as Record<PropertyKey, unknown> | null | undefined)?.[key], written);
      const unknown = issue.code === "unrecognized_keys" ? `, ${issue.keys.join(", ")}` : "";
      return { ...plainWords(issue, found, ""), at: `${file}, ${issue.path.map(String).join(".")}${unknown}`, hint: `It is not as drawbar writes it. ${another}` };
    }));
  }
  const card = parsed.data.underWheels;
  if (card === null) return refuse({ code: "no-wheel-soil", at: `${file}, underWheels`, message: "expected the soil under the wheels, found null", hint: "Write wheelModel: {} under soil in rig.yaml and reduce the day again; its report says so where the traction runs were too few for a fit." });
  const uneven = unevenParts(card);
  if (uneven.length > 0) refuse(...uneven.map((issue) => ({ ...issue, at: `${file}, underWheels.${issue.at}`, hint: another })));
  return card;
}

/** What a schema cannot say: lists that belong together are equally long, curves rise. */
function unevenParts({ fitted, draws, wheels }: SoilCard): Omit<Issue, "hint">[] {
  const length = (at: string, wanted: number, found: number): Omit<Issue, "hint">[] => (wanted === found ? [] : [{ code: "uneven-list", at, message: `expected ${wanted} numbers, found ${found}` }]);
  const short = draws.rows.findIndex((row) => row.length !== draws.columns.length);
  const rises = (values: readonly number[]): boolean => values.every((value, i) => value > (values[i - 1] ?? 0));
  return [
    ...length("fitted.values", fitted.names.length, fitted.values.length),
    ...length("fitted.covariance", fitted.names.length, fitted.covariance.length),
    ...(short < 0 ? [] : length(`draws.rows.${short}`, draws.columns.length, (draws.rows[short] as readonly number[]).length)),
    ...wheels.flatMap(({ curve }, i) => (curve === null || (curve.deflectionM.length === curve.loadN.length && rises(curve.deflectionM) && rises(curve.loadN)) ? [] : [{ code: "curve-not-rising", at: `wheels.${i}.curve`, message: "expected deflections and loads of equal number, both rising, found others" }])),
  ];
}
