import type { Issue } from "../core/errors.ts";
import type { BedRecord, ConeReading, WheelRecord } from "./campaign.ts";
import { list, nearest, show } from "./nearest.ts";
import { readRows } from "./readRows.ts";
import type { Row } from "./readRows.ts";
import { bedRow, coneRow, wheelRow } from "./rowSchemas.ts";
import type { Sheet } from "./sheet.ts";

/** Records of one table. */
export interface Records<T> {
  /** those that could be read whole */
  readonly records: readonly T[];
  /** names that stand in the table but whose rows have mistakes */
  readonly broken: ReadonlySet<string>;
  /** the table cannot be understood */
  readonly issues: readonly Issue[];
  /** single rows or free columns with mistakes */
  readonly remarks: readonly Issue[];
}

export function readWheels(sheet: Sheet): Records<WheelRecord> {
  const { rows, issues, remarks } = readRows(sheet, wheelRow);
  return framesNamed(sheet, named(sheet, "wheel", rows, issues, remarks, (row, found) => {
    const { wheel, radius, width, mass, lugs, flexible, description = "" } = row.values;
    const height = row.values["lug height"] ?? (lugs === 0 ? 0 : undefined);
    if (height === undefined && lugs !== undefined && !row.failed.has("lug height")) found.push({
      code: "missing",
      at: `${sheet.file} line ${row.line}`,
      message: `expected "lug height [mm]" for a wheel with ${lugs} lugs, found nothing`,
      hint: "Add the height from the rim to the lugs' tips; it enters the slip radius.",
    });
    if (wheel === undefined || radius === undefined || width === undefined || mass === undefined || lugs === undefined || height === undefined || flexible === undefined) return null;
    return { id: wheel, radiusM: radius, widthM: width, massKg: mass, lugs, lugHeightM: height, flexible: flexible === "yes", description, bareFrame: row.values["bare frame"] ?? null, factors: row.more, line: row.line };
  }));
}

/** A bare frame must be another wheel of the table; one that is not is said and taken for none. */
function framesNamed(sheet: Sheet, wheels: Records<WheelRecord>): Records<WheelRecord> {
  const known = [...wheels.records.map((wheel) => wheel.id), ...wheels.broken];
  const wrong = wheels.records.filter(({ id, bareFrame }) => bareFrame !== null && (bareFrame === id || !known.includes(bareFrame)));
  const found = wrong.map((wheel): Issue => {
    const others = known.filter((id) => id !== wheel.id);
    const guess = nearest(wheel.bareFrame as string, others);
    return {
      code: "unknown-bare-frame",
      at: `${sheet.file} line ${wheel.line}, column "bare frame"`,
      message: `expected another wheel of this table (${list(others)}), found ${show(wheel.bareFrame)}`,
      hint: guess === null ? "Name the wheel that is this one without its core, or clear the cell." : `Did you mean ${guess}?`,
    };
  });
  return { ...wheels, records: wheels.records.map((wheel) => (wrong.includes(wheel) ? { ...wheel, bareFrame: null } : wheel)), remarks: [...wheels.remarks, ...found] };
}

export function readBeds(sheet: Sheet): Records<BedRecord> {
  const { rows, issues, remarks } = readRows(sheet, bedRow);
  return named(sheet, "bed", rows, issues, remarks, (row) => {
    const { bed, density = null, moisture = null, remark = "" } = row.values;
    if (bed === undefined) return null;
    return { id: bed, densityKgM3: density, moisture, targetGradientPaM: row.values["target gradient"] ?? null, remark, more: row.more, line: row.line };
  });
}

/** `beds` = the names of beds.csv; null = there is none. */
export function readCones(sheet: Sheet, beds: readonly string[] | null): Records<ConeReading> {
  const { rows, issues, remarks } = readRows(sheet, coneRow);
  const found: Issue[] = [...remarks, ...rows.flatMap((row) => row.issues)];
  const records = rows.flatMap((row): ConeReading[] => {
    const { bed, position = "", depth, index } = row.values;
    if (bed !== undefined && beds !== null && !beds.includes(bed)) {
      const guess = nearest(bed, beds);
      found.push({
        code: "unknown-bed",
        at: `${sheet.file} line ${row.line}, column "bed"`,
        message: `expected a bed of beds.csv (${list(beds)}), found ${show(bed)}`,
        hint: `The reading is left out. ${guess === null ? "Add the bed, or correct its name." : `Did you mean ${guess}?`}`,
      });
      return [];
    }
    if (row.issues.length > 0 || bed === undefined || depth === undefined || index === undefined) return [];
    const { x, y } = row.values;
    if ((x === undefined) !== (y === undefined)) found.push({
      code: "missing",
      at: `${sheet.file} line ${row.line}`,
      message: `expected both x and y of a cone reading, or neither, found ${x === undefined ? "y" : "x"} alone`,
      hint: "The reading counts; its place is left out. Fill in the other cell.",
    });
    return [{ bed, position, ...(x === undefined || y === undefined ? {} : { place: { xM: x, yM: y } }), depthM: depth, indexPa: index, line: row.line }];
  });
  return { records, broken: new Set(), issues, remarks: found };
}

/** Rows with a name of their own; a name used twice names nothing. */
function named<V extends Record<string, unknown>, T extends { readonly id: string; readonly line: number }>(
  sheet: Sheet,
  key: string,
  rows: readonly Row<V>[],
  issues: readonly Issue[],
  remarks: readonly Issue[],
  build: (row: Row<V>, found: Issue[]) => T | null,
): Records<T> {
  const found: Issue[] = [...remarks];
  const broken = new Set<string>();
  const records: T[] = [];
  const linesOf = new Map<string, number[]>();
  for (const row of rows) {
    const id = row.values[key];
    if (typeof id === "string") linesOf.set(id, [...(linesOf.get(id) ?? []), row.line]);
  }
  for (const row of rows) {
    const own: Issue[] = [...row.issues];
    const record = build(row, own);
    const id = row.values[key];
    const lines = (typeof id === "string" ? linesOf.get(id) : undefined) ?? [];
    if (lines.length > 1) own.push({
      code: `duplicate-${key}`,
      at: `${sheet.file} line ${row.line}, column "${key}"`,
      message: `expected each ${key} once, found ${show(id)} on lines ${lines.join(" and ")}`,
      hint: "Rename or remove one of them.",
    });
    found.push(...own);
    if (record !== null && own.length === 0) records.push(record);
    else if (typeof id === "string") broken.add(id);
  }
  return { records, broken, issues, remarks: found };
}
