import { createHash } from "node:crypto";
import { fullName } from "./chooseColumns.ts";
import type { ColumnLog, LogColumn } from "./columnLog.ts";
import type { LogContents, PartContents } from "./contract.ts";
import { storedLooker } from "./inspectStored.ts";

/** What a file of named columns holds, and which of them may be the time. */
export async function columnContents(log: ColumnLog, bytes: Uint8Array, fileName: string): Promise<LogContents> {
  const look = storedLooker(bytes.length);
  const parts: PartContents[] = [];
  for (const part of log.parts) {
    const nameOf = (column: LogColumn): string => (log.joined ? fullName(log, part, column) : column.name);
    const { candidates, remarks } = await look(part, nameOf);
    parts.push({
      name: part.name,
      columns: part.columns.map((column) => ({ name: nameOf(column), unit: column.unit, rows: column.rows, type: column.obstacle === null ? column.type : `${column.type}: ${column.obstacle}` })),
      timeCandidates: candidates,
      remarks: [...part.findings.map((found) => found.message), ...(Object.keys(part.clocks).length === 0 ? [] : [`stamps: ${Object.keys(part.clocks).join(", ")}`]), ...remarks],
    });
  }
  return {
    file: fileName,
    bytes: bytes.length,
    sha256: createHash("sha256").update(bytes).digest("hex"),
    format: log.format,
    partWord: log.partWord,
    parts,
    metadata: [...log.metadata, ...log.parts.flatMap((part) => part.metadata ?? [])],
    remarks: [...log.evidence, ...log.findings.map((found) => found.message)],
  };
}
