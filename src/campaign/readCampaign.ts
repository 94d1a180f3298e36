import { createHash } from "node:crypto";
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { InputError, plainIssue } from "../core/errors.ts";
import type { Issue } from "../core/errors.ts";
import type { BedRecord, Campaign, CampaignIssue, ConeReading, InspectionRecord, RunPlan, WheelRecord } from "./campaign.ts";
import { checkDay } from "./checkDay.ts";
import { list, nearest, show } from "./nearest.ts";
import { readInspections } from "./readInspections.ts";
import { readBeds, readCones, readWheels } from "./readRecords.ts";
import type { Records } from "./readRecords.ts";
import { readRig } from "./readRig.ts";
import { readRuns } from "./readRuns.ts";
import { readSurfaces } from "./readSurfaces.ts";
import type { ScannedRun } from "./readSurfaces.ts";
import { bedRow, coneRow, inspectionRow, runRow, surfaceRow, wheelRow } from "./rowSchemas.ts";
import { readSheet } from "./sheet.ts";
import type { Sheet } from "./sheet.ts";
import { readWorkbookSheet } from "./workbookSheet.ts";

const maximumTableBytes = 20_000_000;
const mostIssues = 1000;

const columns = { runs: Object.keys(runRow.shape), wheels: Object.keys(wheelRow.shape), beds: Object.keys(bedRow.shape), cones: Object.keys(coneRow.shape), surfaces: Object.keys(surfaceRow.shape), inspections: Object.keys(inspectionRow.shape) };
type Table = keyof typeof columns;

/**
 * Everything people wrote about a day: rig.yaml, runs.csv, wheels.csv, beds.csv, cones.csv, surfaces.csv, inspections.csv; each table may be a workbook instead, runs.xlsx.
 * Mistakes that stop single runs come back as `issues`; each such run is listed among the runs and must not be reduced.
 *
 * @throws InputError with all mistakes of all files, when the day as a whole cannot be understood
 */
export function readCampaign(folder: string): Campaign {
  const day: Issue[] = [];
  const remarks: CampaignIssue[] = [];
  const files: { file: string; sha256: string }[] = [];
  const names = listFolder(folder);
  const open = (file: string) => openFile(folder, file, names, files, day);
  // A damaged table can hold more mistakes than a call takes arguments.
  const stop = (issues: readonly Issue[]) => issues.forEach((issue) => day.push(issue));
  const note = (issues: readonly Issue[]) => issues.forEach((issue) => remarks.push({ ...issue, run: null }));
  const fileOf = (table: Table): string => (names.includes(`${table}.xlsx`) && !names.includes(`${table}.csv`) ? `${table}.xlsx` : `${table}.csv`);
  const table = (name: Table): Sheet | null => {
    const file = fileOf(name);
    if (file.endsWith(".csv") && names.includes(file) && names.includes(`${name}.xlsx`)) day.push(twoTables(name));
    const bytes = open(file);
    if (bytes === null) return null;
    if (bytes.length > maximumTableBytes) {
      day.push({
        code: "file-too-large",
        at: file,
        message: `expected at most ${maximumTableBytes / 1e6} MB, found ${(bytes.length / 1e6).toFixed(1)} MB`,
        hint: "Is this the table? Logs belong into files of their own.",
      });
      return null;
    }
    const reading = file.endsWith(".xlsx") ? readWorkbookSheet(bytes, file, columns[name]) : readSheet(bytes, file, columns[name]);
    stop(reading.issues);
    note(reading.remarks);
    return reading.sheet;
  };

  const rigBytes = open("rig.yaml");
  if (rigBytes === null && !names.includes("rig.yaml")) day.push(absent("rig.yaml", "the rig description", names));
  const reading = rigBytes === null ? null : readRig(rigBytes, "rig.yaml");
  stop(reading?.issues ?? []);

  const runTable = table("runs");
  if (!names.includes(fileOf("runs"))) day.push(absent("runs.csv", "the run sheet", names));
  const sheet = runTable === null ? { runs: [], issues: [], remarks: [] } : readRuns(runTable);
  stop(sheet.issues);
  sheet.remarks.forEach((remark) => remarks.push(remark));
  if (reading?.rig != null) stop(checkDay(reading.rig, sheet.runs).map(({ path, ...issue }) => ({ at: reading.place(path), ...issue })));

  const keep = <T>(name: Table, read: (sheet: Sheet) => Records<T>): Records<T> | null => {
    const found = table(name);
    if (found === null) return null;
    const records = read(found);
    stop(records.issues);
    note(records.remarks);
    return records;
  };
  const wheels = keep<WheelRecord>("wheels", readWheels);
  const beds = keep<BedRecord>("beds", readBeds);
  const cones = keep<ConeReading>("cones", (cone) => readCones(cone, beds === null ? null : [...beds.records.map((bed) => bed.id), ...beds.broken]));
  const scans = keep<ScannedRun>("surfaces", (surface) => readSurfaces(surface, sheet.runs.map((run) => run.sheetId)));
  const inspections = keep<InspectionRecord>("inspections", (inspection) => readInspections(inspection, wheels === null ? null : [...wheels.records.map((wheel) => wheel.id), ...wheels.broken], sheet.runs.map((run) => run.sheetId)));
  for (const [key, records] of [["wheel", wheels], ["bed", beds]] as const) {
    const file = fileOf(`${key}s`);
    if (records === null && !names.includes(file)) stop(recordsAbsent(key, file, sheet.runs, names));
    else if (records !== null) remarks.push(...checkNames(key, file, records, sheet.runs, runTable));
  }

  if (day.length > 0 || reading?.rig == null) throw new InputError(fewer([...day, ...remarks.map(({ run: _, ...issue }) => issue)].sort((a, b) => order(a) - order(b))));
  return { rig: reading.rig, runs: sheet.runs.map((run) => withSurface(run, scans?.records ?? [])), wheels: wheels?.records ?? [], beds: beds?.records ?? [], cones: cones?.records ?? [], inspections: inspections?.records ?? [], issues: remarks.map(plainIssue).sort((a, b) => order(a) - order(b)), files };
}

function withSurface(run: RunPlan, scans: readonly ScannedRun[]): RunPlan {
  const found = scans.find((scan) => scan.run === run.sheetId);
  return found === undefined ? run : { ...run, surface: { before: found.before, after: found.after } };
}

/** As many as a person goes through before the next try. */
function fewer(issues: readonly Issue[]): readonly Issue[] {
  if (issues.length <= mostIssues) return issues;
  const left = issues.slice(mostIssues);
  return [...issues.slice(0, mostIssues), { code: "more-issues", at: left[0]?.at ?? "", message: `expected no further mistakes, found ${left.length} more from here on`, hint: "Mend the ones above first" }];
}

/** Files in the order a person goes through them, then lines. */
function order(issue: Issue): number {
  const file = ["rig.yaml", ...Object.keys(columns).map((table) => `${table}.`)].findIndex((name) => issue.at.startsWith(name));
  return file * 1e8 + Number(/ line (\d+)/.exec(issue.at)?.[1] ?? 0);
}

function listFolder(folder: string): string[] {
  try {
    return readdirSync(folder);
  } catch {
    throw new InputError([{ code: "no-day-folder", at: folder, message: "expected a day folder with rig.yaml and runs.csv, found no folder that can be read", hint: "Check the path." }]);
  }
}

function openFile(folder: string, file: string, names: readonly string[], files: { file: string; sha256: string }[], day: Issue[]): Uint8Array | null {
  if (!names.includes(file)) return null;
  try {
    const path = join(folder, file);
    if (!statSync(path).isFile()) throw new Error("not a file");
    const bytes = readFileSync(path);
    files.push({ file, sha256: createHash("sha256").update(bytes).digest("hex") });
    return bytes;
  } catch (error) {
    day.push({
      code: "unreadable-file",
      at: file,
      message: `expected a file that can be read, found ${show((error as NodeJS.ErrnoException).code ?? (error as Error).message)}`,
      hint: "Check what it is and who may read it.",
    });
    return null;
  }
}

/** Two tables of one name: nobody can say which of them holds. */
function twoTables(table: Table): Issue {
  return { code: "two-tables", at: `${table}.csv`, message: `expected ${table}.csv or ${table}.xlsx, found both`, hint: "Move the one that does not hold out of the day folder." };
}

function absent(file: string, what: string, names: readonly string[]): Issue {
  const guess = nearest(file, names);
  return {
    code: "missing-file",
    at: file,
    message: `expected ${what} in the day folder, found no file of that name`,
    hint: guess === null ? "Write it, or check the folder." : `Rename ${guess} to ${file}.`,
  };
}

function recordsAbsent(key: "wheel" | "bed", file: string, runs: readonly RunPlan[], names: readonly string[]): Issue[] {
  const needing = runs.filter((run) => run[key] !== null && run.excluded === null);
  if (needing.length === 0) return [];
  const guess = nearest(file, names);
  return [{
    code: "missing-file",
    at: file,
    message: `expected ${file}, because the runs ${list(needing.map((run) => run.id))} name a ${key}, found no file of that name`,
    hint: guess === null ? `Write it, a row per ${key}${key === "bed" ? ", or leave the bed cells empty" : ""}.` : `Rename ${guess} to ${file}.`,
  }];
}

function checkNames(key: "wheel" | "bed", file: string, records: Records<{ readonly id: string }>, runs: readonly RunPlan[], sheet: Sheet | null): CampaignIssue[] {
  const known = records.records.map((record) => record.id);
  const heading = sheet?.columns.find((column) => column.name === key)?.heading ?? key;
  return runs.flatMap((run): CampaignIssue[] => {
    const name = run[key];
    if (name === null || known.includes(name)) return [];
    const at = `${sheet?.file ?? "runs.csv"} line ${run.line}, column "${heading}"`;
    if (records.broken.has(name) && records.issues.length > 0) return [];
    if (records.broken.has(name)) return [{
      code: `broken-${key}`,
      at,
      message: `expected a ${key} whose row in ${file} can be read, found ${show(name)}`,
      hint: `Correct its row in ${file}.`,
      run: run.id,
    }];
    const all = [...known, ...records.broken];
    const guess = nearest(name, all);
    return [{
      code: `unknown-${key}`,
      at,
      message: `expected a ${key} of ${file} (${list(all)}), found ${show(name)}`,
      hint: guess === null ? `Add it to ${file}, or correct the name.` : `Did you mean ${guess}?`,
      run: run.id,
    }];
  });
}
