import { parquetMetadataAsync, parquetSchema } from "hyparquet";
import type { FileMetaData, SchemaTree } from "hyparquet";
import { plainColumn } from "../columnLog.ts";
import type { ColumnLog, LogColumn } from "../columnLog.ts";
import { columnImporter } from "../columnTable.ts";
import { heading } from "../headings.ts";
import { isParquet } from "../signatures.ts";
import { fileOf, readColumn } from "./readColumn.ts";
import { kindOf } from "./columnKind.ts";

const mostColumns = 20_000;
/** Rows whose numbers fill 1 GiB a column. */
const mostRows = 2 ** 27;

/** Parquet files: flat columns of numbers, texts and time stamps, in any of the usual packings. */
export const parquet = columnImporter("Parquet", isParquet, openParquet);

async function openParquet(bytes: Uint8Array): Promise<ColumnLog> {
  const metadata = await parquetMetadataAsync(fileOf(bytes));
  const rows = Number(metadata.num_rows);
  if (!Number.isSafeInteger(rows) || rows < 0 || metadata.row_groups.reduce((sum, group) => sum + Number(group.num_rows), 0) !== rows) throw new Error(`${rows} rows stated, but other numbers of them in its groups`);
  if (rows > mostRows) throw new Error(`${rows} rows, more than the ${mostRows} drawbar reads at once`);
  const { children } = parquetSchema(metadata);
  if (children.length > mostColumns) throw new Error(`more than ${mostColumns} columns`);
  const units = await statedUnits(metadata);
  const packings = new Set(metadata.row_groups.flatMap((group) => group.columns.flatMap((column) => column.meta_data?.codec ?? [])));
  return {
    format: `Parquet${packings.size === 0 ? "" : `; ${[...packings].map((codec) => codec.toLowerCase()).sort().join(", ")}`}`,
    partWord: "table",
    partMark: "/",
    joined: false,
    parts: [{ name: "", columns: children.map((child) => columnOf(child, bytes, metadata, rows, units)), clocks: {}, rowName: (row) => `row ${row + 1}`, findings: [] }],
    metadata: (metadata.key_value_metadata ?? []).filter(({ key, value }) => key !== "ARROW:schema" && value !== undefined && value.length < 1000).map(({ key, value }) => [key, value as string]),
    evidence: [`Parquet: ${rows} rows in ${metadata.row_groups.length} group${metadata.row_groups.length === 1 ? "" : "s"}${metadata.created_by === undefined ? "" : `, written by ${metadata.created_by.slice(0, 60)}`}`],
    findings: [],
  };
}

function columnOf(child: SchemaTree, bytes: Uint8Array, metadata: FileMetaData, rows: number, units: ReadonlyMap<string, string>): LogColumn {
  const { name } = child.element;
  const kind = kindOf(child);
  return plainColumn({
    name,
    unit: units.get(name) ?? heading(name).unit,
    rows,
    type: kind.type,
    obstacle: kind.obstacle,
    values: () => readColumn(bytes, metadata, name, rows, kind),
  });
}

/** From metadata of a column's chunks, or from the Arrow schema that some writers put beside the data. */
async function statedUnits(metadata: FileMetaData): Promise<Map<string, string>> {
  const units = new Map<string, string>();
  const arrow = metadata.key_value_metadata?.find(({ key }) => key === "ARROW:schema")?.value;
  if (arrow !== undefined) {
    const { unitsOfSchema } = await import("../arrow/fieldUnits.ts");
    for (const [name, unit] of unitsOfSchema(new Uint8Array(Buffer.from(arrow, "base64")))) units.set(name, unit);
  }
  for (const { meta_data: chunk } of metadata.row_groups[0]?.columns ?? []) {
    const unit = chunk?.key_value_metadata?.find(({ key }) => /^units?$/i.test(key))?.value?.trim();
    if (chunk !== undefined && unit !== undefined && unit !== "") units.set(chunk.path_in_schema.join("."), unit);
  }
  return units;
}
