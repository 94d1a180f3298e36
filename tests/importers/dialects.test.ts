import { describe, expect, it } from "vitest";
import type { ReadOptions } from "../../src/importers/contract.ts";
import { ungrouped } from "../../src/importers/thousands.ts";
import { numbers, read, refusal, utf16 } from "./sample.ts";

const rate: Pick<ReadOptions, "clock"> = { clock: { kind: "rate", rateHz: 100 } };
const messages = (text: string, options: Partial<ReadOptions>): string[] => refusal(text, options).map(({ code, at, message }) => `${code} | ${at} | ${message}`);

describe("logs without a heading line", () => {
  const declared: Partial<ReadOptions> = { headerLine: 0, columns: ["#2"], clock: { kind: "elapsed", column: "#1", unit: "s" } };

  it("have their columns told by place", () => {
    const table = read("0.0;1,5\n0.1;2,5\n".replaceAll(".", ","), { ...declared, delimiter: ";" });
    expect([[...table.timesS], numbers(table)]).toEqual([[0, 0.1], [1.5, 2.5]]);
    expect(table.columns[0]).toMatchObject({ name: "#2", unit: null });
    expect(table.evidence).toContain("no heading line, as declared: 2 columns, #1 to #2");
    expect(numbers(read("0.0\t1.5\t\n0.1\t2.5\t\n", declared))).toEqual([1.5, 2.5]);
    expect(read("s,N\n0.0,1.5\n0.1,2.5\n", { ...declared, unitLine: 1 }).columns[0]?.unit).toBe("N");
  });

  it("are refused where a heading stands all the same, a place is missing, or nothing was declared", () => {
    expect(messages("t,F\n0.0,1.5\n0.1,2.5\n", declared)).toEqual(['text-in-number | logs/R07.txt line 1, column "#1" | expected a number, found "t"', 'text-in-number | logs/R07.txt line 1, column "#2" | expected a number, found "F"']);
    expect(messages("0.0,1.5\n0.1,2.5\n", { ...declared, columns: ["#3"] })).toEqual(['missing-column | logs/R07.txt | expected a column "#3", found "#1", "#2"']);
    expect(refusal("0.0,1.5\n0.1,2.5\n")[0]?.hint).toContain("headerLine: 0");
    expect(messages("0,1;1,5\n0,2;2,5\n", declared)[0]).toContain("expected one way to part the columns, found semicolon");
  });
});

describe("date and time in two columns", () => {
  const clock: ReadOptions["clock"] = { kind: "wall", dateColumn: "Date", dateFormat: "dd.MM.yyyy", column: "Time", format: "HH:mm:ss,SSS", zone: "Europe/Oslo" };

  it.each([
    ["date first", "Date;Time;F\n01.10.2026;23:59:59,500;1\n01.10.2026;23:59:59,750;2\n02.10.2026;00:00:00,250;3\n"],
    ["time first", "Time;F;Date\n23:59:59,500;1;01.10.2026\n23:59:59,750;2;01.10.2026\n00:00:00,250;3;02.10.2026\n"],
    ["quoted", 'Date;x;Time;F\n"01.10.2026";a;"23:59:59,500";1\n"01.10.2026";b;"23:59:59,750";2\n"02.10.2026";c;"00:00:00,250";3\n'],
  ])("make one clock: %s", (_, text) => {
    const table = read(text, { clock });
    expect([...table.timesS]).toEqual([0, 0.25, 0.75]);
    expect(table.startedAt).toBe("2026-10-01T23:59:59.500+02:00");
    expect(numbers(table)).toEqual([1, 2, 3]);
    expect(table.findings).toEqual([]);
  });

  it("see a date that changes while the time looks alike", () => {
    const rows = ["01.10.2026;08:00:00,000;1", "01.10.2026;08:00:01,000;1", "01.10.2026;08:00:02,000;1", "01.10.2026;08:00:03,000;1", "02.10.2026;08:00:04,000;1"];
    expect(read(`Date;Time;F\n${rows.join("\n")}\n`, { clock }).timesS[4]).toBe(86_404);
  });

  it("name line and reason of a bad date", () => {
    expect(messages("Date;Time;F\n01.10.2026;08:00:00,000;1\n31.11.2026;08:00:01,000;2\n", { clock })).toEqual(['unreadable-time | logs/R07.txt line 3, column "Time" | "08:00:01,000" with the date "31.11.2026" does not fit the layout "dd.MM.yyyy HH:mm:ss,SSS"']);
  });

  it("are refused where the declaration tells no date, or tells it twice", () => {
    const text = "Date;Time;F\n01.10.2026;08:00:00,000;1\n01.10.2026;08:00:01,000;2\n";
    expect(messages(text, { clock: { ...clock, dateFormat: "dd.MM" } })[0]).toContain('expected a date layout with year, month and day, found "dd.MM"');
    expect(messages(text, { clock: { ...clock, dateFormat: undefined } })[0]).toContain("expected dateFormat: beside dateColumn");
    expect(messages(text, { clock: { ...clock, startDate: "2026-10-01" } })[0]).toContain("expected one place for the date, found dateColumn and startDate");
    expect(messages(text, { clock: { ...clock, format: "dd.MM.yyyy HH:mm:ss,SSS" } })[0]).toContain("since the date is told elsewhere");
    expect(refusal(text, { clock, columns: ["F", "Date"] })[0]?.code).toBe("stamp-as-number");
  });
});

describe("stamps that hold the time of day alone", () => {
  const clock: ReadOptions["clock"] = { kind: "wall", startDate: "2026-12-31", column: "Time", format: "HH:mm:ss", zone: "UTC" };
  const log = (...stamps: string[]): string => `Datum:\t31.12.2026\nTime\tF\n${stamps.map((stamp) => `${stamp}\t1\n`).join("")}`;

  it("take the date that is declared, and pass midnight", () => {
    const table = read(log("23:59:58", "23:59:59", "00:00:00", "00:00:01"), { clock });
    expect([[...table.timesS], table.startedAt]).toEqual([[0, 1, 2, 3], "2026-12-31T23:59:58.000Z"]);
    expect(table.findings).toEqual([expect.objectContaining({ code: "midnight-passed", severity: "note", message: expect.stringContaining("fell back once") })]);
  });

  it("take the date from a line before the headings", () => {
    const labelled: ReadOptions["clock"] = { kind: "wall", dateLabel: "Datum", dateFormat: "dd.MM.yyyy", column: "Time", format: "HH:mm:ss", zone: "UTC" };
    expect(read(log("08:00:00", "08:00:01"), { clock: labelled }).startedAt).toBe("2026-12-31T08:00:00.000Z");
    expect(messages(log("08:00:00", "08:00:01"), { clock: { ...labelled, dateLabel: "Start" } })).toEqual(['no-date-line | logs/R07.txt | expected a line "Start" with the date before the headings, found "Datum"']);
  });

  it("keep a small backward step as it is, for the clock's check to find", () => {
    expect([...read(log("08:00:02", "08:00:01", "08:00:03"), { clock }).timesS]).toEqual([0, -1, 1]);
  });

  it("are refused where the day cannot be told, and without a date", () => {
    expect(messages(log("08:00:00", "21:00:00"), { clock })[0]).toContain("lies more than 12 hours from the row before");
    expect(messages(log("08:00:00", "08:00:01"), { clock: { ...clock, startDate: undefined } })[0]).toContain("where the date is (dateColumn, dateLabel or startDate)");
  });

  it("with twelve hours need the half of the day", () => {
    const half: ReadOptions["clock"] = { ...clock, format: "h:mm:ss a" };
    expect([...read(log("11:59:59 AM", "12:00:00 PM", "1:00:00 PM", "11:59:59 PM", "12:00:00 AM"), { clock: half }).timesS]).toEqual([0, 1, 3601, 43_200, 43_201]);
    expect(messages(log("11:59:59", "12:00:00"), { clock: { ...clock, format: "h:mm:ss" } })[0]).toContain("since h counts to twelve");
  });
});

describe("days as spreadsheets count them", () => {
  const log = "T;F\n46296,25;1\n46296,5;2\n46297;3\n";

  it.each([[1900, "2026-10-01T06:00:00.000+02:00"], [1904, "2030-10-02T06:00:00.000+02:00"]] as const)("from %i", (epoch, startedAt) => {
    const table = read(log, { clock: { kind: "serial", column: "T", epoch, zone: "Europe/Oslo" } });
    expect([[...table.timesS], table.startedAt]).toEqual([[0, 21_600, 64_800], startedAt]);
  });

  it("are refused where they count from somewhere else, or over a change of the clocks", () => {
    expect(messages("T;F\n0,25;1\n0,5;2\n", { clock: { kind: "serial", column: "T", epoch: 1900, zone: "UTC" } })[0]).toContain("expected days counted from 1900, found 0.25");
    expect(refusal("T;F\n46320,0;1\n46320,5;2\n", { clock: { kind: "serial", column: "T", epoch: 1900, zone: "Europe/Oslo" } })[0]?.code).toBe("clocks-changed");
    expect(refusal(log, { clock: { kind: "serial", column: "T", epoch: 1900, zone: "Nowhere" } })[0]?.code).toBe("unknown-zone");
  });

  it("or from the log's own start", () => {
    expect([...read("T;F\n0,25;1\n0,5;2\n", { clock: { kind: "elapsed", column: "T", unit: "d" } }).timesS]).toEqual([21_600, 43_200]);
  });
});

describe("thousands marks", () => {
  it.each([
    [",", 't;F\n0.5;"1,234.5"\n1,000;-1,234,567\n'],
    [".", "t;F\n0,5;1.234,5\n1.000;-1.234.567\n"],
    ["'", "t;F\n0.5;1'234.5\n1’000;-1'234'567\n"],
    [" ", "t;F\n0,5;1 234,5\n1\u00a0000;-1\u202f234 567\n"],
    [",", 't,F\n0.5,"1,234.5"\n"1,000","-1,234,567"\n'],
  ] as const)("%s are read where they are declared", (thousands, text) => {
    const table = read(text, { thousands });
    expect([[...table.timesS], numbers(table)]).toEqual([[0.5, 1000], [1234.5, -1_234_567]]);
    expect(table.evidence).toContain(`thousands mark "${thousands}": declared`);
  });

  it("are refused where they are not declared, not in threes, or are the decimal mark as well", () => {
    expect(refusal("t;F\n0,5;1.234,5\n0,6;1\n")[0]).toMatchObject({ code: "thousands-separator", hint: expect.stringContaining("thousands:") });
    expect(messages("t;F\n0.5;1,23\n0.6;1\n", { thousands: "," })).toEqual(['text-in-number | logs/R07.txt line 2, column "F" | expected a number, found "1,23"']);
    expect(messages("t;F\n0.5;1,234,5\n0.6;1\n", { thousands: "," })[0]).toContain('found "1,234,5"');
    expect(refusal("t;F\n0.5;1\n0.6;1\n", { thousands: ",", decimal: "," })[0]?.code).toBe("one-mark-twice");
  });
});

describe("groups of three", () => {
  it.each([
    ["1,234.5", ",", "1234.5"],
    ["-1.234.567,25", ".", "-1234567,25"],
    ["1’234", "'", "1234"],
    ["12,34", ",", null],
    ["1,2345", ",", null],
    [",123", ",", null],
    ["1234,567", ",", null],
  ] as const)("%s with %s", (cell, mark, plain) => expect(ungrouped(cell, mark)).toBe(plain));
});

describe("marks of loggers", () => {
  it.each(["1.#INF", "-1.#IND", "1.#QNAN", "---", "OVER", "-OVER", "> 500", "#N/A"])("%s is refused until it is declared, then missing or overload", (mark) => {
    const text = `t;F\n0.0;1.5\n0.1;${mark}\n0.2;2.5\n`;
    expect(messages(text, {})).toEqual([`text-in-number | logs/R07.txt line 3, column "F" | expected a number, found "${mark}"`]);
    expect(numbers(read(text, { missing: [mark] }))).toEqual([1.5, Number.NaN, 2.5]);
    expect(read(text, { overload: [mark] }).columns[0]?.overloaded).toEqual([1]);
  });
});

describe("two signs in one log", () => {
  const clock = { kind: "wall", column: "Time", format: "dd.MM.yyyy HH:mm:ss,SSS", zone: "UTC" } as const;

  it.each([
    ["a comma in the stamps, a point in the numbers", "Time;F\n01.10.2026 08:00:00,000;1.5\n01.10.2026 08:00:00,100;-2.25\n"],
    ["a comma in quoted stamps and between the columns", 'Time,F\n"01.10.2026 08:00:00,000",1.5\n"01.10.2026 08:00:00,100",-2.25\n'],
  ])("%s", (_, text) => {
    const table = read(text, { clock });
    expect([[...table.timesS], numbers(table)]).toEqual([[0, 0.1], [1.5, -2.25]]);
    expect(table.evidence).toContain('decimal point: column "F" holds "1.5"');
  });

  it("a comma in bare stamps and between the columns is refused", () => {
    expect(refusal("Time,F\n01.10.2026 08:00:00,000,1.5\n01.10.2026 08:00:00,100,-2.25\n", { clock })).toMatchObject([{ code: "ambiguous-decimal", at: "logs/R07.txt from line 2", message: expect.stringContaining("expected 2 cells in a row, as line 1 has headings, found 3") }]);
  });

  it("UTF-16 with tabs, decimal commas and #N/A", () => {
    const text = utf16("t\tF [kN]\r\n0,0\t1,5\r\n0,1\t#N/A\r\n0,2\t-2,25\r\n", "le");
    const table = read(text, { missing: ["#N/A"] });
    expect([[...table.timesS], numbers(table), table.columns[0]?.unit]).toEqual([[0, 0.1, 0.2], [1.5, Number.NaN, -2.25], "kN"]);
    expect(refusal(text)).toMatchObject([{ code: "text-in-number", at: 'logs/R07.txt line 3, column "F"' }]);
  });
});

describe("a unit in a name", () => {
  it("belongs to the name: Fx_N is declared as it stands", () => {
    expect(read("t_s,Fx_N\n0.0,1.5\n0.1,2.5\n", { columns: ["Fx_N"], clock: { kind: "elapsed", column: "t_s", unit: "s" } }).columns[0]).toMatchObject({ name: "Fx_N", unit: null });
    expect(messages("t,Fx_N\n0.0,1.5\n0.1,2.5\n", { columns: ["Fx"] })).toEqual(['missing-column | logs/R07.txt line 1 | expected a column "Fx", found "t", "Fx_N"']);
  });

  it("in doubled brackets is one of UCUM's", () => {
    expect(read("t,Fx [[lbf_av]]\n0.0,1.5\n0.1,2.5\n", { columns: ["Fx"] }).columns[0]).toMatchObject({ name: "Fx", unit: "[lbf_av]" });
  });
});

describe("a unit that changes in mid-file", () => {
  it.each([
    ["in the heading", "t [s],F [N]\n0.0,1.5\n0.1,2.5\nt [s],F [kN]\n0.2,0.0035\n", "line 4", "as line 1 has it"],
    ["in the unit row", "t,F\ns,N\n0.0,1.5\n0.1,2.5\nt,F\ns,kN\n0.2,0.0035\n", "line 6", "as line 2 has it"],
  ])("%s is refused with its place and both units", (_, text, place, stated) => {
    expect(messages(text, {})).toEqual([`unit-changed | logs/R07.txt ${place}, column "F" | expected the unit "N", ${stated}, found "kN" from here on`]);
  });

  it("is no matter in a column that nobody uses, or in another spelling", () => {
    expect(numbers(read("t [s],F [N],T [N.m],x [V]\n0.0,1.5,1,1\nt [s],F [N],T [Nm],x [mV]\n0.2,2.5,2,2\n", { columns: ["F", "T"] }))).toEqual([1.5, 2.5]);
  });
});

describe("quoted cells over a line's end", () => {
  it("are one cell, and lines after them keep their numbers", () => {
    const text = 't,remark,F,last\n0.0,"first\nsecond",1.5,"a\r\nb ""c"""\n0.1,x,2.5,"d"\n0.2,y,oops,\n0.3,,4.5,\n0.4,,5.5,\n0.5,,6.5,\n';
    expect(messages(text, {})).toEqual(['text-in-number | logs/R07.txt line 6, column "F" | expected a number, found "oops"']);
    expect(numbers(read(text.replace("oops", "3.5")))).toEqual([1.5, 2.5, 3.5, 4.5, 5.5, 6.5]);
  });

  it("never swallow what could be a row", () => {
    expect(messages('t,F,remark\n0.0,1.5,"open\n0.1,2.5,close"\n0.2,3.5,\n', rate)[0]).toContain("open-quote | logs/R07.txt line 2");
    expect(numbers(read('t,F,remark\n0.0,1.5,"open\n0.1,2.5,none\n0.2,3.5,\n'))).toEqual([1.5, 2.5, 3.5]);
  });
});
