import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

/** The readers and all they may import, by the rule of floors. */
const readerRooms = ["core", "numerics", "workbook", "importers"];

/** src/ in the sources, dist/ in the built package. */
const ownCode = fileURLToPath(new URL("../..", import.meta.url));

/** Which program is running, for reading and as a whole. */
export interface ProgramKeys {
  readonly readers: string;
  readonly whole: string;
}

/** Taken from the program's own files as they stand, the packages they stand on and Node: no version number that someone could forget to raise. */
export function programKeys(root = ownCode): ProgramKeys {
  const base = JSON.stringify([process.version, process.arch, installed(dirname(root))]);
  return { readers: hashOf(base, readerRooms.flatMap((room) => codeUnder(join(root, room)))), whole: hashOf(base, codeUnder(root)) };
}

function hashOf(base: string, files: readonly string[]): string {
  const hash = createHash("sha256").update(base);
  for (const file of files) hash.update(`\n${file}\n`).update(readFileSync(file));
  return hash.digest("hex");
}

function codeUnder(folder: string): string[] {
  return readdirSync(folder, { withFileTypes: true })
    .sort((a, b) => (a.name < b.name ? -1 : 1))
    .flatMap((entry) => {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) return codeUnder(path);
      return /(?<!\.d)\.(ts|js)$/.test(entry.name) ? [path] : [];
    });
}

/** Name and version of each package that the one at `home` stands on, directly or through others. */
function installed(home: string): string[] {
  const found = new Set<string>();
  const waiting = [home];
  for (let folder = waiting.pop(); folder !== undefined; folder = waiting.pop()) {
    const manifest = JSON.parse(readFileSync(join(folder, "package.json"), "utf8")) as { readonly name: string; readonly version: string; readonly dependencies?: Readonly<Record<string, string>> };
    const seen = `${manifest.name} ${manifest.version} ${folder}`;
    if (found.has(seen)) continue;
    found.add(seen);
    for (const name of Object.keys(manifest.dependencies ?? {})) {
      const at = packageFolder(folder, name);
      if (at !== null) waiting.push(at);
    }
  }
  return [...found].sort();
}

/** As Node looks for a package: beside the one that asks, then further up. */
function packageFolder(from: string, name: string): string | null {
  for (let folder = from; ; folder = dirname(folder)) {
    const at = join(folder, "node_modules", name);
    try {
      readFileSync(join(at, "package.json"));
      return at;
    } catch {
      if (dirname(folder) === folder) return null;
    }
  }
}
