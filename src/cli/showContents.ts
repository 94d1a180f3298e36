import { showCandidates } from "./showCandidates.ts";
import type { LogContents, PartContents } from "../importers/contract.ts";

/** What a file of named columns holds, in words, for a terminal. */
export function showContents(log: LogContents): string {
  return [
    log.file,
    `  ${log.bytes.toLocaleString("en")} bytes, sha256 ${log.sha256}`,
    `  ${log.format}`,
    ...log.remarks.map((remark) => `  ${remark}`),
    ...(log.metadata.length === 0 ? [] : ["", "Said beside the numbers", ...log.metadata.map(([key, value]) => `  ${key}: ${value.replaceAll("\n", " ").slice(0, 100)}`)]),
    ...log.parts.flatMap((part) => showPart(part, log.partWord)),
    ...(log.parts.some((part) => part.timeCandidates.length > 0) ? [] : ["", "No column may be the time; if the log has a fixed rate, declare clock: { kind: rate, rateHz: … }"]),
  ].join("\n");
}

function showPart(part: PartContents, word: string): string[] {
  if (part.columns.length === 0 && part.remarks.length === 0) return [];
  const width = Math.min(40, Math.max(4, ...part.columns.map(({ name }) => name.length)));
  const columns = part.columns.map(({ name, unit, rows, type }) => `  ${name.padEnd(width)}  unit ${unit ?? "not stated"}  ${rows.toLocaleString("en")} rows  ${type}`);
  const times = part.timeCandidates.length === 0 ? [] : ["  May be the time", ...showCandidates(part.timeCandidates).map((line) => `    ${line}`)];
  return ["", part.name === "" ? "Columns" : `${word[0]?.toUpperCase()}${word.slice(1)} ${part.name}  (part: ${JSON.stringify(part.name)} in rig.yaml)`, ...columns, ...part.remarks.map((remark) => `  ${remark}`), ...times];
}
