import { finding } from "../../core/finding.ts";
import { oddities } from "../../workbook/cellText.ts";
import { readWorkbook } from "../../workbook/workbook.ts";
import type { WorkbookSheet } from "../../workbook/workbook.ts";
import type { ColumnLog, LogPart } from "../columnLog.ts";
import { columnImporter } from "../columnTable.ts";
import type { ReadOptions } from "../contract.ts";
import { isWorkbook } from "../signatures.ts";
import { shown } from "../shown.ts";
import { sheetTable } from "./sheetTable.ts";

/** XLSX workbooks: each sheet with a line of headings over rows of numbers. */
export const workbookLog = columnImporter("XLSX workbook", isWorkbook, (bytes, fileName, options) => openWorkbook(bytes, fileName, options));

function openWorkbook(bytes: Uint8Array, fileName: string, options: ReadOptions | null): ColumnLog {
  const { sheets, from1904 } = readWorkbook(bytes);
  const parts = sheets.filter((sheet) => sheet.rows.length > 0).map((sheet) => partOf(sheet, fileName, options));
  return {
    format: "XLSX workbook",
    partWord: "sheet",
    partMark: "/",
    joined: false,
    parts,
    metadata: [],
    evidence: [`XLSX workbook: ${sheets.length} sheet${sheets.length === 1 ? "" : "s"}; dates of the ${from1904 ? "1904" : "1900"} calendar`],
    findings: [],
  };
}

function partOf(sheet: WorkbookSheet, fileName: string, options: ReadOptions | null): LogPart {
  const table = sheetTable(sheet, fileName, options);
  const findings = oddities(sheet).map((text) => finding("hidden-cells", "look", `${fileName}: ${text}; hidden cells were read like any other`));
  const merged = sheet.merges.filter((merge) => merge.toRow > table.firstRow);
  if (merged.length > 0) findings.push(finding("merged-cells", "look", `${fileName}: cells of the sheet ${shown(sheet.name)} are merged (${merged.slice(0, 5).map(({ ref }) => ref).join(", ")}${merged.length > 5 ? " …" : ""}); only the first of them holds the value, the others were read as empty`));
  if (table.blankRow !== null) findings.push(finding("blank-rows", "look", `${fileName}: row ${table.blankRow} of the sheet ${shown(sheet.name)} is blank, with rows below it; blank rows were left out`));
  return { name: sheet.name, columns: table.columns, clocks: {}, rowName: table.rowName, metadata: table.metadata, findings };
}
