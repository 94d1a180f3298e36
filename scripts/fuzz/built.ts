import { deflateSync, inflateSync } from "node:zlib";
import { Field, Float64, Schema, Table, tableFromArrays, tableToIPC } from "apache-arrow";
import * as h5 from "h5wasm";
import { parquetWriteBuffer } from "hyparquet-writer";
import { McapWriter } from "@mcap/core";
import type { Random } from "../../src/numerics/random.ts";
import { hostileNames, pick } from "./hostile.ts";
import { spoilBytes } from "./spoilBytes.ts";
import type { Spoil } from "./spoilBytes.ts";

/** A file made whole by a format's own writer, hostile in what it holds. */
export type Build = (random: Random) => Uint8Array | Promise<Uint8Array>;

const rows = 50;
const numbers = Float64Array.from({ length: rows }, (_, i) => i / 100);
/** `t` and `Fx`, and beside them names that nobody expects. */
const names = (random: Random): string[] => [...new Set(["t", "Fx", "Fz", "Enc", ...Array.from({ length: 6 }, () => pick(hostileNames, random))])];
const many = Array.from({ length: 100_000 }, (_, i) => (i === 0 ? "t" : i === 1 ? "Fx" : `c${i}`));

const arrow = (columns: readonly string[], column: Float64Array = numbers): Uint8Array => tableToIPC(tableFromArrays(Object.fromEntries(columns.filter((name) => name !== "__proto__").map((name) => [name, column]))), "file");
const parquet = (columns: readonly string[], data: ArrayLike<unknown> = numbers): Uint8Array => new Uint8Array(parquetWriteBuffer({ columnData: columns.map((name) => ({ name, data: Array.from(data) as number[], type: "DOUBLE" as const })) }));

async function mcap(schema: string, encoding: "json" | "cdr", message: (index: number) => Uint8Array, topic = "/bench"): Promise<Uint8Array> {
  const parts: Uint8Array[] = [];
  let size = 0n;
  const writer = new McapWriter({ writable: { write: async (part) => void (parts.push(part.slice()), (size += BigInt(part.length))), position: () => size }, chunkSize: 8192 });
  await writer.start({ profile: "", library: "invented" });
  const schemaId = await writer.registerSchema({ name: "Bench", encoding: encoding === "json" ? "jsonschema" : "ros2msg", data: new TextEncoder().encode(schema) });
  const channelId = await writer.registerChannel({ topic, schemaId, messageEncoding: encoding, metadata: new Map() });
  for (let i = 0; i < rows; i++) await writer.addMessage({ channelId, sequence: i, logTime: 1_790_000_000_000_000_000n + BigInt(i) * 10_000_000n, publishTime: BigInt(i), data: message(i) });
  await writer.end();
  return new Uint8Array(Buffer.concat(parts));
}

const json = (text: string): Promise<Uint8Array> => mcap("{}", "json", (i) => new TextEncoder().encode(text.replaceAll("#", String(i))));
const ros = "std_msgs/Header header\nfloat64 Fx\nfloat64[] list\nstring text\nFoo[3] foos\n================================================================================\nMSG: std_msgs/Header\nbuiltin_interfaces/Time stamp\nstring frame_id\n================================================================================\nMSG: builtin_interfaces/Time\nint32 sec\nuint32 nanosec\n================================================================================\nMSG: x/Foo\nint64 a\nbool b\n";

async function hdf5(fill: (file: h5.File) => void): Promise<Uint8Array> {
  const { FS } = await h5.ready;
  const file = new h5.File("/made.h5", "w");
  fill(file);
  file.close();
  const bytes = (FS as { readFile(path: string): Uint8Array }).readFile("/made.h5").slice();
  (FS as { unlink(path: string): void }).unlink("/made.h5");
  return bytes;
}

/** Into the packed part of a MAT file and out again, so that the damage passes its checksum. */
export const insideMat: Spoil = (bytes, random) => {
  const spoil = pick(Object.values(spoilBytes), random);
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  if (view.getUint32(128, true) !== 15) return spoil(bytes, random);
  const size = view.getUint32(132, true);
  const inner = spoil(new Uint8Array(inflateSync(bytes.subarray(136, 136 + size))), random);
  return matOf(bytes, deflateSync(inner));
};

const matOf = (bytes: Uint8Array, packed: Uint8Array): Uint8Array => {
  const tag = new DataView(new ArrayBuffer(8));
  tag.setUint32(0, 15, true);
  tag.setUint32(4, packed.length, true);
  return new Uint8Array(Buffer.concat([bytes.subarray(0, 128), new Uint8Array(tag.buffer), packed]));
};

export const matBomb: Spoil = (bytes, random) => matOf(bytes, deflateSync(new Uint8Array(random.integer(400_000_000)), { level: 1 }));

export const built: Readonly<Record<string, Readonly<Record<string, Build>>>> = {
  "Arrow IPC": {
    "hostile names": (random) => arrow(names(random)),
    "5000 columns": () => arrow(many.slice(0, 5000), numbers.subarray(0, 2)),
    // To write values under so many takes the library minutes.
    "100,000 columns without rows": () => tableToIPC(new Table(new Schema(many.map((name) => new Field(name, new Float64(), false)))), "stream"),
  },
  Parquet: {
    "hostile names": (random) => parquet(names(random)),
    "30,000 columns": () => parquet(many.slice(0, 30_000), numbers.subarray(0, 2)),
    "one value, many rows": (random) => parquet(["t", "Fx"], new Uint8Array(1 + random.integer(2_000_000))),
  },
  MCAP: {
    "hostile names": (random) => json(JSON.stringify(Object.fromEntries(names(random).map((name) => [name, 1])))),
    "deep message": (random) => json(`{"t": #, "Fx": ${"[".repeat(1 + random.integer(5000))}`),
    "deep whole message": (random) => ((depth) => json(`{"t": #, "Fx": ${"[".repeat(depth)}1${"]".repeat(depth)}}`))(1 + random.integer(5000)),
    "100,000 fields": () => json(`{"t": #, "Fx": 1, ${many.slice(2, 20_000).map((name) => `"${name}":1`).join(",")}}`),
    "stamps of any size": (random) => json(`{"t": #, "Fx": 1, "timestamp": {"sec": ${pick(["1e300", "-1", "99999999999999999", '"x"', "null"], random)}, "nsec": 0}}`),
    "spoilt schema": (random) => mcap(Buffer.from(pick(Object.values(spoilBytes), random)(new TextEncoder().encode(ros), random)).toString(), "cdr", () => new Uint8Array(120)),
    "spoilt messages": (random) => mcap(ros, "cdr", () => Uint8Array.from({ length: random.integer(200) }, (_, i) => (i === 1 ? 1 : random.integer(3) === 0 ? random.integer(256) : 0)).fill(0, 0, 1)),
    "hostile topic": (random) => mcap("{}", "json", () => new TextEncoder().encode('{"t":1,"Fx":1}'), pick(hostileNames, random)),
  },
  HDF5: {
    "hostile names": (random) =>
      hdf5((file) => {
        for (const name of names(random).filter((one) => /^[^/\0]{1,1000}$/.test(one) && one !== ".")) file.create_dataset({ name, data: numbers });
        file.create_attribute(pick(["units", "__proto__", "gain"], random), pick(hostileNames, random).replaceAll("\0", "") || "x");
      }),
    "deep groups": (random) => hdf5((file) => void Array.from({ length: random.integer(100) }).reduce<h5.Group>((group) => group.create_group("g"), file)),
    "bomb": (random) => hdf5((file) => ["t", "Fx"].forEach((name) => file.create_dataset({ name, data: new Float64Array(1 + random.integer(6_000_000)), chunks: [1000], compression: 9 }))),
    "many datasets": (random) => hdf5((file) => many.slice(0, 1 + random.integer(4000)).forEach((name) => file.create_dataset({ name, data: numbers.subarray(0, 1) }))),
  },
};
