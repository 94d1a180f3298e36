/** Text of a file people or spreadsheets wrote, and the encoding it was found to be in. */
export interface DecodedText {
  readonly text: string;
  readonly encoding: "UTF-8" | "UTF-16LE" | "UTF-16BE" | "Latin-1";
}

/**
 * A byte-order mark decides; without one, zero bytes at every other place mean UTF-16; bytes that are valid UTF-8 are
 * UTF-8; what is left is a single-byte Western code page, as older spreadsheets write it.
 */
export function decodeText(bytes: Uint8Array): DecodedText {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return decoded(bytes, "utf-16le", "UTF-16LE");
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return decoded(bytes, "utf-16be", "UTF-16BE");
  const head = bytes.subarray(0, 1000);
  const pairs = Math.floor(head.length / 2);
  let zeroFirst = 0;
  let zeroSecond = 0;
  for (let i = 0; i < pairs; i++) {
    if (head[2 * i] === 0) zeroFirst++;
    if (head[2 * i + 1] === 0) zeroSecond++;
  }
  if (zeroSecond > pairs / 2) return decoded(bytes, "utf-16le", "UTF-16LE");
  if (zeroFirst > pairs / 2) return decoded(bytes, "utf-16be", "UTF-16BE");
  try {
    return { text: new TextDecoder("utf-8", { fatal: true }).decode(bytes), encoding: "UTF-8" };
  } catch {
    return decoded(bytes, "windows-1252", "Latin-1");
  }
}

function decoded(bytes: Uint8Array, label: string, encoding: DecodedText["encoding"]): DecodedText {
  return { text: new TextDecoder(label).decode(bytes), encoding };
}
