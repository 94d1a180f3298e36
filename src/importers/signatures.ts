/** The first bytes of the formats, as their specifications give them; light, so that every file can be held against all of them. */

const hdf5Mark = bytesOf("\x89HDF\r\n\x1a\n");

export function isWorkbook(head: Uint8Array): boolean {
  return startsWith(head, bytesOf("PK\x03\x04")) && (includes(head, bytesOf("[Content_Types].xml")) || includes(head, bytesOf("xl/")));
}

/** Version and byte order stand at bytes 124 to 127 of the header. */
export function isMatFive(head: Uint8Array): boolean {
  if (head.length < 128) return false;
  const order = String.fromCharCode(head[126] as number, head[127] as number);
  const version = order === "IM" ? (head[125] as number) * 256 + (head[124] as number) : (head[124] as number) * 256 + (head[125] as number);
  return (order === "IM" || order === "MI") && version === 0x0100;
}

/** HDF5 behind a header of 512 bytes. */
export function isMatSevenThree(head: Uint8Array): boolean {
  return startsWith(head, bytesOf("MATLAB 7.3")) && startsWith(head.subarray(512), hdf5Mark);
}

/** The mark stands at byte 0, 512, 1024, 2048 …: what comes before is the user's. */
export function isHdf5(head: Uint8Array): boolean {
  if (startsWith(head, hdf5Mark)) return true;
  for (let at = 512; at < head.length; at *= 2) if (startsWith(head.subarray(at), hdf5Mark)) return true;
  return false;
}

export function isParquet(head: Uint8Array): boolean {
  return startsWith(head, bytesOf("PAR1"));
}

/** A file of record batches, or a stream of them, which starts with a continuation mark. */
export function isArrow(head: Uint8Array): boolean {
  return startsWith(head, bytesOf("ARROW1\0\0")) || (startsWith(head, bytesOf("\xff\xff\xff\xff")) && head.length >= 8 && (head[7] as number) === 0 && (head[4] as number) % 8 === 0);
}

export function isMcap(head: Uint8Array): boolean {
  return startsWith(head, bytesOf("\x89MCAP0\r\n"));
}

/** Formats that people may well bring and that drawbar does not read. */
export function foreignFormat(head: Uint8Array): { readonly found: string; readonly hint: string } | null {
  if (startsWith(head, bytesOf("\xd0\xcf\x11\xe0"))) return { found: "a workbook of the old kind (.xls) or one with a password", hint: "Save it as .xlsx without a password" };
  if (startsWith(head, bytesOf("PK\x03\x04"))) return { found: "a zip archive that is no workbook", hint: "Unpack it, and copy the log itself" };
  if (startsWith(head, bytesOf("\x1f\x8b"))) return { found: "a gzip archive", hint: "Unpack it, and copy the log itself" };
  if (startsWith(head, bytesOf("#ROSBAG V"))) return { found: "a ROS 1 bag", hint: "Convert it to MCAP" };
  if (startsWith(head, bytesOf("SQLite format 3\0"))) return { found: "an SQLite database, perhaps a ROS 2 bag", hint: "Convert it to MCAP, or export the log as delimited text" };
  if (isMatFour(head)) return { found: "a MAT file of version 4", hint: "Save it as version 5 (in the program that wrote it: -v6 or -v7) or 7.3" };
  return null;
}

/** Version 4 has no mark: a type of at most four digits, two sizes, a flag and the length of a name that ends with zero. */
function isMatFour(head: Uint8Array): boolean {
  if (head.length < 22) return false;
  const view = new DataView(head.buffer, head.byteOffset, head.byteLength);
  return [true, false].some((little) => {
    const [type, rows, columns, complex, nameLength] = [0, 4, 8, 12, 16].map((at) => view.getInt32(at, little)) as [number, number, number, number, number];
    const digits = String(type).padStart(4, "0");
    if (type < 0 || type > 4052 || !/^[0-4]0[0-5][0-2]$/.test(digits) || rows < 0 || columns < 0 || (complex !== 0 && complex !== 1)) return false;
    if (nameLength < 2 || nameLength > 64 || 20 + nameLength > head.length) return false;
    return head[19 + nameLength] === 0 && /^[A-Za-z]\w*$/.test(String.fromCharCode(...head.subarray(20, 19 + nameLength)));
  });
}

function bytesOf(text: string): Uint8Array {
  return Uint8Array.from(text, (character) => character.charCodeAt(0));
}

function startsWith(bytes: Uint8Array, mark: Uint8Array): boolean {
  return bytes.length >= mark.length && mark.every((byte, index) => bytes[index] === byte);
}

function includes(bytes: Uint8Array, mark: Uint8Array): boolean {
  return Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength).includes(Buffer.from(mark));
}
