import { McapStreamReader } from "@mcap/core";
import { loadDecompressHandlers } from "@mcap/support";
import { mostUnpackedBytes } from "../../core/unpacked.ts";

export interface RecordedMessage {
  readonly logNs: bigint;
  readonly publishNs: bigint;
  readonly data: Uint8Array;
}

export interface Topic {
  readonly name: string;
  readonly schemaName: string;
  readonly schemaEncoding: string;
  readonly schemaText: string;
  readonly encoding: string;
  readonly messages: RecordedMessage[];
  /** channels that published on it */
  readonly channels: Set<number>;
}

export interface Recorded {
  readonly library: string;
  readonly topics: readonly Topic[];
  readonly metadata: readonly (readonly [string, string])[];
  readonly packings: readonly string[];
  /** the file ends before its end mark */
  readonly cut: boolean;
}

/** Every message of a recording, in the order of the file. @throws Error where the bytes do not hold together */
export async function readRecords(bytes: Uint8Array): Promise<Recorded> {
  const handlers = await loadDecompressHandlers();
  const packings = new Set<string>();
  const most = mostUnpackedBytes(bytes.length);
  let left = most;
  const bounded = Object.fromEntries(
    Object.entries(handlers).map(([name, unpack]) => [
      name,
      (packed: Uint8Array, size: bigint): Uint8Array => {
        packings.add(name);
        if (size > BigInt(left)) throw new Error(`it unpacks to more than ${most} bytes`);
        left -= Number(size);
        return unpack(packed, size);
      },
    ]),
  );
  const reader = new McapStreamReader({ decompressHandlers: bounded });
  reader.append(bytes);
  const schemas = new Map<number, { readonly name: string; readonly encoding: string; readonly data: Uint8Array }>();
  const byChannel = new Map<number, Topic>();
  const topics = new Map<string, Topic>();
  const metadata: [string, string][] = [];
  let library = "";
  for (let record = reader.nextRecord(); record !== undefined; record = reader.nextRecord()) {
    if (record.type === "Header") library = record.library;
    else if (record.type === "Schema") schemas.set(record.id, record);
    else if (record.type === "Metadata") for (const [key, value] of record.metadata) metadata.push([`${record.name}.${key}`, value]);
    else if (record.type === "Channel" && !byChannel.has(record.id)) {
      const schema = schemas.get(record.schemaId);
      const key = `${record.topic}\n${record.messageEncoding}\n${schema?.name ?? ""}`;
      const topic = topics.get(key) ?? { name: record.topic, schemaName: schema?.name ?? "", schemaEncoding: schema?.encoding ?? "", schemaText: new TextDecoder().decode(schema?.data ?? new Uint8Array(0)), encoding: record.messageEncoding, messages: [], channels: new Set<number>() };
      topic.channels.add(record.id);
      topics.set(key, topic);
      byChannel.set(record.id, topic);
    } else if (record.type === "Message") byChannel.get(record.channelId)?.messages.push({ logNs: record.logTime, publishNs: record.publishTime, data: record.data.slice() });
  }
  return { library, topics: [...topics.values()], metadata, packings: [...packings].sort(), cut: !reader.done() };
}
