import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/errors.ts";
import { inspectBytes, inspectLog } from "../../src/importers/inspectLog.ts";
import type { LogInspection } from "../../src/importers/inspectLog.ts";
import { utf16, utf8 } from "./sample.ts";

const inspect = (text: string): LogInspection => inspectBytes(utf8(text), "R07.txt");

describe("inspectLog", () => {
  it("says what a log is, with its reasons", () => {
    const text = "Run:\tR07\r\nTime\tPull\tRemark\r\n\tkN\t\r\n01.10.2026 08:00:00,000\t1,5\tstart\r\n01.10.2026 08:00:00,100\t-2,25\t\r\n01.10.2026 08:00:00,200\tOVLD\t\r\n01.10.2026 08:00:00,500\t0,5\t\r\n";
    const found = inspectBytes(utf16(text, "le"), "R07.txt");
    expect(found).toMatchObject({ file: "R07.txt", bytes: 2 * text.length + 2, encoding: "encoding UTF-16LE: byte-order mark", lineEnds: "CRLF", problems: [] });
    expect(found.readings).toHaveLength(1);
    const [reading] = found.readings;
    expect(reading).toMatchObject({ delimiter: "\t", decimal: ",", headerLine: 2, unitLine: 3, rows: 4, metadata: [["Run", "R07"]] });
    expect(reading?.columns).toEqual([
      { name: "Time", written: "Time", unit: null, kind: "text", minimum: null, maximum: null, unread: 0, examples: expect.arrayContaining(["01.10.2026 08:00:00,000"]) },
      { name: "Pull", written: "Pull", unit: "kN", kind: "number", minimum: -2.25, maximum: 1.5, unread: 1, examples: ["OVLD"] },
      { name: "Remark", written: "Remark", unit: null, kind: "text", minimum: null, maximum: null, unread: 0, examples: ["start"] },
    ]);
    expect(reading?.timeCandidates).toEqual([{ column: "Time", clock: null, why: "stamps of the layout dd.MM.yyyy HH:mm:ss,SSS: declare format: and zone:", rateHz: 10, durationS: 0.5, intervals: expect.objectContaining({ count: 3, gaps: 1, missing: 2, longest: expect.closeTo(0.3, 9) as number, backward: 0 }) as object }]);
    expect(reading?.remarks).toEqual(['R07.txt line 6, column "Pull": expected a number, found "OVLD"']);
  });

  it("proposes elapsed time only where the file gives its unit", () => {
    const [known] = inspect("t [ms],n\n0,5\n1,5\n2,7\n5,6\n").readings;
    expect(known?.timeCandidates).toEqual([{ column: "t [ms]", clock: { kind: "elapsed", column: "t", unit: "ms" }, why: "rises throughout, and its unit is ms", rateHz: 1000, durationS: 0.005, intervals: { count: 3, median: 0.001, low: expect.closeTo(0.001, 9) as number, high: expect.closeTo(0.00296, 9) as number, shortest: 0.001, longest: 0.003, jitter: expect.closeTo(0, 12) as number, gaps: 1, missing: 2, duplicates: 0, backward: 0, rollovers: 0 } }]);
    const [unknown] = inspect("t,n,m\n0.5,5,3\n1.0,5,2\n1.5,7,1\n").readings;
    expect(unknown?.timeCandidates.map(({ column, clock, rateHz }) => [column, clock, rateHz])).toEqual([["t", null, null]]);
  });

  it("a time that steps back or begins again is still shown, with what breaks it", () => {
    const rows = Array.from({ length: 40 }, (_, i) => `${(65_500 + 5 * i) % 65_536},${i}`);
    const [counter] = inspect(`t [ms],n\n${rows.join("\n")}\n`).readings;
    expect(counter?.timeCandidates.find((one) => one.column === "t [ms]")).toMatchObject({ why: "rises but for the steps named here, and its unit is ms", intervals: { median: expect.closeTo(0.005, 12) as number, rollovers: 1, backward: 0 } });
    const [forthAndBack] = inspect("t [ms],n\n1,5\n2,5\n1,7\n2,6\n").readings;
    expect(forthAndBack?.timeCandidates).toEqual([]);
  });

  it("lists every layout that the stamps allow", () => {
    const [both] = inspect("Time;F\n03/04/2026 08:00:00;2.5\n03/04/2026 08:00:01;1.5\n").readings;
    expect(both?.timeCandidates.map((one) => one.why)).toEqual([expect.stringContaining("dd/MM/yyyy HH:mm:ss (one of several"), expect.stringContaining("MM/dd/yyyy HH:mm:ss (one of several")]);
    const [one] = inspect("Time;F\n13/04/2026 08:00:00;2.5\n13/04/2026 08:00:01;1.5\n").readings;
    expect(one?.timeCandidates.map(({ why }) => why)).toEqual(["stamps of the layout dd/MM/yyyy HH:mm:ss: declare format: and zone:"]);
    const [iso] = inspect("Time;F\n2026-10-01T08:00:00Z;2.5\n2026-10-01T08:00:01Z;1.5\n").readings;
    expect(iso?.timeCandidates).toMatchObject([{ clock: { kind: "iso", column: "Time" }, rateHz: 1 }]);
    const [bare] = inspect("Time;F\n2026-10-01T08:00:00;2.5\n2026-10-01T08:00:01;1.5\n").readings;
    expect(bare?.timeCandidates).toMatchObject([{ clock: null, why: expect.stringContaining("without a zone") }]);
  });

  it("gives both readings where the bytes allow two", () => {
    const thousands = inspect("n;F\n1;1,234\n2;5,678\n");
    expect(thousands.problems).toMatchObject([{ code: "ambiguous-decimal", message: expect.stringContaining("1.234 with a decimal comma or as 1234") }]);
    expect(thousands.readings.map((one) => [one.decimal, one.columns[1]?.maximum])).toEqual([[".", null], [",", 5.678]]);
    const comma = inspect("Force,N\n1,5\n2,5\n");
    expect(comma.problems).toMatchObject([{ code: "ambiguous-delimiter" }]);
    expect(comma.readings.map((one) => [one.delimiter, one.columns.length])).toEqual([[",", 2], [null, 1]]);
  });

  it("says that there is no heading, and counts what stands wrong", () => {
    expect(inspect("0.1,1.5\n0.2,2.5\n")).toMatchObject({ readings: [], problems: [{ code: "no-heading" }] });
    const [reading] = inspect("t,F\n0.0,1.5\nt,F\n0.1\n\n0.2,2.5\n0.3,4").readings;
    expect(reading).toMatchObject({ rows: 2, remarks: ["R07.txt line 4: expected 2 cells, found 1", "1 heading line stands again among the rows, first in line 3", "blank line 5 stands among the rows", "line 7: the file ends inside this line"] });
  });

  it("refuses what is no text or cannot be opened", () => {
    const folder = mkdtempSync(join(tmpdir(), "drawbar-"));
    writeFileSync(join(folder, "a.csv"), "t,F\n0.0,1.5\n0.1,2.5\n");
    expect(inspectLog(join(folder, "a.csv")).readings[0]?.rows).toBe(2);
    expect(() => inspectLog(join(folder, "b.csv"))).toThrow("found no file of that name");
    expect(() => inspectLog(folder)).toThrow(InputError);
    expect(() => inspectBytes(Uint8Array.of(1, 0, 0, 0, 7), "x")).toThrow("found zero bytes");
    expect(() => inspectBytes(new Uint8Array(0), "x")).toThrow("empty file");
    rmSync(folder, { recursive: true });
  });
});
