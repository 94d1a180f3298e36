import { describe, expect, it } from "vitest";
import { dateMs, shownAs } from "../../src/workbook/numberFormats.ts";

describe("what a number in a cell stands for", () => {
  it.each([
    [0, null, "number"],
    [14, null, "date"],
    [46, null, "duration"],
    [21, null, "time of day"],
    [9, null, "percent"],
    [164, "yyyy\\-mm\\-dd hh:mm:ss.000", "date"],
    [164, "[$-409]d/m/yyyy h:mm AM/PM;@", "date"],
    [164, "hh:mm:ss.000", "time of day"],
    [164, "[h]:mm:ss", "duration"],
    [164, "mmm", "date"],
    [164, '0.00" days"', "number"],
    [164, "[Red]0.0", "number"],
    [164, "0.0%", "percent"],
    [164, "General", "number"],
    [164, '0.0 "mm"', "number"],
    [164, "0.0\\m", "number"],
  ] as const)("%i %s is a %s", (id, code, shown) => {
    expect(shownAs(id, code)).toBe(shown);
  });

  // ECMA-376 part 1, 18.17.4.1: serial 1 is 1 January 1900 (1900 calendar) or 2 January 1904 (1904 calendar).
  it.each([
    [1, false, "1900-01-01T00:00:00.000Z"],
    [59, false, "1900-02-28T00:00:00.000Z"],
    [61, false, "1900-03-01T00:00:00.000Z"],
    [46_296 + 8 / 24, false, "2026-10-01T08:00:00.000Z"],
    [1, true, "1904-01-02T00:00:00.000Z"],
    [44_834 + 8 / 24, true, "2026-10-01T08:00:00.000Z"],
  ] as const)("day %d (1904: %s) is %s", (serial, from1904, iso) => {
    expect(new Date(dateMs(serial, from1904) ?? Number.NaN).toISOString()).toBe(iso);
  });

  it("knows no 29 February 1900, no day before the calendar and none far beyond it", () => {
    expect([60, 60.5, 0.5, -1, 1e9, Number.NaN].map((serial) => dateMs(serial, false))).toEqual([null, null, null, null, null, null]);
  });
});
