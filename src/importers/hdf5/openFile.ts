import type { Dataset, Group } from "h5wasm";
import { mostUnpackedBytes } from "../../core/unpacked.ts";
import type { H5Library, WasmMemory } from "./h5Types.ts";

/** An HDF5 file in the library's own memory: it sees no other file, so links that lead outside find nothing. */
export interface OpenFile {
  readonly file: Group;
  close(): void;
}

const pageBytes = 65_536;
/** The library keeps its code, its tables and a chunk or two in here, whatever the file. */
const libraryBytes = 2 ** 26;

/** Node has it, the types of the language do not. */
const wasm = (globalThis as unknown as { readonly WebAssembly: { readonly Memory: { readonly prototype: WasmMemory } } }).WebAssembly;

/** What the library's memory may grow to for the file in hand. */
let mostBytes = Number.POSITIVE_INFINITY;
let files = 0;
let loads = 0;
let loaded: Promise<H5Library> | null = null;

/** After a fault of its own the library's memory cannot be trusted: the next file gets a fresh one. */
async function library(): Promise<H5Library> {
  if (loaded === null) {
    const fresh = loads++ === 0 ? import("h5wasm") : import(`${import.meta.resolve("h5wasm")}?fresh=${loads}`);
    loaded = fresh.then(async (module: unknown) => {
      const made = module as H5Library;
      const inner = await made.ready;
      inner.activate_throwing_error_handler();
      return made;
    });
  }
  return loaded;
}

/** @throws Error with the library's deepest reason */
export async function openFile(bytes: Uint8Array): Promise<OpenFile> {
  const { File, ready } = await library();
  const { FS } = await ready;
  const path = `/log${++files}.h5`;
  mostBytes = libraryBytes + mostUnpackedBytes(bytes.length);
  FS.writeFile(path, bytes);
  try {
    const file = plainly(() => new File(path, "r"));
    return {
      file,
      close: () => {
        try {
          plainly(() => file.close());
        } catch {
          // Damage that stops the closing has stopped the reading before, with its reason.
        }
        FS.unlink(path);
      },
    };
  } catch (error) {
    FS.unlink(path);
    throw error;
  }
}

/** The library reports its whole call stack; its last step says what is wrong with the file. */
export function plainly<T>(work: () => T): T {
  const { prototype } = wasm.Memory;
  const grow = prototype.grow;
  let refused = false;
  // A packed chunk of a few bytes can unpack to gigabytes; the library asks for memory until it gets none.
  prototype.grow = function (this: WasmMemory, pages: number): number {
    refused = this.buffer.byteLength + pages * pageBytes > mostBytes;
    if (refused) throw new RangeError("memory");
    return grow.call(this, pages);
  };
  try {
    return work();
  } catch (error) {
    // The library went on with what it had, or not: its memory is not trusted again.
    if (refused) loaded = null;
    if (refused) throw new Error(`unpacking it takes more than ${mostBytes} bytes of memory (64 MiB, and 64 MiB and 100 times the file, at most 1 GiB)`);
    const text = error instanceof Error ? error.message : String(error);
    const steps = [...text.matchAll(/in \w+\(\): (.*)/g)].map((match) => match[1] as string);
    if (steps.length === 0) loaded = null;
    throw new Error(steps.at(-1) ?? text.split("\n")[0] ?? "unknown fault");
  } finally {
    prototype.grow = grow;
  }
}

export function isGroup(object: unknown): object is Group {
  return (object as { readonly type?: unknown } | null)?.type === "Group";
}

export function isDataset(object: unknown): object is Dataset {
  return (object as { readonly type?: unknown } | null)?.type === "Dataset";
}
