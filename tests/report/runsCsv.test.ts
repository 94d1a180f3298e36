import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cell, runsCsv } from "../../src/report/runsCsv.ts";
import { formulaName, hostileName, sampleDay } from "./sampleDay.ts";

/** A reader of its own, by the rules of RFC 4180, so that the writer is not checked by its own idea. */
function parse(text: string): string[][] {
  const rows: string[][] = [[]];
  let value = "";
  let quoted = false;
  for (let i = 0; i < text.length; i++) {
    const letter = text[i];
    if (quoted) {
      if (letter === '"' && text[i + 1] === '"') [value, i] = [`${value}"`, i + 1];
      else if (letter === '"') quoted = false;
      else value += letter;
    } else if (letter === '"') quoted = true;
    else if (letter === ",") [rows.at(-1)?.push(value), (value = "")];
    else if (letter === "\r" && text[i + 1] === "\n") {
      rows.at(-1)?.push(value);
      value = "";
      i++;
      if (i + 1 < text.length) rows.push([]);
    } else value += letter;
  }
  return rows;
}

describe("runs.csv", { timeout: 30_000 }, () => {
  const text = runsCsv(sampleDay());
  const [header, ...rows] = parse(text.slice(1)) as [string[], ...string[][]];
  const of = (run: string, column: string): string | undefined => rows.find((row) => row[0] === run)?.[header.indexOf(column)];
  it("starts with a byte-order mark, ends rows with CRLF, and has as many cells in each", () => {
    expect(text.charCodeAt(0)).toBe(0xfeff);
    expect(text.endsWith("\r\n")).toBe(true);
    expect(rows).toHaveLength(sampleDay().runs.length);
    for (const row of rows) expect(row).toHaveLength(header.length);
  });
  it("gives every measure a value and a standard uncertainty column with its unit", () => {
    expect(header).toContain("pullCoefficient [1]");
    expect(header).toContain("u(pullCoefficient) [1]");
    expect(header.indexOf("u(peakAcceleration) [m/s2]")).toBe(header.indexOf("peakAcceleration [m/s2]") + 1);
    expect(Number(of("T1", "slip [1]"))).toBe(0.05);
    expect(Number(of("T1", "u(slip) [1]"))).toBe(0.004);
  });
  it("leaves a cell empty where the value is not determined, even if a best value exists", () => {
    expect(of("T1", "tractiveEfficiency [1]")).toBe("");
    expect(of("T5", "sinkageRunning [m]")).toBe("");
  });
  it("keeps what people typed from becoming a formula", () => {
    expect(of(`'${formulaName}`, "verdict")).toBe("excluded");
    expect(of(`'${formulaName}`, "reasons")).toBe("'+the belt tore");
    expect(of(`'${formulaName}`, "remark")).toBe("'@cell");
    expect(of(`'${formulaName}`, "wheel")).toBe(hostileName);
    expect(of("U1", "remark")).toBe("'-2 is what he said");
  });
  it("lets no text through whose first visible letter starts a formula, unless it is a plain number", () => {
    const starts = fc.constantFrom("", " ", "\t", "\r", "\n", "\u00a0", "\ufeff");
    const signs = fc.constantFrom("=", "+", "-", "@", "\t", "|", "%", "\uff1d");
    fc.assert(
      fc.property(starts, signs, fc.string(), (start, sign, rest) => {
        const written = `${start}${sign}${rest}`;
        const [[read]] = parse(`${cell(written)}\r\n`) as [[string]];
        expect(read === `'${written}` || /^[+-]?\d+(\.\d+)?([eE][+-]?\d+)?$/.test(read)).toBe(true);
      }),
    );
  });
  it("reads back what was written", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary" }), (value) => {
        const [[read]] = parse(`${cell(value)}\r\n`) as [[string]];
        expect([value, `'${value}`]).toContain(read);
      }),
    );
    expect(cell("-12.5e-3")).toBe("-12.5e-3");
    expect(cell(Number.NaN)).toBe("");
    expect(cell('say "no", now')).toBe('"say ""no"", now"');
  });
});
