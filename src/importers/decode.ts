import { isUtf8 } from "node:buffer";
import type { Issue } from "../core/errors.ts";

export type Encoding = "utf-8" | "utf-16le" | "utf-16be" | "latin1";

/** Text as bytes in which every ASCII character is one byte: UTF-8 or Latin-1. */
export interface Decoded {
  readonly bytes: Uint8Array;
  readonly encoding: Encoding;
  /** a cell's or line's characters */
  readonly text: (from: number, to: number) => string;
  readonly evidence: string;
}

const sampleBytes = 65_536;
export const notUtf8 = "bytes that are not valid UTF-8, so one byte a character";
// TextDecoder knows Latin-1 as windows-1252, which adds printable signs where ISO 8859-1 has control codes.
const labels: Readonly<Record<Encoding, string>> = { "utf-8": "UTF-8", "utf-16le": "UTF-16LE", "utf-16be": "UTF-16BE", latin1: "Latin-1" };

/** Finds the encoding from byte-order mark, zero bytes and validity; returns an issue when the bytes are no text. */
export function decode(bytes: Uint8Array, fileName: string, declared?: Encoding): Decoded | Issue {
  const mark = byteOrderMark(bytes);
  if (declared !== undefined && mark !== null && mark.encoding !== declared) {
    return { code: "wrong-encoding", at: fileName, message: `expected ${labels[declared]} as declared, found a byte-order mark of ${labels[mark.encoding]}`, hint: "Correct or remove encoding: in rig.yaml" };
  }
  const body = mark === null ? bytes : bytes.subarray(mark.length);
  const found = mark !== null ? { encoding: mark.encoding, why: "byte-order mark" } : declared !== undefined ? { encoding: declared, why: "declared" } : guess(body);
  if (declared === "utf-8" && !validUtf8(body)) {
    return badUtf8(fileName);
  }
  const wide = found.encoding === "utf-16le" || found.encoding === "utf-16be";
  const narrow = wide ? narrowed(body, found.encoding) : body;
  if (narrow.subarray(0, Math.min(sampleBytes, endOfText(narrow))).includes(0)) {
    return { code: "not-text", at: fileName, message: "expected a text log, found zero bytes as in a binary file", hint: "Export the log as delimited text" };
  }
  return { bytes: narrow, encoding: found.encoding, text: textOf(narrow, found.encoding), evidence: encodingEvidence(found.encoding, found.why) };
}

export function badUtf8(fileName: string): Issue {
  return { code: "wrong-encoding", at: fileName, message: "expected UTF-8 as declared, found bytes that are not valid UTF-8", hint: "Declare encoding: latin1 in rig.yaml, or save the log as UTF-8" };
}

export function encodingEvidence(encoding: Encoding, why: string): string {
  return `encoding ${labels[encoding]}: ${why}`;
}

/** Characters between two bytes; UTF-16 was made UTF-8 before. */
export function textOf(bytes: Uint8Array, encoding: Encoding): Decoded["text"] {
  const decoder = new TextDecoder(encoding === "latin1" ? "latin1" : "utf-8", { ignoreBOM: true });
  return (from, to) => decoder.decode(bytes.subarray(from, to));
}

export function byteOrderMark(bytes: Uint8Array): { readonly encoding: Encoding; readonly length: number } | null {
  if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) return { encoding: "utf-8", length: 3 };
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return { encoding: "utf-16le", length: 2 };
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return { encoding: "utf-16be", length: 2 };
  return null;
}

function guess(bytes: Uint8Array): { readonly encoding: Encoding; readonly why: string } {
  const head = bytes.subarray(0, sampleBytes);
  const zeros: [number, number] = [0, 0];
  for (let i = 0; i < head.length; i++) if (head[i] === 0) zeros[(i & 1) as 0 | 1]++;
  const half = head.length / 2;
  if (zeros[1] > 0.7 * half && zeros[0] < 0.1 * half) return { encoding: "utf-16le", why: "every second byte is zero, no byte-order mark" };
  if (zeros[0] > 0.7 * half && zeros[1] < 0.1 * half) return { encoding: "utf-16be", why: "every first byte is zero, no byte-order mark" };
  if (validUtf8(bytes)) return { encoding: "utf-8", why: "all bytes are valid UTF-8" };
  return { encoding: "latin1", why: notUtf8 };
}

/** A crash can cut the last character in two; that alone does not make a file Latin-1. */
export function validUtf8(bytes: Uint8Array): boolean {
  if (isUtf8(bytes)) return true;
  for (let back = 1; back <= 3 && back <= bytes.length; back++) {
    const lead = bytes[bytes.length - back] as number;
    if (lead >= 0xc0) return isUtf8(bytes.subarray(0, bytes.length - back));
    if (lead < 0x80) return false;
  }
  return false;
}

/** A logger that loses power often leaves zero bytes behind its last row; those do not make the file binary. */
function endOfText(bytes: Uint8Array): number {
  let end = bytes.length;
  while (end > 0 && bytes[end - 1] === 0) end--;
  return end;
}

/** UTF-16 to UTF-8 in pieces, so that no string grows past the engine's limit. */
function narrowed(bytes: Uint8Array, encoding: "utf-16le" | "utf-16be"): Uint8Array {
  const decoder = new TextDecoder(encoding);
  const encoder = new TextEncoder();
  const piece = 1 << 22;
  const parts: Uint8Array[] = [];
  // Half a character at the end becomes a replacement sign, so that the last line shows as cut.
  for (let from = 0; from < bytes.length; from += piece) {
    const to = Math.min(bytes.length, from + piece);
    parts.push(encoder.encode(decoder.decode(bytes.subarray(from, to), { stream: to < bytes.length })));
  }
  if (parts.length <= 1) return parts[0] ?? new Uint8Array(0);
  return new Uint8Array(Buffer.concat(parts));
}
