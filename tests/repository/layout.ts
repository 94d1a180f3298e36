import { posix } from "node:path";
import { importsOf } from "./imports.ts";
import type { ProjectFile, Violation } from "./projectFiles.ts";

/** All that may stand at the project's root. */
export const rootEntries = ["README.md", "DEVELOPERS.md", "CHANGELOG.md", "LICENSE", "package.json", "package-lock.json", "tsconfig.json", ".gitignore", ".ci", "src", "fixtures", "tests", "notebooks", "scripts"];

export function rootViolations(entries: readonly string[], ignored: readonly string[]): Violation[] {
  const at = { path: ".", line: 1 };
  const strange = entries.filter((name) => name !== ".git" && !rootEntries.includes(name) && !ignored.includes(name));
  return [...strange.map((name) => ({ ...at, message: `${name} has no place at the root` })), ...rootEntries.filter((name) => !entries.includes(name)).map((name) => ({ ...at, message: `${name} is missing at the root` }))];
}

/** Every folder right under fixtures/ says where it comes from. */
export function originViolations(paths: readonly string[], textOf: (path: string) => string): Violation[] {
  const folders = [...new Set(paths.map((path) => path.split("/")[1] ?? ""))];
  return folders.flatMap((folder): Violation[] => {
    const origin = `fixtures/${folder}/ORIGIN.md`;
    if (!paths.includes(origin)) return [{ path: `fixtures/${folder}`, line: 1, message: "has no ORIGIN.md" }];
    return textOf(origin).trim().length < 80 ? [{ path: origin, line: 1, message: "says too little about where this comes from" }] : [];
  });
}

/** Folders of tests/ that mirror none of src/. */
const besides = ["helpers", "repository", "package", "badInput", "scripts", "notebooks", "closure", "golden", "day", "cli", "faults"];

/**
 * A test file that mirrors a folder of src/ is named after the file it tests there, or it is about several of them and
 * then reaches at least two files of src/ itself.
 */
export function mirrorViolations(tests: readonly ProjectFile[], source: readonly string[]): Violation[] {
  const folders = new Set(source.map((path) => posix.dirname(path)));
  return tests.flatMap((file): Violation[] => {
    const at = { path: file.path, line: 1 };
    const folder = posix.dirname(file.path).replace(/^tests/, "src");
    const named = `${folder}/${posix.basename(file.path).replace(/\.test\.ts$/, ".ts")}`;
    if (source.includes(named) || besides.includes(file.path.split("/")[1] ?? "")) return [];
    if (!folders.has(folder)) return [{ ...at, message: `stands in no folder of src/ and is none of ${besides.join(", ")}` }];
    const touched = new Set(importsOf(file).filter(({ own }) => own).map(({ target }) => target));
    const here = [...touched].filter((target) => posix.dirname(target) === folder);
    return here.length === 1 ? [{ ...at, message: `tests ${here[0]} alone and is not named after it` }] : [];
  });
}

interface Manifest {
  readonly name?: unknown;
  readonly license?: unknown;
  readonly type?: unknown;
  readonly bin?: unknown;
  readonly exports?: unknown;
  readonly engines?: { readonly node?: unknown };
  readonly files?: unknown;
}

/** What package.json must say for the package to be found, imported and trusted. */
export function manifestViolations(manifest: Manifest): Violation[] {
  const main = (manifest.exports as Record<string, unknown> | undefined)?.["."] as Record<string, unknown> | undefined;
  const wanted: readonly (readonly [what: string, holds: boolean])[] = [
    ["name drawbar", manifest.name === "drawbar"],
    ["license MIT", manifest.license === "MIT"],
    ["type module", manifest.type === "module"],
    ["bin drawbar in dist/cli/main.js", (manifest.bin as Record<string, unknown> | undefined)?.["drawbar"] === "dist/cli/main.js"],
    ["exports with types first", main !== undefined && Object.keys(main)[0] === "types" && main["types"] === "./dist/index.d.ts" && main["default"] === "./dist/index.js"],
    ["engines Node 20 or later", manifest.engines?.node === ">=20"],
    ["files with dist", Array.isArray(manifest.files) && manifest.files.includes("dist")],
  ];
  return wanted.filter(([, holds]) => !holds).map(([what]) => ({ path: "package.json", line: 1, message: `lacks ${what}` }));
}
