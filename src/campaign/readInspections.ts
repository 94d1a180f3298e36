import type { Issue } from "../core/errors.ts";
import type { InspectionRecord } from "./campaign.ts";
import { list, nearest, show } from "./nearest.ts";
import type { Records } from "./readRecords.ts";
import { readRows } from "./readRows.ts";
import { inspectionRow } from "./rowSchemas.ts";
import type { Sheet } from "./sheet.ts";

/** `wheels` = the names of wheels.csv, null = there is none; `runs` = the ids of the run sheet. */
export function readInspections(sheet: Sheet, wheels: readonly string[] | null, runs: readonly string[]): Records<InspectionRecord> {
  const { rows, issues, remarks } = readRows(sheet, inspectionRow);
  const found: Issue[] = [...remarks, ...rows.flatMap((row) => row.issues)];
  const unknown = (column: "wheel" | "run", name: string | undefined, known: readonly string[] | null, line: number): boolean => {
    if (name === undefined || known === null || known.includes(name)) return false;
    const guess = nearest(name, known);
    found.push({
      code: `unknown-${column}`,
      at: `${sheet.file} line ${line}, column "${column}"`,
      message: `expected a ${column} of ${column}s.csv (${list(known)}), found ${show(name)}`,
      hint: `The inspection is left out. ${guess === null ? `Add the ${column}, or correct its name.` : `Did you mean ${guess}?`}`,
    });
    return true;
  };
  const records = rows.flatMap(({ values, line, issues: own }): InspectionRecord[] => {
    const { wheel, distance, failed } = values;
    const strange = [unknown("wheel", wheel, wheels, line), unknown("run", values.run, runs, line)].includes(true);
    if (strange || own.length > 0 || wheel === undefined || distance === undefined || failed === undefined) return [];
    return [{
      wheel,
      distanceM: distance,
      massKg: values.mass ?? null,
      soilMassKg: values["soil mass"] ?? null,
      cleanedMassKg: values["cleaned mass"] ?? null,
      radiusM: values.radius ?? null,
      stiffnessNm: values.stiffness ?? null,
      pullCoefficient: values["pull coefficient"] ?? null,
      run: values.run ?? null,
      brokenElements: values["broken elements"] ?? null,
      failed: failed === "yes",
      remark: values.remark ?? "",
      line,
    }];
  });
  return { records, broken: new Set(), issues, remarks: found };
}
