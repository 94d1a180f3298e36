import type { ProjectFile, Violation } from "./projectFiles.ts";

export const longestFile = 300;
export const medianFile = 100;

export function lineCount(text: string): number {
  return text.split("\n").length - (text.endsWith("\n") ? 1 : 0);
}

/** A file past 300 lines wants to be two. */
export function sizeViolations(files: readonly ProjectFile[]): Violation[] {
  return files.flatMap(({ path, text }): Violation[] => {
    const lines = lineCount(text);
    return lines <= longestFile ? [] : [{ path, line: lines, message: `has ${lines} lines, more than ${longestFile}: make it two files` }];
  });
}

export function medianLength(files: readonly ProjectFile[]): number {
  const lengths = files.map(({ text }) => lineCount(text)).sort((a, b) => a - b);
  return lengths[Math.floor(lengths.length / 2)] ?? 0;
}
