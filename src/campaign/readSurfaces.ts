import type { Issue } from "../core/errors.ts";
import { groupBy } from "../core/groupBy.ts";
import type { SurfacePoint, SurfaceScan } from "./campaign.ts";
import { list, nearest, show } from "./nearest.ts";
import type { Records } from "./readRecords.ts";
import { readRows } from "./readRows.ts";
import { surfaceRow } from "./rowSchemas.ts";
import type { Sheet } from "./sheet.ts";

/** The scans of one run, by the id on the run sheet. */
export interface ScannedRun extends SurfaceScan {
  readonly run: string;
}

/** `runs` = the ids of the run sheet. A point with a mistake is left out and named. */
export function readSurfaces(sheet: Sheet, runs: readonly string[]): Records<ScannedRun> {
  const { rows, issues, remarks } = readRows(sheet, surfaceRow);
  const found: Issue[] = [...remarks, ...rows.flatMap((row) => row.issues)];
  const known = new Set(runs);
  const points = rows.flatMap(({ values, line, issues: own }): { run: string; scan: "before" | "after"; point: SurfacePoint }[] => {
    const { run, scan, position, across = null, height } = values;
    if (run !== undefined && !known.has(run)) {
      const guess = nearest(run, runs);
      found.push({
        code: "unknown-run",
        at: `${sheet.file} line ${line}, column "run"`,
        message: `expected a run of the run sheet (${list(runs)}), found ${show(run)}`,
        hint: `The point is left out. ${guess === null ? "Add the run, or correct its name." : `Did you mean ${guess}?`}`,
      });
      return [];
    }
    if (own.length > 0 || run === undefined || scan === undefined || position === undefined || height === undefined) return [];
    return [{ run, scan, point: { positionM: position, acrossM: across, heightM: height } }];
  });
  const records = [...groupBy(points, (point) => point.run)].map(([run, own]): ScannedRun => {
    const side = (scan: "before" | "after"): SurfacePoint[] => own.filter((point) => point.scan === scan).map(({ point }) => point).sort((a, b) => a.positionM - b.positionM);
    return { run, before: side("before"), after: side("after") };
  });
  return { records, broken: new Set(), issues, remarks: found };
}
