import type { Finding } from "../core/finding.ts";
import type { Source } from "../core/provenance.ts";
import type { Samples } from "../core/recording.ts";

/** How the time of a log is written. Same shape as the rig description's `clock`. */
export type ClockFormat =
  | { readonly kind: "elapsed"; readonly column: string; readonly unit: "s" | "ms" | "us" | "min" | "h" | "d" }
  | { readonly kind: "wall"; readonly column: string; readonly format: string; readonly zone: string }
  | { readonly kind: "iso"; readonly column: string; readonly zone?: string | undefined }
  | { readonly kind: "rate"; readonly rateHz: number };

/** What the caller knows about a log. Whatever is left out is found from the bytes, with evidence, or refused. */
export interface ReadOptions {
  readonly clock: ClockFormat;
  /** columns that will be used; text in any of them is an error, other columns are skipped */
  readonly columns: readonly string[];
  readonly encoding?: "utf-8" | "utf-16le" | "utf-16be" | "latin1" | undefined;
  readonly delimiter?: "," | ";" | "\t" | "|" | " " | undefined;
  readonly decimal?: "." | "," | undefined;
  readonly headerLine?: number | undefined;
  readonly unitLine?: number | undefined;
  readonly missing: readonly string[];
  readonly overload: readonly string[];
}

export interface RawColumn {
  readonly name: string;
  /** as written in the file, e.g. from a unit row or `Fx [N]`; null = the file does not say */
  readonly unit: string | null;
  readonly samples: Samples;
  /** rows whose cell carried an overload mark */
  readonly overloaded: readonly number[];
}

/** A log as it stands in its file: counts or volts, one time base, nothing corrected. */
export interface RawTable {
  /** seconds since the first row's stamp, or as elapsed in the file; rising is not yet checked */
  readonly timesS: Samples;
  /** ISO 8601 with zone; null when the file gives elapsed time only */
  readonly startedAt: string | null;
  readonly columns: readonly RawColumn[];
  /** lines before the header, as key and value */
  readonly metadata: readonly (readonly [string, string])[];
  /** what the reader saw and concluded: encoding, delimiter, decimal mark, header and unit line */
  readonly evidence: readonly string[];
  readonly source: Source;
  /** truncated last line, repeated headers, rows refused … */
  readonly findings: readonly Finding[];
}

/** One file format. `sniff` looks at the first bytes only. */
export interface Importer {
  readonly format: string;
  sniff(head: Uint8Array, fileName: string): boolean;
  /** @throws InputError with every issue found */
  read(bytes: Uint8Array, fileName: string, options: ReadOptions): RawTable;
}
