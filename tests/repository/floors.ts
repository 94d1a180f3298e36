import { importsOf } from "./imports.ts";
import type { ProjectFile, Violation } from "./projectFiles.ts";

const ground = ["core", "numerics"];
const desk = [...ground, "workbook"];
const second = [...desk, "campaign", "importers"];
const third = [...second, "processing", "models"];

/** Which rooms a room may look into beside itself; a room that is not listed does not exist. */
export const mayImport: Readonly<Record<string, readonly string[]>> = {
  core: [],
  workbook: ["core"],
  numerics: [],
  campaign: desk,
  importers: desk,
  processing: second,
  models: second,
  fitting: third,
  design: third,
  decide: third,
  report: [...third, "fitting", "design", "decide", "version"],
  exporters: [...third, "version"],
  version: [],
  day: [...third, "fitting", "design", "decide", "version"],
  cli: [...third, "fitting", "design", "decide", "report", "exporters", "day", "version"],
  index: [...third, "fitting", "design", "decide", "report", "exporters", "day", "version"],
};

/** Rooms inside one floor that are closed one way: conditioning does not know what is measured from it. */
const closed: readonly (readonly [from: string, to: string])[] = [["src/processing/conditioning/", "src/processing/measures/"]];

/** `src/core/units.ts` → core, `src/day.ts` → day. */
export function roomOf(path: string): string {
  return (path.split("/")[1] ?? "").replace(/\.ts$/, "");
}

/** A file imports from its own folder and from lower floors, never sideways or up. */
export function floorViolations(files: readonly ProjectFile[]): Violation[] {
  return files.flatMap((file): Violation[] => {
    const room = roomOf(file.path);
    const allowed = mayImport[room];
    if (allowed === undefined) return [{ path: file.path, line: 1, message: `src/${room} is no room of the house (${Object.keys(mayImport).join(", ")})` }];
    return importsOf(file)
      .filter((found) => found.own)
      .flatMap(({ target, line }): Violation[] => {
        const at = { path: file.path, line };
        if (!target.startsWith("src/")) return [{ ...at, message: `imports ${target}, which is not in src/` }];
        if (!/\.d?\.?ts$/.test(target)) return [{ ...at, message: `imports ${target}: a relative import ends in .ts` }];
        const other = roomOf(target);
        if (other !== room && !allowed.includes(other)) return [{ ...at, message: `${room} may not import ${other} (${target})` }];
        if (closed.some(([from, to]) => file.path.startsWith(from) && target.startsWith(to))) return [{ ...at, message: `conditioning may not import measures (${target})` }];
        return [];
      });
  });
}
