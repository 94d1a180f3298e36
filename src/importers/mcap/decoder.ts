import { parse } from "@foxglove/rosmsg";
import { MessageReader } from "@foxglove/rosmsg2-serialization";
import type { Topic } from "./records.ts";

export type Decode = (data: Uint8Array) => unknown;

/** How a topic's messages are taken apart, or why they cannot be. */
export function decoderOf({ encoding, schemaEncoding, schemaText }: Topic): Decode | string {
  if (encoding === "json") {
    const decoder = new TextDecoder("utf-8", { fatal: true });
    return (data) => JSON.parse(decoder.decode(data)) as unknown;
  }
  if (encoding === "cdr" && schemaEncoding === "ros2msg") {
    const reader = new MessageReader(parse(schemaText, { ros2: true }));
    return (data) => {
      const message = reader.readMessage(data);
      if (reader.lastReadHadTrailingBytes() && data.byteLength - reader.lastReadByteLength() > 8) throw new Error("a message is longer than its schema says");
      return message;
    };
  }
  return `messages encoded as ${encoding || "nothing that is said"}${schemaEncoding === "" ? "" : ` with a schema of ${schemaEncoding}`}, which drawbar does not decode`;
}
