import { readSheetXml } from "./sheetXml.ts";
import type { Merge, WorkbookRow } from "./sheetXml.ts";
import { shownAs } from "./numberFormats.ts";
import type { Shown } from "./numberFormats.ts";
import { readXml } from "./xml.ts";
import { openZip } from "./zip.ts";
import type { Zip } from "./zip.ts";

export interface WorkbookSheet {
  readonly name: string;
  readonly hidden: boolean;
  /** rows that hold anything, by rising number */
  readonly rows: readonly WorkbookRow[];
  readonly merges: readonly Merge[];
  /** hidden columns, counted from 0 */
  readonly hiddenColumns: readonly number[];
}

/** An XLSX workbook: every sheet's cells, nothing interpreted but how a number is shown. */
export interface Workbook {
  readonly sheets: readonly WorkbookSheet[];
  readonly from1904: boolean;
}

/** @throws Error where the bytes do not hold together */
export function readWorkbook(bytes: Uint8Array): Workbook {
  const zip = openZip(bytes);
  const book = officeDocument(zip);
  const links = relations(zip, book);
  const target = (kind: string): string | undefined => [...links.values()].find((link) => link.type.endsWith(`/${kind}`))?.target;
  const strings = optional(zip, target("sharedStrings"), readStrings) ?? [];
  const formats = optional(zip, target("styles"), readFormats) ?? [];
  const listed: { name: string; hidden: boolean; id: string }[] = [];
  let from1904 = false;
  readXml(zip.entry(book), {
    open(name, attributes) {
      if (name === "workbookPr") from1904 = ["1", "true"].includes(attributes["date1904"] ?? "");
      if (name === "sheet") listed.push({ name: attributes["name"] ?? "", hidden: (attributes["state"] ?? "visible") !== "visible", id: Object.entries(attributes).find(([key]) => key.endsWith(":id"))?.[1] ?? "" });
    },
  });
  const sheets = listed.flatMap(({ id, ...sheet }): WorkbookSheet[] => {
    const link = links.get(id);
    // Charts have sheets of their own that hold no cells.
    return link === undefined || !link.type.endsWith("/worksheet") ? [] : [{ ...sheet, ...readSheetXml(zip.entry(link.target), strings, formats, from1904) }];
  });
  return { sheets, from1904 };
}

function officeDocument(zip: Zip): string {
  const link = [...relations(zip, "").values()].find(({ type }) => type.endsWith("/officeDocument"));
  if (link === undefined) throw new Error("the archive names no workbook");
  return link.target;
}

/** What a part of the archive points at, by id. */
function relations(zip: Zip, part: string): Map<string, { readonly type: string; readonly target: string }> {
  const slash = part.lastIndexOf("/");
  const folder = part.slice(0, slash + 1);
  const found = new Map<string, { type: string; target: string }>();
  readXml(zip.entry(`${folder}_rels/${part.slice(slash + 1)}.rels`), {
    open(name, attributes) {
      if (name !== "Relationship" || attributes["TargetMode"] === "External") return;
      const target = attributes["Target"] ?? "";
      found.set(attributes["Id"] ?? "", { type: attributes["Type"] ?? "", target: target.startsWith("/") ? target.slice(1) : folder + target });
    },
  });
  return found;
}

function optional<T>(zip: Zip, name: string | undefined, read: (bytes: Uint8Array) => T): T | null {
  return name === undefined || !zip.names.includes(name) ? null : read(zip.entry(name));
}

function readStrings(bytes: Uint8Array): string[] {
  const strings: string[] = [];
  let inText = false;
  let phonetic = 0;
  readXml(bytes, {
    open(name) {
      if (name === "si") strings.push("");
      if (name === "rPh") phonetic++;
      inText = name === "t" && phonetic === 0;
    },
    text(text) {
      if (inText) strings[strings.length - 1] += text;
    },
    close(name) {
      if (name === "rPh") phonetic--;
      inText = false;
    },
  });
  return strings;
}

/** How each cell style shows a number. */
function readFormats(bytes: Uint8Array): Shown[] {
  const codes = new Map<number, string>();
  const formats: Shown[] = [];
  let inCells = false;
  readXml(bytes, {
    open(name, attributes) {
      if (name === "numFmt") codes.set(Number(attributes["numFmtId"]), attributes["formatCode"] ?? "");
      if (name === "cellXfs") inCells = true;
      if (name === "xf" && inCells) {
        const id = Number(attributes["numFmtId"] ?? "0");
        formats.push(shownAs(id, codes.get(id) ?? null));
      }
    },
    close(name) {
      if (name === "cellXfs") inCells = false;
    },
  });
  return formats;
}
