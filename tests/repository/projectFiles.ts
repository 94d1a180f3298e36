import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { expect } from "vitest";

/** One text file of the project, its path from the project's root. */
export interface ProjectFile {
  readonly path: string;
  readonly text: string;
}

/** One place where a rule is broken. */
export interface Violation {
  readonly path: string;
  readonly line: number;
  readonly message: string;
}

/** Every path below `folder`, folders left out, in order. */
export function pathsUnder(folder: string): string[] {
  return readdirSync(folder)
    .sort()
    .flatMap((name) => {
      const path = join(folder, name);
      return statSync(path).isDirectory() ? pathsUnder(path) : [path];
    });
}

/** Files below the folders whose names end in one of the endings. */
export function filesIn(folders: readonly string[], endings: readonly string[]): ProjectFile[] {
  const paths = folders.flatMap(pathsUnder).filter((path) => endings.some((ending) => path.endsWith(ending)));
  return paths.map((path) => ({ path, text: readFileSync(path, "utf8") }));
}

export function readFiles(paths: readonly string[]): ProjectFile[] {
  return paths.map((path) => ({ path, text: readFileSync(path, "utf8") }));
}

/** A rule broken anywhere fails with one line a place. */
export function expectNone(violations: readonly Violation[]): void {
  expect(violations.map(({ path, line, message }) => `${path}:${line} ${message}`)).toEqual([]);
}

export function lineOf(text: string, position: number): number {
  return text.slice(0, position).split("\n").length;
}
