import { createHash } from "node:crypto";
import { closeSync, openSync, read, readSync } from "node:fs";

/** SHA-256 of an open file, read a piece at a time beside other work, for as long as it is wanted. */
export async function fileHash(fd: number, size: number, unwanted: AbortSignal): Promise<string> {
  const hash = createHash("sha256");
  const buffer = Buffer.allocUnsafe(1 << 20);
  for (let at = 0; at < size && !unwanted.aborted; ) {
    const got = await new Promise<number>((resolve, reject) => read(fd, buffer, 0, buffer.length, at, (error, bytes) => (error === null ? resolve(bytes) : reject(error))));
    if (got === 0) break;
    hash.update(buffer.subarray(0, got));
    at += got;
  }
  return hash.digest("hex");
}

/** The same at once, whatever the file's size. */
export function hashOfFile(path: string): string {
  const hash = createHash("sha256");
  const buffer = Buffer.allocUnsafe(1 << 20);
  const fd = openSync(path, "r");
  try {
    for (let got = readSync(fd, buffer); got > 0; got = readSync(fd, buffer)) hash.update(buffer.subarray(0, got));
  } finally {
    closeSync(fd);
  }
  return hash.digest("hex");
}
