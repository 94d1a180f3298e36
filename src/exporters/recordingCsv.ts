import type { Recording } from "../core/recording.ts";
import { columnsOf, provenanceOf } from "./recordingColumns.ts";
import type { About } from "./recordingColumns.ts";

const rowsAtOnce = 20_000;

/**
 * A recording as CSV in UTF-8: lines of provenance that begin with `#`, headings with units in brackets, one row a sample.
 * Numbers have as many digits as it takes to read the same number back; a missing value is an empty cell.
 */
export function recordingCsv(recording: Recording, about: About = []): Uint8Array {
  const columns = columnsOf(recording);
  const encoder = new TextEncoder();
  const head = provenanceOf(recording, about).map(([key, value]) => `# ${key}: ${value}\n`);
  const parts = [encoder.encode(`${head.join("")}${columns.map(({ name, unit }) => cell(`${name} [${unit}]`)).join(",")}\n`)];
  const count = columns[0]?.values.length ?? 0;
  // In pieces, so that no text grows past what the engine can hold.
  for (let from = 0; from < count; from += rowsAtOnce) {
    const rows: string[] = [];
    for (let row = from; row < Math.min(count, from + rowsAtOnce); row++) rows.push(columns.map(({ values }) => number(values[row] as number)).join(","));
    parts.push(encoder.encode(`${rows.join("\n")}\n`));
  }
  return joined(parts);
}

function number(value: number): string {
  return Number.isNaN(value) ? "" : String(value);
}

function cell(text: string): string {
  return /[",]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}

function joined(parts: readonly Uint8Array[]): Uint8Array {
  const all = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}
