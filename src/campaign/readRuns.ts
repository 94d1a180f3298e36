import type { z } from "zod";
import type { Issue } from "../core/errors.ts";
import { printable } from "../core/printable.ts";
import type { CampaignIssue, RunPlan } from "./campaign.ts";
import { list, nearest, show } from "./nearest.ts";
import { readRows } from "./readRows.ts";
import type { Row } from "./readRows.ts";
import type { RunKind } from "./rigSchema.ts";
import { columnUnit, runIdPattern, runRow } from "./rowSchemas.ts";
import type { Sheet } from "./sheet.ts";

type RunRow = z.output<typeof runRow>;
type Key = keyof typeof runRow.shape;

/** Cells without which a run of that kind cannot be reduced. */
const needs: Readonly<Record<RunKind, readonly Key[]>> = {
  traction: ["wheel", "load"],
  hardFloor: ["wheel", "load"],
  freeSpin: [],
  plate: ["plate", "plate width"],
  shear: ["shear area", "normal stress"],
  drop: ["wheel", "height"],
  loadDeflection: ["wheel"],
  sweep: ["wheel", "load"],
  obstacle: ["wheel", "obstacle height", "edge"],
  footprint: ["wheel", "load", "footprint from", "ground"],
  endurance: ["wheel", "load"],
};

const mostRuns = 5000;

export interface RunSheet {
  readonly runs: readonly RunPlan[];
  /** the sheet cannot be understood */
  readonly issues: readonly Issue[];
  /** with `run`: stops that run; without: stops none */
  readonly remarks: readonly CampaignIssue[];
}

/** Every row becomes a plan, so that nothing is lost; a row with mistakes is named by issues and has null where a cell was wrong. */
export function readRuns(sheet: Sheet): RunSheet {
  if (sheet.rows.length > mostRuns) return { runs: [], issues: [{ code: "too-many-runs", at: sheet.file, message: `expected the runs of a day, at most ${mostRuns}, found ${sheet.rows.length} rows`, hint: "Is this the run sheet? Remove rows that are no runs." }], remarks: [] };
  const { rows, issues, remarks } = readRows(sheet, runRow);
  const day = [...issues];
  if (rows.length === 0) day.push({ code: "no-runs", at: sheet.file, message: "expected a row per run, found headings only", hint: "Add the day's runs." });
  const typed = typedIds(sheet);
  const linesOf = linesById(sheet, typed);
  const found: CampaignIssue[] = remarks.map((issue) => ({ ...issue, run: null }));
  const runs = rows.map((row, index): RunPlan => {
    const sheetId = typed[index] as string;
    const lines = linesOf.get(sheetId.toLowerCase()) ?? [];
    const id = uniqueId(sheetId, row.line, lines);
    const add = (column: Key | null, code: string, message: string, hint: string) => found.push({ code, at: place(sheet, row.line, column), message, hint, run: id });
    found.push(...row.issues.map((issue) => ({ ...issue, run: id })));
    checkId(sheetId, lines, add);
    const excluded = readExclusion(row, add);
    return planOf(row, id, sheetId, excluded, readPlate(row, add, excluded === null));
  });
  const { missing, absent } = checkNeeds(sheet, rows, runs);
  return { runs, issues: [...day, ...absent], remarks: [...found, ...missing] };
}

function place(sheet: Sheet, line: number, key: Key | null): string {
  const column = sheet.columns.find((candidate) => candidate.name === key);
  return `${sheet.file} line ${line}${column === undefined ? "" : `, column "${column.heading}"`}`;
}

type Add = (column: Key | null, code: string, message: string, hint: string) => void;

/** What stands in the run column of each row, whether or not it may be an id. */
function typedIds(sheet: Sheet): string[] {
  const column = sheet.columns.find((candidate) => candidate.name === "run");
  return sheet.rows.map((row) => (column === undefined ? "" : (row.cells[column.index] ?? "")));
}

/** Lines of each id; capitals do not count. */
function linesById(sheet: Sheet, typed: readonly string[]): ReadonlyMap<string, readonly number[]> {
  const lines = new Map<string, number[]>();
  typed.forEach((id, index) => {
    const line = sheet.rows[index]?.line ?? 0;
    const found = lines.get(id.toLowerCase());
    if (found === undefined) lines.set(id.toLowerCase(), [line]);
    else found.push(line);
  });
  return lines;
}

/** The typed id, with its line added where it is none or not the only one. Files of ids that differ only in capitals are the same file on many computers. */
function uniqueId(id: string, line: number, lines: readonly number[]): string {
  if (runIdPattern.test(id) && lines.length === 1) return id;
  return `${id === "" ? "?" : printable(id.slice(0, 64))} (line ${line})`;
}

function checkId(id: string, lines: readonly number[], add: Add): void {
  if (id !== "" && lines.length > 1) add(
    "run",
    "duplicate-run",
    `expected each run id once (capitals do not count), found ${show(id)} on lines ${list(lines.map(String), 20)}`,
    "Correct the ids; none of these rows is reduced, because their logs cannot be told apart.",
  );
}

function readExclusion(row: Row<RunRow>, add: Add): string | null {
  const { excluded, reason } = row.values;
  if (excluded === "yes") {
    if (reason === undefined) add("reason", "missing-reason", "expected a reason, because the run is excluded, found nothing", "Write why in the column reason.");
    return reason ?? "no reason given";
  }
  if (reason !== undefined && !row.failed.has("excluded")) add(
    "excluded",
    "reason-without-exclusion",
    `expected excluded: yes beside the reason ${show(reason)}, found ${show(excluded)}`,
    "Write yes in the column excluded, or move the text to remark.",
  );
  return null;
}

function readPlate(row: Row<RunRow>, add: Add, wanted: boolean): RunPlan["plate"] {
  const { plate: shape, "plate width": width, "plate length": length } = row.values;
  if (shape === undefined || width === undefined) {
    if (wanted && shape === undefined && !row.failed.has("plate") && (width ?? length) !== undefined) add(
      "plate",
      "missing",
      "expected plate: circle or rectangle beside the plate's size, found nothing",
      "Say which shape the plate has.",
    );
    return null;
  }
  if (shape === "circle") {
    if (length !== undefined && Math.abs(length - width) > 1e-9 * width) add(
      "plate length",
      "plate-size",
      "expected one size for a circle, its diameter as plate width, found a plate length that differs",
      "Clear the plate length, or correct the shape.",
    );
    return { shape, widthM: width, lengthM: width };
  }
  if (length === undefined) {
    if (wanted && !row.failed.has("plate length")) add("plate length", "missing", "expected a plate length for a rectangle, found nothing", "Add its larger side.");
    return null;
  }
  if (length < width) add(
    "plate length",
    "plate-size",
    "expected the larger side as plate length, found it smaller than the plate width",
    "Swap the two; the smaller side is the b of the soil constants.",
  );
  return { shape, widthM: width, lengthM: length };
}

function readObstacle({ values }: Row<RunRow>): RunPlan["obstacle"] {
  const { "obstacle height": heightM, edge, "edge friction": friction = null, climbed } = values;
  return heightM === undefined || edge === undefined ? null : { heightM, edge, friction, climbed: climbed === undefined ? null : climbed === "yes" };
}

function planOf(row: Row<RunRow>, id: string, sheetId: string, excluded: string | null, plate: RunPlan["plate"]): RunPlan {
  const values = row.values;
  return {
    id,
    sheetId,
    kind: values.kind ?? null,
    wheel: values.wheel ?? null,
    bed: values.bed ?? null,
    setLoadN: values.load ?? null,
    setSlip: values.slip ?? null,
    setSpeedMps: values.speed ?? null,
    repeat: values.repeat ?? null,
    pass: values.pass ?? null,
    block: values.block ?? null,
    dropHeightM: values.height ?? null,
    plate,
    shearAreaM2: values["shear area"] ?? null,
    normalStressPa: values["normal stress"] ?? null,
    contactAngleRad: values["contact angle"] ?? null,
    obstacle: readObstacle(row),
    footprint: values["footprint from"] === undefined || values.ground === undefined ? null : { from: values["footprint from"], ground: values.ground },
    remark: values.remark ?? "",
    excluded,
    line: row.line,
    more: row.more,
  };
}

/** Empty cells that a run's kind needs; where the whole column is absent, one issue for the sheet instead of one a run. */
function checkNeeds(sheet: Sheet, rows: readonly Row<RunRow>[], runs: readonly RunPlan[]): { missing: CampaignIssue[]; absent: Issue[] } {
  const missing: CampaignIssue[] = [];
  const needing = new Map<Key, string[]>();
  rows.forEach((row, index) => {
    const run = runs[index] as RunPlan;
    if (run.kind === null || run.excluded !== null) return;
    for (const key of needs[run.kind]) {
      const column = sheet.columns.find((candidate) => candidate.name === key);
      if (column === undefined) needing.set(key, [...(needing.get(key) ?? []), run.id]);
      else if ((sheet.rows[index]?.cells[column.index] ?? "") === "") missing.push({
        code: "missing",
        at: place(sheet, row.line, key),
        message: `expected "${column.heading}" for a ${run.kind} run, found nothing`,
        hint: "Fill the cell in, or exclude the run.",
        run: run.id,
      });
    }
  });
  const free = sheet.columns.map((column) => column.name).filter((name) => !Object.hasOwn(runRow.shape, name));
  const absent = [...needing].map(([key, ids]): Issue => {
    const unit = columnUnit(runRow.shape[key]);
    const guess = nearest(key, free);
    return {
      code: "missing-column",
      at: sheet.file,
      message: `expected a column "${unit === null ? key : `${key} [${unit}]`}" for the runs ${list(ids)}, found none`,
      hint: guess === null ? "Add the column." : `Is "${guess}" meant? Rename it.`,
    };
  });
  return { missing, absent };
}
