import { describe, expect, it } from "vitest";
import { markEvidence, readNumber } from "../../src/campaign/numberCell.ts";

const none = { point: false, comma: false };
const point = { point: true, comma: false };
const comma = { point: false, comma: true };
const both = { point: true, comma: true };

describe("readNumber", () => {
  it.each([
    ["50", 50],
    ["-10", -10],
    ["\u221210", -10],
    ["+2.5", 2.5],
    ["12,5", 12.5],
    ["0,234", 0.234],
    ["0.234", 0.234],
    ["1234.567", 1234.567],
    [".5", 0.5],
    ["5.", 5],
    ["1,5e-3", 0.0015],
    ["1.234e2", 123.4],
    [" 7 ", 7],
  ])("%j has one reading, whatever the table shows", (cell, value) => {
    for (const marks of [none, point, comma, both]) expect(readNumber(cell, marks)).toEqual({ value });
  });

  it("takes 1,234 for a decimal only where the table's other numbers say so", () => {
    expect(readNumber("1,234", comma)).toEqual({ value: 1.234 });
    expect(readNumber("1.234", point)).toEqual({ value: 1.234 });
    for (const marks of [none, both]) {
      expect(readNumber("1,234", marks)).toMatchObject({ message: 'expected a number with one reading, found "1,234", which may be 1.234 (decimal comma) or 1234 (comma between thousands)' });
      expect(readNumber("1.234", marks)).toMatchObject({ message: 'expected a number with one reading, found "1.234", which may be 1.234 (decimal point) or 1234 (point between thousands)' });
    }
  });

  it("names both readings where the table's mark is the other one", () => {
    expect(readNumber("1,234", point)).toEqual({ message: 'expected a number without marks between thousands, found "1,234"', hint: "The table's other numbers have a decimal point. Write 1234, or 1.234 if that is meant." });
    expect(readNumber("1.234", comma)).toEqual({ message: 'expected a number without marks between thousands, found "1.234"', hint: "The table's other numbers have a decimal comma. Write 1234, or 1,234 if that is meant." });
  });

  it.each(["1.234,5", "1,234.5", "1 234", "1'234", "1.234.567"])("refuses marks between thousands: %s", (cell) => {
    expect(readNumber(cell, both)).toMatchObject({ message: expect.stringContaining("without marks between thousands") });
  });

  it.each(["20 %", "50N", "5 mm"])("refuses a unit in the cell: %s", (cell) => {
    expect(readNumber(cell, point)).toMatchObject({ message: `expected a number alone, found "${cell}"` });
  });

  it.each(["", "-", ".", "abc", "NaN", "Infinity", "=1+1", "0x10", "1e999", "--5", "1,,5"])("refuses %j", (cell) => {
    expect(readNumber(cell, point)).not.toHaveProperty("value");
  });
});

describe("markEvidence", () => {
  it("counts only cells with one reading", () => {
    expect(markEvidence(["1,234", "1.234", "7", "abc"], ";")).toEqual(none);
    expect(markEvidence(["1,234", "0,5"], ";")).toEqual(comma);
    expect(markEvidence(["0.5"], "\t")).toEqual(point);
    expect(markEvidence(["0.5", "0,5"], ";")).toEqual(both);
  });
  it("takes a comma between cells for a decimal point", () => {
    expect(markEvidence([], ",")).toEqual(point);
  });
});
