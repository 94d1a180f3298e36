import type { SchemaTree } from "hyparquet";

/** What a Parquet column holds, and how its values become a column's. */
export interface ColumnKind {
  readonly type: string;
  readonly obstacle: string | null;
  readonly holds: "numbers" | "text" | "stamps in UTC" | "stamps without zone" | "times of day";
  /** parts of a second that a time of day counts */
  readonly perSecond?: number;
  /** digits behind the point of exact decimals */
  readonly decimals: number | null;
}

export function kindOf({ element, children }: SchemaTree): ColumnKind {
  const { type, logical_type: logical, converted_type: converted } = element;
  const kind = (name: string, holds: ColumnKind["holds"] = "numbers", decimals: number | null = null): ColumnKind => ({ type: name, obstacle: null, holds, decimals });
  const no = (what: string): ColumnKind => ({ type: what, obstacle: what, holds: "numbers", decimals: null });
  if (children.length > 0 || type === undefined) return no("fields within fields");
  if (element.repetition_type === "REPEATED") return no("lists");
  if (logical?.type === "TIMESTAMP") return logical.isAdjustedToUTC ? kind("time stamp in UTC", "stamps in UTC") : kind("time stamp without a zone", "stamps without zone");
  // The older way to mark a time stamp always means UTC (the format's LogicalTypes page).
  if (converted === "TIMESTAMP_MILLIS" || converted === "TIMESTAMP_MICROS") return kind("time stamp in UTC", "stamps in UTC");
  if (type === "INT96") return kind("time stamp without a zone", "stamps without zone");
  if (logical?.type === "DATE" || converted === "DATE") return kind("date without a zone", "stamps without zone");
  if (logical?.type === "TIME") return { ...kind("time of day", "times of day"), perSecond: { MILLIS: 1e3, MICROS: 1e6, NANOS: 1e9 }[logical.unit] };
  if (converted === "TIME_MILLIS" || converted === "TIME_MICROS") return { ...kind("time of day", "times of day"), perSecond: converted === "TIME_MILLIS" ? 1e3 : 1e6 };
  if (logical?.type === "DECIMAL" || converted === "DECIMAL") return kind("exact decimal", "numbers", (logical?.type === "DECIMAL" ? logical.scale : element.scale) ?? 0);
  if (logical?.type === "FLOAT16") return kind("16-bit float");
  if (type === "DOUBLE") return kind("64-bit float");
  if (type === "FLOAT") return kind("32-bit float");
  if (type === "BOOLEAN") return kind("true and false");
  if (type === "INT32" || type === "INT64") return kind(`whole number (${logical?.type === "INTEGER" ? `${logical.bitWidth} bits` : type.toLowerCase()})`);
  if (logical?.type === "STRING" || logical?.type === "ENUM" || converted === "UTF8" || converted === "ENUM") return kind("text", "text");
  return no("bytes");
}
