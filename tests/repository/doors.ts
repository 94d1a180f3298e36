import { importsOf, packageOf } from "./imports.ts";
import { roomOf } from "./floors.ts";
import type { ProjectFile, Violation } from "./projectFiles.ts";

/** One outside package, one door: where it may be imported; a folder ends in "/". */
export const doors: Readonly<Record<string, readonly string[]>> = {
  "simple-statistics": ["src/numerics/statistics.ts"],
  "fft.js": ["src/numerics/spectrum.ts"],
  "ml-regression": ["src/numerics/lineFit.ts"],
  "ml-matrix": ["src/numerics/symmetricEigen.ts"],
  luxon: ["src/core/instants.ts"],
  zod: ["src/campaign/"],
  yaml: ["src/campaign/"],
  // logs, and the run sheet, which is a messy text table of its own
  papaparse: ["src/importers/", "src/campaign/sheet.ts"],
  commander: ["src/cli/"],
  "@observablehq/plot": ["src/report/"],
  linkedom: ["src/report/"],
  uplot: ["src/report/"],
  h5wasm: ["src/importers/hdf5/"],
  hyparquet: ["src/importers/parquet/"],
  "hyparquet-compressors": ["src/importers/parquet/"],
  "apache-arrow": ["src/importers/arrow/", "src/exporters/recordingArrow.ts"],
  "hyparquet-writer": ["src/exporters/recordingParquet.ts"],
  "@mcap/core": ["src/importers/mcap/"],
  "@mcap/support": ["src/importers/mcap/"],
  "@foxglove/rosmsg": ["src/importers/mcap/"],
  "@foxglove/rosmsg2-serialization": ["src/importers/mcap/"],
  "fast-png": ["src/importers/grid/", "src/report/figures/footprintImage.ts"],
  "jpeg-js": ["src/importers/grid/"],
  saxes: ["src/workbook/"],
  piscina: ["src/cli/runPool.ts"],
};

/** Parts of Node by where they may be used; what is not listed may not be used at all. */
const nodeDoors: Readonly<Record<string, readonly string[]>> = {
  "node:http": ["src/cli/watch/"],
  "node:os": ["src/cli/runPool.ts", "src/importers/largeText.ts", "src/cli/cache/cachePlace.ts"],
  "node:fs": ["src/importers/", "src/campaign/", "src/cli/", "src/report/writeTogether.ts", "src/report/renderReport.ts", "src/version.ts"],
  "node:path": ["src/importers/", "src/campaign/", "src/cli/", "src/report/writeTogether.ts"],
  "node:crypto": ["src/importers/", "src/campaign/", "src/report/", "src/cli/cache/"],
  // values and their like, exactly, as the cache keeps them
  "node:v8": ["src/cli/cache/"],
  // to find the program's own files
  "node:url": ["src/cli/cache/programKey.ts"],
  "node:buffer": ["src/importers/"],
  "node:zlib": ["src/importers/", "src/workbook/"],
  "node:worker_threads": ["src/importers/guard.ts", "src/importers/guardBody.ts", "src/importers/startWorker.ts", "src/importers/largeText.ts", "src/importers/textLaneBody.ts"],
  // to find the trace viewer that is put into the report
  "node:module": ["src/report/renderReport.ts"],
};

const through = (path: string, open: readonly string[]): boolean => open.some((door) => (door.endsWith("/") ? path.startsWith(door) : path === door));

/** Every import from outside goes through its door. */
export function doorViolations(files: readonly ProjectFile[]): Violation[] {
  return files.flatMap((file) =>
    importsOf(file)
      .filter((found) => !found.own)
      .flatMap(({ target, line }): Violation[] => {
        const open = target.startsWith("node:") ? nodeDoors[target] : doors[packageOf(target)];
        if (open === undefined) return [{ path: file.path, line, message: `${target} has no door in src/` }];
        return through(file.path, open) ? [] : [{ path: file.path, line, message: `${target} is imported through ${open.join(", ")} only` }];
      }),
  );
}

/** package.json and the table of doors name the same packages, and every door is in use. */
export function idleDoors(files: readonly ProjectFile[], dependencies: readonly string[]): Violation[] {
  const used = new Set(files.flatMap(importsOf).filter((found) => !found.own).map((found) => packageOf(found.target)));
  const at = { path: "package.json", line: 1 };
  return [
    ...dependencies.filter((name) => !Object.hasOwn(doors, name)).map((name) => ({ ...at, message: `${name} is a dependency without a door` })),
    ...Object.keys(doors).filter((name) => !dependencies.includes(name)).map((name) => ({ ...at, message: `${name} has a door but is no dependency` })),
    ...Object.keys(doors).filter((name) => !used.has(name)).map((name) => ({ ...at, message: `${name} has a door that nobody uses` })),
  ];
}

const printing = /\b(console\.\w+|process\.(stdout|stderr))/g;
const clock = /\b(Date\.now\(|new Date\(\)|performance\.now\(|process\.hrtime)/g;
const chance = /\bMath\.random\b/g;

/** Only the command line prints and reads the clock; chance is seeded. */
export function purityViolations(files: readonly ProjectFile[]): Violation[] {
  return files.flatMap((file) =>
    file.text.split("\n").flatMap((line, index): Violation[] => {
      const at = { path: file.path, line: index + 1 };
      const outside = roomOf(file.path) !== "cli";
      return [
        ...(outside ? [...line.matchAll(printing)].map(([what]) => ({ ...at, message: `${what}: only src/cli prints` })) : []),
        ...(outside ? [...line.matchAll(clock)].map(([what]) => ({ ...at, message: `${what}: only src/cli reads the clock` })) : []),
        ...[...line.matchAll(chance)].map(([what]) => ({ ...at, message: `${what}: chance comes from src/numerics/random.ts with a seed` })),
      ];
    }),
  );
}
