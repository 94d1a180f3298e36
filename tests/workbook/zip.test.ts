import { deflateRawSync } from "node:zlib";
import { describe, expect, it } from "vitest";
import { openZip } from "../../src/workbook/zip.ts";
import { formatFile } from "../importers/formatTruth.ts";

/** An archive of one entry, as the format's specification lays it out; `crc` is 0 where nothing checks it. */
function archive(data: Uint8Array, stated: number): Uint8Array {
  const packed = deflateRawSync(data);
  const header = Buffer.alloc(31);
  header.writeUInt32LE(0x04034b50, 0);
  header.writeUInt16LE(8, 8);
  header.writeUInt16LE(1, 26);
  header.write("a", 30);
  const listed = Buffer.alloc(47);
  listed.writeUInt32LE(0x02014b50, 0);
  listed.writeUInt16LE(8, 10);
  listed.writeUInt32LE(packed.length, 20);
  listed.writeUInt32LE(stated, 24);
  listed.writeUInt16LE(1, 28);
  listed.write("a", 46);
  const end = Buffer.alloc(22);
  end.writeUInt32LE(0x06054b50, 0);
  end.writeUInt16LE(1, 10);
  end.writeUInt32LE(header.length + packed.length, 16);
  return new Uint8Array(Buffer.concat([header, packed, listed, end]));
}

describe("openZip", () => {
  it("reads what another program packed", () => {
    const zip = openZip(formatFile("xlsx/log1900.xlsx"));
    expect(zip.names).toContain("xl/workbook.xml");
    expect(new TextDecoder().decode(zip.entry("xl/workbook.xml"))).toContain("<sheet ");
  });

  it("refuses an archive that unpacks to more than a bound, stated or not", () => {
    const zeros = new Uint8Array(10_000_000);
    expect(() => openZip(archive(zeros, zeros.length), 9_999_999).entry("a")).toThrow("it unpacks to more than 9999999 bytes");
    expect(() => openZip(archive(zeros, 1000)).entry("a")).toThrow("a unpacks to more than the 1000 bytes it states");
    const zip = openZip(formatFile("xlsx/log1900.xlsx"), 20_000);
    expect(() => zip.names.map((name) => zip.entry(name))).toThrow("it unpacks to more than 20000 bytes");
  });

  it("refuses what was damaged on its way", () => {
    expect(() => openZip(archive(new Uint8Array(100), 100)).entry("a")).toThrow("the checksum of a does not fit");
    expect(() => openZip(formatFile("xlsx/log1900.xlsx").subarray(0, 10_000))).toThrow("cut short");
    expect(() => openZip(archive(new Uint8Array(1), 1)).entry("b")).toThrow("no b in the archive");
  });
});
