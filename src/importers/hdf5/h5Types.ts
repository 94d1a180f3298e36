/** The parts of the library's inner module that are used here; its own types do not resolve under this project's rules. */
export interface H5Module {
  readonly FS: { writeFile(path: string, bytes: Uint8Array): void; unlink(path: string): void };
  activate_throwing_error_handler(): number;
}
