import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { InputError, showIssue } from "../../src/core/errors.ts";
import { readLog } from "../../src/importers/readLog.ts";
import { numbers, plain, read, refusal } from "./sample.ts";

describe("a log that cannot be used", () => {
  it.each([
    ["an empty file", "", "empty-file"],
    ["a byte-order mark alone", "\ufeff", "no-heading"],
    ["blank lines alone", "\n\n\n", "no-heading"],
    ["headings alone", "t,F\n", "no-rows"],
    ["headings alone, cut", "t,F", "no-rows"],
    ["one row", "t,F\n0.0,1.5\n", "one-row"],
    ["one row and a cut one", "t,F\n0.0,1.5\n0.1,2", "one-row"],
    ["no headings", "0.0,1.5\n0.1,2.5\n", "no-heading"],
    ["another log", "t,G\n0.0,1.5\n0.1,2.5\n", "missing-column"],
    ["a heading twice", "t,F [N],F [kN]\n0.0,1.5,1\n0.1,2.5,1\n", "duplicate-column"],
    ["zero bytes", "t,F\n\u0000\u0000\u0000,1\n", "unknown-format"],
    ["no time in a row", "t,F\n0.0,1.5\n,2.5\n0.2,3.5\n", "unreadable-time"],
    ["the comma as delimiter and decimal mark", "t,F\n0,0,1,5\n0,1,2,5\n", "ambiguous-decimal"],
    ["infinity", "t,F\n0.0,Inf\n0.1,-inf\n", "text-in-number"],
    ["a number too large for a double", "t,F\n0.0,1e999\n0.1,1\n", "text-in-number"],
    ["hexadecimal", "t,F\n0.0,0x10\n0.1,1\n", "text-in-number"],
    ["two signs", "t,F\n0.0,--1\n0.1,1\n", "text-in-number"],
    ["thousands marks", "t;F\n0,5;1.234,5\n0,6;1\n", "thousands-separator"],
  ])("%s", (_, text, code) => {
    expect(refusal(text)[0]?.code).toBe(code);
  });

  it("names file, line and column, what it expected and found, and what to do", () => {
    const issues = refusal("t,pull\n0.0,1.5\n0.1,OVLD\n0.2,2.5\n", { columns: ["pull"] });
    expect(issues.map(showIssue)).toEqual(['logs/R07.txt line 3, column "pull": expected a number, found "OVLD". Declare it as a missing or overload mark in rig.yaml, or repair the log']);
  });

  it("tells to declare the decimal mark where a later row shows another", () => {
    const rows = Array.from({ length: 300 }, (_, i) => `${i};0\n`).join("");
    expect(refusal(`t;F\n${rows}300;1,5\n`)).toMatchObject([{ at: 'logs/R07.txt line 302, column "F"', message: 'expected a number, found "1,5"', hint: expect.stringContaining("decimal:") }]);
  });

  it("lists the columns it found", () => {
    expect(refusal("t,G [N]\n0.0,1.5\n0.1,2.5\n")).toEqual([{ code: "missing-column", at: "logs/R07.txt line 1", message: 'expected a column "F", found "t", "G [N]"', hint: expect.any(String) }]);
  });

  it("names the line of a row with too few or too many cells", () => {
    const issues = refusal("t,F\n0.0,1.5\n0.1\n0.2,2.5,7\n0.3,3.5\n0.4,1\n");
    expect(issues.map(({ code, at, message }) => [code, at, message])).toEqual([
      ["cells", "logs/R07.txt line 3", "expected 2 cells, found 1"],
      ["cells", "logs/R07.txt line 4", "expected 2 cells, found 3"],
    ]);
  });

  it("shows the first twenty faults and counts the rest", () => {
    const rows = Array.from({ length: 100 }, (_, i) => `${i}.0,x${i}\n`).join("");
    const issues = refusal(`t,F\n${rows}`);
    expect(issues).toHaveLength(21);
    expect(issues[20]?.message).toContain("80 more");
  });

  it("shows hostile names as they are, on one line, and cuts long cells", () => {
    const found = refusal('t,<script>alert(1)</script>,"=cmd()"\n0.0,1.5,2\n0.1,2.5,3\n')[0];
    expect(found?.message).toBe('expected a column "F", found "t", "<script>alert(1)</script>", "=cmd()"');
    expect(numbers(read("t,=F\n0.0,1.5\n0.1,2.5\n", { columns: ["=F"] }))).toEqual([1.5, 2.5]);
    expect(refusal(`t,F\n0.0,${"x".repeat(500)}\n0.1,1\n`)[0]?.message.length).toBeLessThan(80);
  });
});

describe("ambiguity is refused with both readings", () => {
  it("three digits after every mark", () => {
    const [issue] = refusal("t;F\n1;1,234\n2;5,678\n");
    expect(issue?.code).toBe("ambiguous-decimal");
    expect(issue?.message).toContain("1.234 with a decimal comma or as 1234 with a thousands comma");
    expect(issue?.hint).toContain("decimal:");
  });

  it("marks that contradict each other", () => {
    expect(refusal("t;F;G\n1;1,5;2.5\n2;2,5;3.5\n", { columns: ["F", "G"] })[0]?.code).toBe("ambiguous-decimal");
  });

  it("two delimiters under which the wanted columns stand", () => {
    expect(refusal("F\tb|F\n1\t2|3\n2\t3|4\n", { clock: { kind: "rate", rateHz: 1 } })[0]?.code).toBe("ambiguous-delimiter");
  });

  it("but one telling cell anywhere decides", () => {
    expect(numbers(read("t;F\n0,5;1,234\n1,0;5,678\n"))).toEqual([1.234, 5.678]);
    expect(numbers(read("t;F;G\n1;1,234;0,5\n2;5,678;1\n"))).toEqual([1.234, 5.678]);
    expect(numbers(read("t,F\n1,1.234\n2,5.678\n"))).toEqual([1.234, 5.678]);
  });
});

describe("readLog", () => {
  const root = mkdtempSync(join(tmpdir(), "drawbar-"));
  const day = join(root, "day");
  mkdirSync(join(day, "logs"), { recursive: true });
  writeFileSync(join(root, "secret.csv"), "t,F\n0.0,1.5\n0.1,2.5\n");
  writeFileSync(join(day, "logs", "R07.csv"), "t,F\n0.0,1.5\n0.1,2.5\n");
  symlinkSync(join(root, "secret.csv"), join(day, "logs", "link.csv"));
  symlinkSync(join(day, "logs", "R07.csv"), join(day, "inside.csv"));
  afterAll(() => rmSync(root, { recursive: true }));

  const codeOf = async (path: string): Promise<string> => {
    try {
      await readLog(day, path, plain);
    } catch (error) {
      if (error instanceof InputError) return error.issues[0]?.code ?? "";
      throw error;
    }
    return "read";
  };

  it("reads a file of the day folder, links within it included", async () => {
    expect((await readLog(day, "logs/R07.csv", plain)).source).toMatchObject({ file: "logs/R07.csv", bytes: 20, rowsRead: 2, rowsRefused: 0 });
    expect(await codeOf("inside.csv")).toBe("read");
  });

  it.each([
    ["../secret.csv", "outside-folder"],
    ["logs/../../secret.csv", "outside-folder"],
    [join(root, "secret.csv"), "outside-folder"],
    ["../nothing.csv", "outside-folder"],
    [join(day, "logs", "R07.csv"), "outside-folder"],
    ["logs/link.csv", "outside-folder"],
    [".", "outside-folder"],
    ["logs", "not-a-file"],
    ["logs/R08.csv", "missing-file"],
    ["logs/R07.csv/x", "missing-file"],
    ["logs/R07\u0000.csv", "unreadable-file"],
  ])("refuses %s as %s", async (path, code) => {
    expect(await codeOf(path)).toBe(code);
  });
});
