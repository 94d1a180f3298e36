import type { Finding } from "../core/finding.ts";
import type { Source } from "../core/provenance.ts";
import type { Samples } from "../core/recording.ts";
import type { TimeCandidate } from "./timeCandidate.ts";

/** How the time of a log is written. Same shape as the rig description's `clock`. */
export type ClockFormat =
  | { readonly kind: "elapsed"; readonly column: string; readonly unit: "s" | "ms" | "us" | "min" | "h" | "d" }
  | {
      readonly kind: "wall";
      readonly column: string;
      readonly format: string;
      readonly zone: string;
      /** where the date is, if the stamps carry the time of day alone: in another column, in a line before the header, or declared */
      readonly dateColumn?: string | undefined;
      readonly dateLabel?: string | undefined;
      readonly startDate?: string | undefined;
      /** layout of dateColumn and dateLabel */
      readonly dateFormat?: string | undefined;
    }
  | { readonly kind: "iso"; readonly column: string; readonly zone?: string | undefined }
  | { readonly kind: "rate"; readonly rateHz: number }
  /** days as spreadsheets count them, the time of day being the fraction */
  | { readonly kind: "serial"; readonly column: string; readonly epoch: 1900 | 1904; readonly zone: string }
  /** time stamps that the file stores as such, not as text: a workbook's date cells, Parquet and Arrow time stamps */
  | {
      readonly kind: "stamp";
      readonly column: string;
      readonly zone?: string | undefined;
      /** where the date is, if the column stores times of day alone */
      readonly dateColumn?: string | undefined;
      readonly dateLabel?: string | undefined;
      readonly startDate?: string | undefined;
      /** layout of dateLabel, and of dateColumn where it holds text */
      readonly dateFormat?: string | undefined;
    }
  /** recorded messages: the stamp in the message's header, or when it was logged, or when it was published */
  | { readonly kind: "message"; readonly stamp: "header" | "log" | "publish"; readonly epoch: "unix" | "boot" };

/** What the caller knows about a log. Whatever is left out is found from the bytes, with evidence, or refused. */
export interface ReadOptions {
  readonly clock: ClockFormat;
  /** columns that will be used; text in any of them is an error, other columns are skipped */
  readonly columns: readonly string[];
  readonly encoding?: "utf-8" | "utf-16le" | "utf-16be" | "latin1" | undefined;
  readonly delimiter?: "," | ";" | "\t" | "|" | " " | undefined;
  readonly decimal?: "." | "," | undefined;
  /** mark between groups of three digits */
  readonly thousands?: "," | "." | "'" | " " | undefined;
  /** 0 = the file has no heading line; columns are then called #1, #2 … from the left */
  readonly headerLine?: number | undefined;
  readonly unitLine?: number | undefined;
  /** one part of a file that has several: a workbook's sheet, a group, a topic */
  readonly part?: string | undefined;
  /** what to do with a gain that the file states beside a column */
  readonly storedGain?: "multiply" | "divide" | "ignore" | undefined;
  /** the file is no log but a grid of readings: a matrix of text, or a photograph */
  readonly grid?: "text" | "image" | undefined;
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
  read(bytes: Uint8Array, fileName: string, options: ReadOptions): RawTable | Promise<RawTable>;
  /** what is inside, without a description; null = the format has an inspection of its own */
  contents: ((bytes: Uint8Array, fileName: string) => Promise<LogContents>) | null;
}

/** What a file that keeps named columns holds, for a person who writes its description. */
export interface LogContents {
  readonly file: string;
  readonly bytes: number;
  readonly sha256: string;
  readonly format: string;
  /** what the format calls its parts: sheet, group, topic */
  readonly partWord: string;
  readonly parts: readonly PartContents[];
  readonly metadata: readonly (readonly [string, string])[];
  readonly remarks: readonly string[];
}

export interface PartContents {
  readonly name: string;
  readonly columns: readonly { readonly name: string; readonly unit: string | null; readonly rows: number; readonly type: string }[];
  readonly timeCandidates: readonly TimeCandidate[];
  readonly remarks: readonly string[];
}
