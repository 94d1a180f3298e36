import type { FileMetaData, RowGroup } from "hyparquet";
import { parquetHeader } from "hyparquet/src/column.js";
import { mostColumnBytes } from "../../core/unpacked.ts";

/** A page that unpacks to more is damaged or hostile. */
export const mostPageBytes = 2 ** 28;

/**
 * Holds what the pages of a column say of themselves against the rows that the file states, before the library makes room for them.
 * @throws Error where they hold more values than rows, or unpack too far
 */
export function checkPages(bytes: Uint8Array, metadata: FileMetaData, name: string): void {
  const most = mostColumnBytes(bytes.length);
  let unpacked = 0;
  for (const group of metadata.row_groups) {
    for (const pageBytes of pagesOf(bytes, group, name)) {
      unpacked += pageBytes;
      if (unpacked > most) throw new Error(`column "${name.slice(0, 60)}" unpacks to ${unpacked} bytes or more, and may to ${most}`);
    }
  }
}

/** Unpacked sizes of the pages from the first on, as far as their values fill the group's rows: the library reads no further. */
function* pagesOf(bytes: Uint8Array, group: RowGroup, name: string): Generator<number> {
  const rows = Number(group.num_rows);
  const damaged = (what: string): Error => new Error(`column "${name.slice(0, 60)}": ${what}`);
  for (const { meta_data: chunk } of group.columns) {
    if (chunk === undefined || chunk.path_in_schema[0] !== name) continue;
    const start = Number(chunk.dictionary_page_offset || chunk.data_page_offset);
    const size = Number(chunk.total_compressed_size);
    if (!(start >= 0 && size >= 0 && start + size <= bytes.length)) throw damaged(`${size} bytes from ${start} on, in a file of ${bytes.length}`);
    const reader = { view: new DataView(bytes.buffer, bytes.byteOffset + start, size), offset: 0 };
    for (let values = 0; values < rows && reader.offset < size - 1; ) {
      const header = parquetHeader(reader);
      const { uncompressed_page_size: unpackedBytes, compressed_page_size: packedBytes } = header;
      const own = header.data_page_header?.num_values ?? header.data_page_header_v2?.num_values ?? 0;
      const entries = header.dictionary_page_header?.num_values ?? 0;
      if (!(unpackedBytes >= 0 && packedBytes >= 0)) throw damaged(`a page of ${packedBytes} bytes that unpacks to ${unpackedBytes}`);
      values += own;
      if (!(own >= 0) || values > rows) throw damaged(`pages with ${values} values or more for ${rows} rows`);
      // Even a switch takes a bit.
      if (!(entries >= 0) || entries > 8 * unpackedBytes) throw damaged(`a dictionary of ${entries} entries in ${unpackedBytes} bytes`);
      yield unpackedBytes;
      reader.offset += packedBytes;
    }
  }
}
