/** A file that numbers came from. Paths are relative to the day folder, with forward slashes. */
export interface Source {
  readonly file: string;
  readonly sha256: string;
  /** what the reader took it for, e.g. "delimited text; tab; decimal comma; UTF-16LE" */
  readonly format: string;
  readonly bytes: number;
  readonly rowsRead: number;
  readonly rowsRefused: number;
}

/** One thing done to the data. Holds no wall-clock time and no machine path: same input, same bytes. */
export interface Step {
  readonly name: string;
  readonly version: string;
  readonly parameters: Readonly<Record<string, string | number | boolean | null>>;
}
