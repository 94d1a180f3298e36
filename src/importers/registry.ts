import type { Importer } from "./contract.ts";
import { delimitedText } from "./delimitedText.ts";

/** Every format drawbar reads; the first that recognises a file reads it. Delimited text recognises any text, so it comes last. */
export const importers: readonly Importer[] = [delimitedText];

export function importerFor(head: Uint8Array, fileName: string): Importer | undefined {
  return importers.find((importer) => importer.sniff(head, fileName));
}
