import { unzipSync, zipSync } from "fflate";
import type { Random } from "../../src/numerics/random.ts";
import { extremes, hostileNames, pick } from "./hostile.ts";
import { spoilBytes } from "./spoilBytes.ts";
import type { Spoil } from "./spoilBytes.ts";
import { onText } from "./spoilText.ts";

const escaped = (text: string): string => text.replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ud800-\udfff\ufffe\uffff]/g, "").replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll('"', "&quot;");

/** Changes one part of the archive and packs it again, so that the damage passes the checksums. */
function inside(change: Spoil, parts: RegExp = /\.(xml|rels)$/): Spoil {
  return (bytes, random) => {
    const entries = unzipSync(bytes);
    const name = pick(Object.keys(entries).filter((entry) => parts.test(entry)), random);
    return zipSync({ ...entries, [name]: change(entries[name] as Uint8Array, random) }, { level: 1 });
  };
}

const sheet = /worksheets\/sheet\d+\.xml$/;
const atOne = (pattern: RegExp, made: (random: Random) => string): Spoil =>
  onText((text, random) => {
    let left = random.integer((text.match(pattern) ?? []).length + 1);
    return text.replace(pattern, (whole) => (--left === 0 ? made(random) : whole));
  });
const intoSheet = (made: (random: Random) => string): Spoil => inside(onText((text, random) => text.replace("</sheetData>", `${made(random)}</sheetData>`)), sheet);

/** What stands inside a workbook may be anything too. */
export const spoilWorkbook: Readonly<Record<string, Spoil>> = {
  "part damaged": (bytes, random) => inside(pick(Object.values(spoilBytes), random))(bytes, random),
  "part missing": (bytes, random) => {
    const entries = unzipSync(bytes);
    delete entries[pick(Object.keys(entries), random)];
    return zipSync(entries, { level: 1 });
  },
  "odd attribute": inside(atOne(/="[^"]*"/g, (random) => `="${escaped(pick([...extremes, ...hostileNames, "A1:XFD1048576", "XFD1048576", "ZZZ1", "A0", "s", "e", "d", "inlineStr"], random))}"`)),
  "odd text": inside(atOne(/>[^<]+</g, (random) => `>${escaped(pick([...extremes, ...hostileNames], random))}<`)),
  "odd element": inside(atOne(/<\w+/g, (random) => pick(["<row", "<c", "<v", "<t", "<si", "<mergeCell", "<sheetData", "<rPh", "<f"], random))),
  "entities": inside(onText((text) => text.replace(/\?>/, `?><!DOCTYPE x [${Array.from({ length: 12 }, (_, n) => `<!ENTITY e${n} "${(n === 0 ? "x" : `&e${n - 1};`).repeat(10)}">`).join("")}]>`).replace(/>([^<]+)</, ">&e11;<"))),
  "padding bomb": inside(onText((text, random) => text + " ".repeat(random.integer(300_000_000)))),
  "bomb of cells": intoSheet((random) => `<row r="100000">${"<c><v>1</v></c>".repeat(random.integer(16_000))}</row>`.concat(`<row>${"<c><v>1</v></c>".repeat(100)}</row>`.repeat(random.integer(20_000)))),
  "far cell": intoSheet(() => '<row r="1048576"><c r="XFD1048576"><v>1</v></c></row>'),
  "bomb of rows": intoSheet((random) => "<row/>".repeat(random.integer(2_000_000))),
  "deep elements": inside(onText((text, random) => text.replace(/<\/\w+>\s*$/, (end) => `${"<a>".repeat(1 + random.integer(300_000))}${end}`))),
  "huge merges": inside(onText((text, random) => text.replace("</sheetData>", `</sheetData><mergeCells>${'<mergeCell ref="A1:XFD1048576"/><mergeCell ref="C1:C1048576"/>'.repeat(1 + random.integer(2000))}</mergeCells>`)), sheet),
  "hidden columns": inside(onText((text, random) => text.replace("<sheetData>", `<cols>${'<col min="1" max="16384" hidden="1"/>'.repeat(1 + random.integer(1000))}</cols><sheetData>`)), sheet),
  "many sheets": inside(onText((text, random) => text.replace(/<sheet .*?\/>/, (one) => one.repeat(1 + random.integer(2000)))), /workbook\.xml$/),
};
