import type { Random } from "../../src/numerics/random.ts";
import { extremes, hostileNames, pick } from "./hostile.ts";
import type { Spoil } from "./spoilBytes.ts";

/** Changes the text; bytes that are no UTF-8 stay what they are. */
export function onText(change: (text: string, random: Random) => string): Spoil {
  return (bytes, random) => {
    const wide = bytes.includes(0);
    const text = Buffer.from(bytes).toString(wide ? "utf16le" : "utf8");
    return new Uint8Array(Buffer.from(change(text, random), wide ? "utf16le" : "utf8"));
  };
}

const atLine = (change: (line: string, random: Random) => string): Spoil =>
  onText((text, random) => {
    const lines = text.split("\n");
    const at = random.integer(3) === 0 ? 0 : random.integer(lines.length);
    lines[at] = change(lines[at] as string, random);
    return lines.join("\n");
  });

/** One cell of one line, or several. */
const atCell = (cellOf: (random: Random) => string, most = 1): Spoil =>
  atLine((line, random) => {
    const cells = line.split(/([,;\t])/);
    for (let n = random.integer(most); n >= 0; n--) cells[2 * random.integer(Math.ceil(cells.length / 2))] = cellOf(random);
    return cells.join("");
  });

/** Few lines are made so wide, or a long table becomes one that no memory holds. */
const wide = 100_000;

/** What text tables suffer. */
export const spoilText: Readonly<Record<string, Spoil>> = {
  "hostile name": atCell((random) => pick(hostileNames, random), 3),
  "quoted hostile name": atCell((random) => `"${pick(hostileNames, random).replaceAll('"', '""')}"`, 3),
  "extreme number": atCell((random) => pick(extremes, random), 4),
  "huge cell": atCell((random) => pick(["9", "x", "<", " ", "é", '"', "[", "-"], random).repeat(1 + random.integer(2_000_000))),
  "open quotation mark": atLine((line, random) => line.slice(0, random.integer(line.length + 1)) + '"' + line.slice(random.integer(line.length + 1))),
  "100,000 columns": onText((text, random) => {
    const mark = pick([",", ";", "\t"], random);
    const lines = text.split("\n");
    const name = pick(["", "x", "c#", "9"], random);
    return lines.map((line, index) => (index < 4 || (index < 100 && random.integer(20) === 0) ? line + Array.from({ length: wide }, (_, at) => mark + name.replace("#", String(at))).join("") : line)).join("\n");
  }),
  "100,000 lines": onText((text, random) => `${text}${`${pick(text.split("\n"), random)}\n`.repeat(100_000)}`),
  "no line ends": onText((text) => text.replace(/[\r\n]/g, "")),
  "other line ends": onText((text, random) => text.replaceAll("\n", pick(["\r", "\r\n", "\n\n", "\u2028", "\u0085"], random))),
  "NUL bytes": onText((text, random) => text.replaceAll(pick([",", "\n", "1", " "], random), "\0")),
  "delimiters": onText((text, random) => text.replaceAll(pick([",", ";", "\t"], random), pick([",", ";", "\t", "|", " ", ",,", '"'], random))),
  "decimal commas": onText((text) => text.replace(/(\d)\.(\d)/g, "$1,$2")),
  "lines shuffled": onText((text, random) => {
    const lines = text.split("\n");
    for (let n = 0; n < 20; n++) lines.push(...lines.splice(random.integer(lines.length), 1));
    return lines.join("\n");
  }),
  "cells emptied": onText((text, random) => text.replace(/[^,;\t\n]+/g, (cell) => (random.integer(4) === 0 ? "" : cell))),
  "byte-order mark": (bytes, random) => new Uint8Array(Buffer.concat([Uint8Array.from(pick([[0xff, 0xfe], [0xfe, 0xff], [0xef, 0xbb, 0xbf]], random)), bytes])),
  "sep line": onText((text, random) => `sep=${pick([";", '"', "\n", "a", "\\", "😀"], random)}\n${text}`),
};
