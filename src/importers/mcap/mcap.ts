import { finding } from "../../core/finding.ts";
import { plainColumn } from "../columnLog.ts";
import type { ColumnLog, ColumnValues, LogColumn, LogPart } from "../columnLog.ts";
import { columnImporter } from "../columnTable.ts";
import { isMcap } from "../signatures.ts";
import { decoderOf } from "./decoder.ts";
import type { Decode } from "./decoder.ts";
import { fieldsOf, headerNs } from "./fields.ts";
import { readRecords } from "./records.ts";
import type { Topic } from "./records.ts";

/** MCAP recordings: messages in JSON or as ROS 2 writes them, by topic, each with up to three stamps. */
export const mcap = columnImporter("MCAP", isMcap, openMcap);

async function openMcap(bytes: Uint8Array, fileName: string): Promise<ColumnLog> {
  const { library, topics, metadata, packings, cut } = await readRecords(bytes);
  const filled = topics.filter((topic) => topic.messages.length > 0);
  const messages = filled.reduce((sum, topic) => sum + topic.messages.length, 0);
  return {
    format: `MCAP${packings.length === 0 ? "" : `; ${packings.join(", ")}`}`,
    partWord: "topic",
    partMark: ".",
    joined: false,
    parts: filled.map((topic) => partOf(topic, fileName)),
    metadata,
    evidence: [`MCAP: ${messages} messages on ${filled.length} topic${filled.length === 1 ? "" : "s"}${library === "" ? "" : `, written by ${library.slice(0, 60)}`}`],
    findings: cut ? [finding("cut-file", "look", `${fileName}: the recording ends before its end mark, as when power fails; the ${messages} messages up to there were read`)] : [],
  };
}

function partOf(topic: Topic, fileName: string): LogPart {
  const decode = decoderOf(topic);
  const { messages } = topic;
  const stamps = (name: "log" | "publish"): LogColumn => stampColumn(name, messages.length, () => messages.map((message) => message[`${name}Ns`]));
  const clocks = { log: stamps("log"), publish: stamps("publish") };
  const findings = topic.channels.size < 2 ? [] : [finding("two-publishers", "look", `${fileName}: ${topic.channels.size} channels publish on ${topic.name}; their messages were read as one, in the order of the file`)];
  const rowName = (row: number): string => `message ${row + 1} of ${topic.name.slice(0, 60)}`;
  if (typeof decode === "string") return { name: topic.name, columns: [blocked(topic, decode)], clocks, rowName, findings };
  const all = once(() => messages.map(({ data }, index) => decoded(decode, data, rowName(index))));
  const first = decoded(decode, messages[0]?.data as Uint8Array, rowName(0));
  const header = headerNs(first) === null ? {} : { header: stampColumn("header", messages.length, () => all().map(headerNs)) };
  const columns = fieldsOf(first).map((field) => plainColumn({ name: field.name, unit: null, rows: messages.length, type: field.type, values: (): ColumnValues => ({ kind: "cells", cells: all().map((message) => field.of(message)) }) }));
  return { name: topic.name, columns, clocks: { ...header, ...clocks }, rowName, findings };
}

function decoded(decode: Decode, data: Uint8Array, where: string): unknown {
  try {
    return decode(data);
  } catch (error) {
    throw new Error(`${where}: ${error instanceof Error ? error.message : String(error)}`);
  }
}

function stampColumn(name: string, rows: number, ns: () => (bigint | null)[]): LogColumn {
  return plainColumn({ name, unit: null, rows, type: `${name} stamp`, values: () => ({ kind: "stamps", zoned: true, ns: ns() }) });
}

/** Stands for a topic's fields where nobody can tell them. */
function blocked(topic: Topic, why: string): LogColumn {
  return plainColumn({ name: "message", unit: null, rows: topic.messages.length, type: topic.schemaName || "messages", obstacle: why, values: () => ({ kind: "cells", cells: [] }) });
}

function once<T>(make: () => T): () => T {
  let made: { readonly value: T } | null = null;
  return () => (made ??= { value: make() }).value;
}
