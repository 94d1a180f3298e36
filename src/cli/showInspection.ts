import { showCandidates } from "./showCandidates.ts";
import type { LogInspection, ReadingReport } from "../importers/inspectLog.ts";

/** An inspected log in words, for a terminal. */
export function showInspection(log: LogInspection): string {
  const lines = [
    log.file,
    `  ${log.bytes.toLocaleString("en")} bytes, sha256 ${log.sha256}`,
    `  ${log.encoding}; line ends ${log.lineEnds}`,
    ...log.readings.flatMap((reading, index) => ["", log.readings.length > 1 ? `Reading ${index + 1} of ${log.readings.length}` : "Read as", ...showReading(reading)]),
  ];
  if (log.problems.length > 0) lines.push("", "To be declared or mended:", ...log.problems.map((issue) => `  ${issue.at}: ${issue.message}. ${issue.hint}`));
  return lines.join("\n");
}

function showReading(reading: ReadingReport): string[] {
  const lines = reading.evidence.map((evidence) => `  ${evidence}`);
  lines.push(`  ${reading.rows.toLocaleString("en")} rows below line ${reading.unitLine ?? reading.headerLine}`);
  if (reading.metadata.length > 0) lines.push("", "  Lines before the header", ...reading.metadata.map(([key, value]) => `    ${key}: ${value}`));
  lines.push("", "  Columns", ...columnTable(reading));
  lines.push("", "  May be the time");
  if (reading.timeCandidates.length === 0) lines.push("    no column rises throughout; if the log has a fixed rate, declare clock: { kind: rate, rateHz: … }");
  lines.push(...showCandidates(reading.timeCandidates).map((line) => `    ${line}`));
  if (reading.remarks.length > 0) lines.push("", "  Remarks", ...reading.remarks.map((remark) => `    ${remark}`));
  return lines;
}

function columnTable(reading: ReadingReport): string[] {
  const width = Math.max(...reading.columns.map((column) => column.written.length), 4);
  return reading.columns.map((column) => {
    const range = column.minimum === null || column.maximum === null ? column.kind : `${Number(column.minimum.toPrecision(6))} … ${Number(column.maximum.toPrecision(6))}`;
    const unread = column.unread === 0 ? "" : `; ${column.unread} cells are no number${column.examples.length > 0 ? ` (${column.examples.join(", ")})` : ""}`;
    return `    ${column.written.padEnd(width)}  unit ${column.unit ?? "not stated"}  ${range}${unread}`;
  });
}
