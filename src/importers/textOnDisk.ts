import { readSync } from "node:fs";
import type { Issue } from "../core/errors.ts";
import { chooseReading } from "./chooseReading.ts";
import type { ReadOptions } from "./contract.ts";
import { byteOrderMark, decode, encodingEvidence, notUtf8, textOf } from "./decode.ts";
import { delimitedText } from "./delimitedText.ts";
import { glanceAt } from "./lines.ts";
import { formatOf } from "./registry.ts";
import type { TextLog } from "./rowReader.ts";
import type { LineStart, TextFileOnDisk } from "./textPieces.ts";

/** A text log whose head was read and whose way of reading is chosen. */
export interface OpenedText {
  readonly log: TextLog;
  readonly file: TextFileOnDisk;
  /** byte behind the byte-order mark */
  readonly bodyFrom: number;
  readonly firstRow: LineStart;
  readonly evidence: string;
  /** what to do when a later byte is no UTF-8 */
  readonly onBadUtf8: "accept" | "refuse" | "readAsLatin1";
}

const headBytes = 65_536;

/** Opens a file as a text log without reading it whole; null = it must be read whole to know what it is. @throws InputError where bytes and description allow no reading */
export function openText(fd: number, size: number, fileName: string, options: ReadOptions, readAs?: "latin1"): OpenedText | null {
  const between = (from: number, to: number): Uint8Array => {
    const bytes = Buffer.alloc(Math.max(0, to - from));
    return bytes.subarray(0, readSync(fd, bytes, 0, bytes.length, from));
  };
  const head = between(0, headBytes);
  if (formatOf(head, fileName)?.format !== delimitedText.format) return null;
  const decoded = decode(head, fileName, readAs ?? options.encoding);
  if (!("bytes" in decoded) || decoded.encoding === "utf-16le" || decoded.encoding === "utf-16be") return null;
  const { encoding } = decoded;
  const mark = byteOrderMark(head);
  const bodyFrom = mark?.length ?? 0;
  const evidence = readAs === undefined ? decoded.evidence : encodingEvidence(readAs, notUtf8);
  const glance = glanceAt({
    length: size - bodyFrom,
    between: (from, to) => {
      const bytes = between(bodyFrom + from, bodyFrom + to);
      return { bytes, encoding, evidence, text: textOf(bytes, encoding) };
    },
  });
  const log: TextLog = { fileName, options, choice: chooseReading(glance, fileName, options) };
  const { firstRowByte, firstRowLine } = log.choice.reading;
  return {
    log,
    file: { fd, size, encoding },
    bodyFrom,
    firstRow: { byte: firstRowByte < 0 ? size : bodyFrom + firstRowByte, line: firstRowLine },
    evidence,
    onBadUtf8: options.encoding !== undefined ? "refuse" : mark !== null ? "accept" : "readAsLatin1",
  };
}

/** A log that must be read whole, and is too large for that. */
export function tooLarge(fileName: string): Issue {
  return { code: "file-too-large", at: fileName, message: "expected a log below 2 GiB, or one as text in UTF-8 or with one byte a character, found a larger one of another kind", hint: "Export the run as delimited text in UTF-8, or in parts" };
}
