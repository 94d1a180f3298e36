import { createHash } from "node:crypto";
import { closeSync, openSync, readSync } from "node:fs";
import { join } from "node:path";

const pieceBytes = 2 ** 22;

/** What a file of the day is named by; null when it is not there or cannot be read. Of any size: it is read piece by piece. */
export function sha256Of(folder: string, path: string): string | null {
  let file: number | null = null;
  try {
    file = openSync(join(folder, path), "r");
    const hash = createHash("sha256");
    const piece = Buffer.allocUnsafe(pieceBytes);
    for (let read = readSync(file, piece); read > 0; read = readSync(file, piece)) hash.update(piece.subarray(0, read));
    return hash.digest("hex");
  } catch {
    return null;
  } finally {
    if (file !== null) closeSync(file);
  }
}
