import { splitLines } from "./lines.ts";
import type { Reading } from "./dialect.ts";

/** Of a longer one the rest says nothing that a person wrote. */
const longestLine = 1000;

/** Lines before the heading line as key and value: `Run: R07`, `Run;R07`, `# Run = R07`. */
export function metadataOf(reading: Pick<Reading, "preamble" | "delimiter">): [string, string][] {
  const lines = reading.preamble.map((line) => line.slice(0, longestLine));
  const cells = splitLines(lines, reading.delimiter === " " ? null : reading.delimiter);
  return lines.flatMap((line, index): [string, string][] => {
    const row = (cells[index] as string[]).filter((cell, at) => cell !== "" || at === 0);
    const text = bare(line);
    if (text === "") return [];
    // `Key: one, two` has its value in several cells; `Key:,value` has its key in one of its own.
    const [, key, value] = /^([^:=]*[^\s:=])\s*(?::\s+|=\s*)(?=[^\s,;|])(.*)$/.exec(text) ?? [];
    if (row.length > 1 && key !== undefined && (row[0] as string).includes(key) && /[:=]\s*\S/.test(row[0] as string)) return [[key, (value as string).trim()]];
    if (row.length > 1) return [[bare(row[0] as string), row.slice(1).join(" ")]];
    const pair = /^([^:=\t]*?)\s*[:=\t]\s*(.*)$/.exec(bare(row[0] as string));
    return pair === null ? [["", bare(row[0] as string)]] : [[(pair[1] as string).trim(), (pair[2] as string).trim()]];
  });
}

/**
 * Tells a line that repeats the file's head, as loggers write it when they restart, from a broken row.
 * A preamble line may come with another value (a later start time), so its key decides.
 */
export function repeatedLine(reading: Reading): (line: string) => boolean {
  const whole = new Set([reading.headerText.trim(), ...(reading.unitText === null ? [] : [reading.unitText.trim()]), ...reading.preamble.map((line) => line.trim())].filter((line) => line !== ""));
  const keys = new Set(metadataOf(reading).map(([key]) => key).filter((key) => /\p{L}/u.test(key)));
  return (line) => {
    if (whole.has(line.trim())) return true;
    if (keys.size === 0) return false;
    const [pair] = metadataOf({ preamble: [line], delimiter: reading.delimiter });
    return pair !== undefined && keys.has(pair[0]);
  };
}

export function headingLines(count: number): string {
  return count === 1 ? "1 heading line stands" : `${count} heading lines stand`;
}

function bare(text: string): string {
  return text.trim().replace(/^[#%;,\t]+\s*/, "").replace(/[\s;,:=]+$/, "");
}
