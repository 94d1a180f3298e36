import { File, ready } from "h5wasm";
import type { H5Module } from "./h5Types.ts";

let files = 0;

/** An HDF5 file in the library's own memory: it sees no other file, so links that lead outside find nothing. */
export interface OpenFile {
  readonly file: File;
  close(): void;
}

/** @throws Error with the library's deepest reason */
export async function openFile(bytes: Uint8Array): Promise<OpenFile> {
  const library = (await ready) as unknown as H5Module;
  library.activate_throwing_error_handler();
  const path = `/log${++files}.h5`;
  library.FS.writeFile(path, bytes);
  try {
    const file = plainly(() => new File(path, "r"));
    return {
      file,
      close: () => {
        try {
          file.close();
        } catch {
          // Damage that stops the closing has stopped the reading before, with its reason.
        }
        library.FS.unlink(path);
      },
    };
  } catch (error) {
    library.FS.unlink(path);
    throw error;
  }
}

/** The library reports its whole call stack; its last step says what is wrong with the file. */
export function plainly<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    const text = error instanceof Error ? error.message : String(error);
    const steps = [...text.matchAll(/in \w+\(\): (.*)/g)].map((match) => match[1] as string);
    throw new Error(steps.at(-1) ?? text.split("\n")[0] ?? "unknown fault");
  }
}
