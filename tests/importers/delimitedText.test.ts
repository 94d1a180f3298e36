import { describe, expect, it } from "vitest";
import { numbers, read, refusal, utf16, utf8 } from "./sample.ts";

describe("delimited text: dialects", () => {
  it.each([
    ["comma, point", "t,F\n0.0,1.5\n0.1,-2.25\n", ","],
    ["semicolon, comma", "t;F\n0,0;1,5\n0,1;-2,25\n", ";"],
    ["semicolon, point", "t;F\n0.0;1.5\n0.1;-2.25\n", ";"],
    ["tab, comma", "t\tF\n0,0\t1,5\n0,1\t-2,25\n", "\t"],
    ["bar, point", "t|F\n0.0|1.5\n0.1|-2.25\n", "|"],
    ["aligned blanks", "  t       F\n 0.0     1.5\n 0.1   -2.25 \n", " "],
    ["CRLF", "t,F\r\n0.0,1.5\r\n0.1,-2.25\r\n", ","],
    ["CR alone", "t,F\r0.0,1.5\r0.1,-2.25\r", ","],
    ["blanks after the delimiter", "t, F\n0.0, 1.5\n0.1 , -2.25 \n", ","],
    ["quoted cells, decimal comma", '"t","F"\n"0,0","1,5"\n"0,1","-2,25"\n', ","],
    ["a delimiter at every line's end", "t;F;\n0,0;1,5;\n0,1;-2,25;\n", ";"],
    ["a delimiter at the rows' end", "t;F\n0,0;1,5;\n0,1;-2,25;\n", ";"],
    ["a delimiter at the heading's end", "t;F;\n0,0;1,5\n0,1;-2,25\n", ";"],
  ])("%s", (_, text) => {
    const table = read(text);
    expect([...table.timesS]).toEqual([0, 0.1]);
    expect(numbers(table)).toEqual([1.5, -2.25]);
    expect(table.source.rowsRead).toBe(2);
    expect(table.source.rowsRefused).toBe(0);
  });

  it.each([
    ["UTF-8 with mark", utf8("\ufefft;Weg [µm]\n0,0;1,5\n0,1;2,5\n"), "UTF-8: byte-order mark"],
    ["UTF-16LE with mark", utf16("t;Weg [µm]\n0,0;1,5\n0,1;2,5\n", "le"), "UTF-16LE: byte-order mark"],
    ["UTF-16BE with mark", utf16("t;Weg [µm]\n0,0;1,5\n0,1;2,5\n", "be"), "UTF-16BE: byte-order mark"],
    ["UTF-16LE without mark", utf16("t;Weg [µm]\n0,0;1,5\n0,1;2,5\n", "le", false), "UTF-16LE: every second byte is zero"],
    ["Latin-1", new Uint8Array(Buffer.from("t;Weg [µm]\n0,0;1,5\n0,1;2,5\n", "latin1")), "Latin-1: bytes that are not valid UTF-8"],
  ])("%s", (_, bytes, evidence) => {
    const table = read(bytes, { columns: ["Weg"] });
    expect(table.columns[0]?.unit).toBe("µm");
    expect(numbers(table)).toEqual([1.5, 2.5]);
    expect(table.evidence[0]).toContain(evidence);
  });

  it("takes blanks for delimiters only where nothing else parts the columns", () => {
    const table = read("x, F\n1.5, 2\n2.5, 3\n", { clock: { kind: "rate", rateHz: 1 } });
    expect(table.evidence[1]).toContain("delimiter comma");
  });

  it("reads preamble, unit line and only the columns asked for", () => {
    const text = "Run: R07\n# Operator = nobody\nStart;12:00\n\nt;Fx;Note;Fz\ns;N;;kN\n0,0;1,5;start;2\n0,1;2,5;;3\n";
    const table = read(text, { columns: ["Fz", "Fx"] });
    expect(table.metadata).toEqual([["Run", "R07"], ["Operator", "nobody"], ["Start", "12:00"]]);
    expect(table.columns.map(({ name, unit }) => [name, unit])).toEqual([["Fz", "kN"], ["Fx", "N"]]);
    expect([numbers(table, 0), numbers(table, 1)]).toEqual([[2, 3], [1.5, 2.5]]);
    expect(table.evidence).toEqual([
      "encoding UTF-8: all bytes are valid UTF-8",
      "delimiter semicolon: 4 columns in the heading line and in 100 % of 2 rows looked at",
      'decimal comma: column "t" holds "0,0"',
      "heading line 5: the first line that names every column wanted",
      "unit line 6: names units and holds no numbers",
    ]);
    expect(table.source.format).toBe("delimited text; semicolon; decimal comma; UTF-8");
  });

  it("takes units from headings, and round brackets only around units it knows", () => {
    const table = read("t [s],F (kN),load (raw)\n0.0,1.5,7\n0.1,2.5,8\n", { columns: ["F", "load (raw)"] });
    expect(table.columns.map(({ name, unit }) => [name, unit])).toEqual([["F", "kN"], ["load (raw)", null]]);
    const aligned = read("t Fx [N]\n0.0 1.5\n0.1 2.5\n", { columns: ["Fx"] });
    expect(aligned.columns[0]?.unit).toBe("N");
  });

  it("reads the same column for time and as a channel", () => {
    const table = read("t,F\n0.0,1.5\n0.1,2.5\n", { columns: ["t", "F"], clock: { kind: "elapsed", column: "t", unit: "ms" } });
    expect(numbers(table, 0)).toEqual([0, 0.1]);
    expect([...table.timesS]).toEqual([0, 0.0001]);
    // 9 × 0.001 is 0.009000000000000001 in doubles; nine thousandths is not.
    expect([...read("t,F\n3.0,1\n9.0,2\n", { clock: { kind: "elapsed", column: "t", unit: "ms" } }).timesS]).toEqual([0.003, 0.009]);
  });

  it("counts time by rows at a fixed rate, in a file of one column", () => {
    const table = read("F\n1,5\n2,5\n3,5\n", { clock: { kind: "rate", rateHz: 10000 } });
    expect([...table.timesS]).toEqual([0, 0.0001, 0.0002]);
    expect(numbers(table)).toEqual([1.5, 2.5, 3.5]);
    expect(table.startedAt).toBeNull();
  });

  it("lets declarations win, and checks them", () => {
    expect(numbers(read("t;F\n1;1,234\n2;5,678\n", { decimal: "," }))).toEqual([1.234, 5.678]);
    expect(refusal("x\nt;F\n0;1\n1;2\n", { headerLine: 1 })[0]).toMatchObject({ code: "missing-column", at: "logs/R07.txt line 1" });
    expect(refusal("t;F\n0;1\n1;2\n", { delimiter: "," })[0]).toMatchObject({ code: "wrong-delimiter", message: "expected columns parted by comma as declared, found semicolon" });
    expect(refusal(utf16("t;F\n0;1\n", "le"), { encoding: "utf-8" })[0]?.code).toBe("wrong-encoding");
    expect(read("t;F\nsek;kraft\n0;1\n1;2\n", { unitLine: 2 }).columns[0]?.unit).toBe("kraft");
  });
});

describe("delimited text: marks and odd rows", () => {
  it("turns missing marks into NaN, and overload marks into NaN with their rows", () => {
    const table = read("t,F\n0.0,NaN\n0.1,OVLD\n0.2,#N/A\n0.3,\n0.4,4.5\n0.5,-9999.0\n", { missing: ["#N/A", "-9999"], overload: ["OVLD"] });
    expect(numbers(table)).toEqual([Number.NaN, Number.NaN, Number.NaN, Number.NaN, 4.5, Number.NaN]);
    expect(table.columns[0]?.overloaded).toEqual([1]);
  });

  it("skips and counts a head that stands again after a restart", () => {
    const table = read("Start: 12:00\nt,F\ns,N\n0.0,1.5\n0.1,2.5\nStart: 12:07\nt,F\ns,N\n7.0,3.5\n");
    expect(numbers(table)).toEqual([1.5, 2.5, 3.5]);
    expect(table.source.rowsRefused).toBe(3);
    expect(table.findings).toEqual([expect.objectContaining({ code: "repeated-heading", severity: "look", message: expect.stringContaining("first in line 6") })]);
  });

  it("refuses a restart where only the rows count the time", () => {
    expect(refusal("F\n1.5\n2.5\nF\n3.5\n", { clock: { kind: "rate", rateHz: 100 } })[0]).toMatchObject({ code: "hole-without-time", at: "logs/R07.txt line 4" });
    expect(refusal("F\n1.5\n\n3.5\n", { clock: { kind: "rate", rateHz: 100 } })[0]).toMatchObject({ code: "hole-without-time", at: "logs/R07.txt line 3" });
    expect(numbers(read("F\n1.5\n3.5\n\n\n", { clock: { kind: "rate", rateHz: 100 } }))).toEqual([1.5, 3.5]);
  });

  it.each(["0.2,3.7", "0.2,", "0.2", "0."])("does not use a last line that ends in %s", (last) => {
    const table = read(`t,F\n0.0,1.5\n0.1,2.5\n${last}`);
    expect(numbers(table)).toEqual([1.5, 2.5]);
    expect(table.source.rowsRefused).toBe(1);
    expect(table.findings[0]).toMatchObject({ code: "cut-last-line", message: expect.stringContaining("line 4") });
  });

  it("takes rows of delimiters for blank lines, and zero bytes behind the last row for a cut end", () => {
    expect(numbers(read("t;F\n0,5;1\n0,6;2\n;\n ; \n"))).toEqual([1, 2]);
    const cut = read("t;F\n0,5;1\n0,6;2\n0,7;\u0000\u0000\u0000\u0000");
    expect(numbers(cut)).toEqual([1, 2]);
    expect(cut.findings[0]?.code).toBe("cut-last-line");
  });

  it("does not use a last line that holds half a character", () => {
    const table = read(utf16("t,F\n0.0,1.5\n0.1,2.5\n0.2,3.5\n", "le").slice(0, -1));
    expect(table.source).toMatchObject({ rowsRead: 2, rowsRefused: 1 });
    expect(read(utf8("t,F\n0.0,1.5\n0.1,2.5\nµ").slice(0, -1)).evidence[0]).toBe("encoding UTF-8: all bytes are valid UTF-8");
  });

  it("finds the encoding and the line's end in a file longer than one piece of the decoder", () => {
    const rows = Array.from({ length: 300_000 }, (_, i) => `${i};${i % 7},5\n`).join("");
    const table = read(utf16(`t;F [µm]\n${rows}`, "be"));
    expect(table.source.rowsRead).toBe(300_000);
    expect([table.timesS[299_999], table.columns[0]?.samples[299_999], table.columns[0]?.unit]).toEqual([299_999, (299_999 % 7) + 0.5, "µm"]);
  });

  it("keeps rows and reads text in columns nobody asked for", () => {
    expect(numbers(read('t,remark,F\n0.0,"a, b",1.5\n0.1,c "d" e,2.5\n'))).toEqual([1.5, 2.5]);
  });

  it("does not fall over constant or backward time", () => {
    expect([...read("t,F\n5.0,1\n5.0,2\n4.0,3\n").timesS]).toEqual([5, 5, 4]);
  });
});
