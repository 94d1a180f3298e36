import { inflateRawSync } from "node:zlib";
import { mostUnpackedBytes } from "../core/unpacked.ts";

interface Entry {
  readonly method: number;
  readonly crc: number;
  readonly packedBytes: number;
  readonly bytes: number;
  readonly headerAt: number;
}

/** A zip archive as workbooks use it. */
export interface Zip {
  readonly names: readonly string[];
  /** @throws Error when the entry is missing, damaged or would unpack to too much */
  entry(name: string): Uint8Array;
}

const mostEntries = 10_000;

/** Reads the archive's list of contents. @throws Error where the bytes do not hold together */
export function openZip(bytes: Uint8Array, mostUnpacked = mostUnpackedBytes(bytes.length)): Zip {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const entries = contents(view, bytes);
  let left = mostUnpacked;
  return {
    names: [...entries.keys()],
    entry(name) {
      const found = entries.get(name);
      if (found === undefined) throw new Error(`no ${name} in the archive`);
      if (found.bytes > left) throw new Error(`it unpacks to more than ${mostUnpacked} bytes`);
      left -= found.bytes;
      const { headerAt, packedBytes } = found;
      if (view.getUint32(headerAt, true) !== 0x04034b50) throw new Error(`no entry at byte ${headerAt} of the archive`);
      const from = headerAt + 30 + view.getUint16(headerAt + 26, true) + view.getUint16(headerAt + 28, true);
      if (from + packedBytes > bytes.length) throw new Error(`the archive ends inside ${name}`);
      const unpacked = unpack(bytes.subarray(from, from + packedBytes), found, name);
      if (unpacked.length !== found.bytes || crc32(unpacked) !== found.crc) throw new Error(`the checksum of ${name} does not fit: it was damaged on its way`);
      return unpacked;
    },
  };
}

function unpack(packed: Uint8Array, { method, bytes }: Entry, name: string): Uint8Array {
  if (method === 0) return packed;
  if (method !== 8) throw new Error(`${name} is packed by the unknown method ${method}`);
  try {
    return inflateRawSync(packed, { maxOutputLength: Math.max(1, bytes) });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ERR_BUFFER_TOO_LARGE") throw new Error(`${name} unpacks to more than the ${bytes} bytes it states`);
    throw error;
  }
}

function contents(view: DataView, bytes: Uint8Array): Map<string, Entry> {
  const end = endRecord(view);
  const count = view.getUint16(end + 10, true);
  let at = view.getUint32(end + 16, true);
  if (count > mostEntries) throw new Error(`more than ${mostEntries} entries in the archive`);
  const entries = new Map<string, Entry>();
  for (let index = 0; index < count; index++) {
    if (view.getUint32(at, true) !== 0x02014b50) throw new Error(`no list of contents at byte ${at} of the archive`);
    if ((view.getUint16(at + 8, true) & 1) === 1) throw new Error("it is locked with a password");
    const nameBytes = view.getUint16(at + 28, true);
    const name = new TextDecoder().decode(bytes.subarray(at + 46, at + 46 + nameBytes));
    entries.set(name, { method: view.getUint16(at + 10, true), crc: view.getUint32(at + 16, true), packedBytes: view.getUint32(at + 20, true), bytes: view.getUint32(at + 24, true), headerAt: view.getUint32(at + 42, true) });
    at += 46 + nameBytes + view.getUint16(at + 30, true) + view.getUint16(at + 32, true);
  }
  return entries;
}

/** The record at the archive's end, before a comment of at most 65535 bytes. */
function endRecord(view: DataView): number {
  for (let at = view.byteLength - 22; at >= Math.max(0, view.byteLength - 22 - 65_535); at--) if (view.getUint32(at, true) === 0x06054b50) return at;
  throw new Error("the archive has no end: it was cut short");
}

const crcTable = Uint32Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit++) value = (value & 1) === 1 ? (value >>> 1) ^ 0xedb88320 : value >>> 1;
  return value;
});

function crc32(bytes: Uint8Array): number {
  let value = 0xffffffff;
  for (let i = 0; i < bytes.length; i++) value = (crcTable[(value ^ (bytes[i] as number)) & 0xff] as number) ^ (value >>> 8);
  return (value ^ 0xffffffff) >>> 0;
}
