import type { File } from "h5wasm";

/** The parts of the library that are used here; the types of its inner module do not resolve under this project's rules. */
export interface H5Library {
  readonly File: new (path: string, mode: "r") => File;
  readonly ready: Promise<{
    readonly FS: { writeFile(path: string, bytes: Uint8Array): void; unlink(path: string): void };
    activate_throwing_error_handler(): number;
  }>;
}

/** The memory that the library works in. */
export interface WasmMemory {
  readonly buffer: ArrayBuffer;
  grow: (pages: number) => number;
}
