import { createHash, randomUUID } from "node:crypto";
import { mkdirSync, readFileSync, renameSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** What is kept: a log's raw table, one run's result, a day's report. */
export type EntryKind = "table" | "run" | "day";

/** Entries by key in one folder. An entry that is not what it says it is counts as none. */
export interface Store {
  readonly find: (kind: EntryKind, key: string) => Uint8Array | null;
  readonly keep: (kind: EntryKind, key: string, payload: Uint8Array) => void;
}

const title = "drawbar cache entry 1";
/** A multiple of 8, so that numbers behind it can be read where they stand. */
const headBytes = 96;

export const entryName = /^(table|run|day)-[0-9a-f]{64}$/;
export const partName = /^(table|run|day)-[0-9a-f]{64}\.[0-9a-f-]{36}\.part$/;

/**
 * A folder of entries. Each is written beside its place and renamed into it, so that it is whole or absent whoever is killed
 * and however many write. Nothing that goes wrong here costs more than time; it is said through `onNote`.
 */
export function openStore(folder: string, onNote: (note: string) => void): Store {
  return {
    find(kind, key) {
      const path = join(folder, `${kind}-${key}`);
      try {
        const entry = readFileSync(path);
        const wrong = damage(entry, `${kind}-${key}`);
        if (wrong === null) {
          markUsed(path);
          return entry.subarray(headBytes);
        }
        onNote(`Cache entry ${path} is damaged (${wrong}). It is removed, and what it held is worked out again.`);
        removeQuietly(path);
      } catch (error) {
        if (codeOf(error) !== "ENOENT") onNote(`The cache in ${folder} cannot be read (${codeOf(error)}); everything is worked out anew.`);
      }
      return null;
    },
    keep(kind, key, payload) {
      const name = `${kind}-${key}`;
      const part = join(folder, `${name}.${randomUUID()}.part`);
      try {
        mkdirSync(folder, { recursive: true });
        writeFileSync(part, Buffer.concat([head(name, payload), payload]), { flag: "wx" });
        renameSync(part, join(folder, name));
      } catch (error) {
        removeQuietly(part);
        onNote(`The cache in ${folder} cannot be written (${codeOf(error)}); the next run will take as long as this one.`);
      }
    },
  };
}

/** The name is part of the sum: an entry under another's name is noticed like a changed one. */
function head(name: string, payload: Uint8Array): Uint8Array {
  const sum = createHash("sha256").update(`${name}\n`).update(payload).digest("hex");
  return Buffer.from(`${title}\n${sum}`.padEnd(headBytes - 1).concat("\n"), "latin1");
}

/** What is wrong with an entry; null = nothing. */
function damage(entry: Uint8Array, name: string): string | null {
  if (entry.length < headBytes) return `it ends after ${entry.length} bytes`;
  if (!Buffer.from(entry.subarray(0, title.length)).equals(Buffer.from(title))) return "it does not begin as an entry does";
  return Buffer.from(entry.subarray(0, headBytes)).equals(head(name, entry.subarray(headBytes))) ? null : "its checksum does not fit";
}

/** Entries unused for longest are removed first; a folder that cannot be written to keeps its times. */
function markUsed(path: string): void {
  try {
    utimesSync(path, new Date(), new Date());
  } catch {
    // Only the order of removal suffers.
  }
}

function removeQuietly(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // It stays; the next to look at it says so again.
  }
}

function codeOf(error: unknown): string {
  return (error as NodeJS.ErrnoException).code ?? String(error);
}
