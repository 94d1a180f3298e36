/** One column of an array as MAT files order them: the first index runs fastest. */
export interface Side {
  readonly name: string;
  readonly first: number;
  readonly step: number;
  readonly count: number;
  readonly obstacle: string | null;
}

/** A matrix with more columns or rows than this is no table of channels. */
const mostSides = 256;

/** A vector is one column; a matrix gives its columns as `data(:,1)` …, a lying one its rows as `data(1,:)` …, counted from 1. */
export function sidesOf(name: string, dims: readonly number[]): Side[] {
  const long = dims.filter((size) => size !== 1);
  const count = dims.reduce((product, size) => product * size, 1);
  if (long.length <= 1) return [{ name, first: 0, step: 1, count, obstacle: null }];
  const [rows, columns] = dims as [number, number];
  if (dims.length > 2 || Math.min(rows, columns) > mostSides) return [{ name, first: 0, step: 1, count: 0, obstacle: `an array of ${dims.join("×")}` }];
  if (rows >= columns) return Array.from({ length: columns }, (_, i) => ({ name: `${name}(:,${i + 1})`, first: i * rows, step: 1, count: rows, obstacle: null }));
  return Array.from({ length: rows }, (_, i) => ({ name: `${name}(${i + 1},:)`, first: i, step: rows, count: columns, obstacle: null }));
}
