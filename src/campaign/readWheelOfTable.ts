import { InputError } from "../core/errors.ts";
import { list, nearest, show } from "./nearest.ts";
import { readWheels } from "./readRecords.ts";
import { wheelRow } from "./rowSchemas.ts";
import { readSheet } from "./sheet.ts";
import type { CardWheel } from "./soilFileSchema.ts";

/**
 * One rigid wheel of a table written like wheels.csv.
 *
 * @throws InputError with every mistake of the table, when the wheel is not in it, or when it is flexible: the table has no load–deflection curve
 */
export function readWheelOfTable(bytes: Uint8Array, file: string, id: string): CardWheel {
  const reading = readSheet(bytes, file, Object.keys(wheelRow.shape));
  if (reading.sheet === null || reading.issues.length > 0) throw new InputError(reading.issues);
  const { records, broken, issues, remarks } = readWheels(reading.sheet);
  if (issues.length > 0) throw new InputError(issues);
  const record = records.find((wheel) => wheel.id === id);
  if (record === undefined) {
    if (broken.has(id)) throw new InputError(remarks);
    const guess = nearest(id, records.map((wheel) => wheel.id));
    throw new InputError([{ code: "unknown-wheel", at: file, message: `expected the wheel ${show(id)}, found ${list(records.map((wheel) => wheel.id))}`, hint: guess === null ? "Give the name of one of them." : `Did you mean ${guess}?` }]);
  }
  if (record.flexible) throw new InputError([{ code: "no-curve", at: `${file} line ${record.line}, column "flexible"`, message: `expected a rigid wheel, found that ${show(id)} is flexible, and the table has no load–deflection curve`, hint: "Describe the wheel in a YAML file with loadDeflection, or press it on a plate and reduce that day: soil.json then holds it." }]);
  return { id, rimM: record.radiusM, widthM: record.widthM, lugs: record.lugs, lugHeightM: record.lugs > 0 ? record.lugHeightM : 0, curve: null };
}
