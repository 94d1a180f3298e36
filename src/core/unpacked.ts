const always = 2 ** 26;
const perByte = 100;
const never = 2 ** 30;

/** Bytes that a packed file may unpack to: measured data pack to a tenth; a few kilobytes that unpack to gigabytes are an attack or damage. */
export function mostUnpackedBytes(fileBytes: number): number {
  return Math.min(never, always + perByte * fileBytes);
}

/** Bytes that the columns asked of a file may fill. A large file of plain numbers fills more than a packed one may unpack to. */
export function mostColumnBytes(fileBytes: number): number {
  return Math.max(mostUnpackedBytes(fileBytes), 24 * fileBytes);
}
