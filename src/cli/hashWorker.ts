import { sha256Of } from "./cache/sha256Of.ts";

/** Body of a thread that only looks whether files have changed: what they are named by, null where they cannot be read. */
export default function hashTask({ folder, paths }: { readonly folder: string; readonly paths: readonly string[] }): (string | null)[] {
  return paths.map((path) => sha256Of(folder, path));
}
