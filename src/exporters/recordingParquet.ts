import type { Recording } from "../core/recording.ts";
import { version } from "../version.ts";
import { arrowSchema } from "./recordingArrow.ts";
import { columnsOf, provenanceOf } from "./recordingColumns.ts";
import type { About } from "./recordingColumns.ts";

/**
 * A recording as a Parquet file of doubles. Provenance stands in the file's metadata; so does each unit, once as
 * `unit of <column>` for people and once in the Arrow schema that readers of Parquet look for.
 */
export async function recordingParquet(recording: Recording, about: About = []): Promise<Uint8Array> {
  // Loaded when called: whoever only measures does not wait for it.
  const { parquetWriteBuffer } = await import("hyparquet-writer");
  const columns = columnsOf(recording);
  const metadata = [...provenanceOf(recording, about), ...columns.map(({ name, unit }): [string, string] => [`unit of ${name}`, unit])];
  const buffer = parquetWriteBuffer({
    columnData: columns.map(({ name, values }) => ({ name, data: values, type: "DOUBLE" as const, nullable: false })),
    kvMetadata: [...metadata.map(([key, value]) => ({ key, value })), { key: "ARROW:schema", value: Buffer.from(await arrowSchema(columns)).toString("base64") }],
    createdBy: `drawbar ${version}`,
    rowGroupSize: 1_000_000,
  });
  return new Uint8Array(buffer);
}
