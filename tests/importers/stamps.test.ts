import { describe, expect, it } from "vitest";
import type { ReadOptions } from "../../src/importers/contract.ts";
import { stampPattern } from "../../src/importers/stampPattern.ts";
import { read, refusal } from "./sample.ts";

const wall = (format: string, zone = "UTC"): Pick<ReadOptions, "clock"> => ({ clock: { kind: "wall", column: "Time", format, zone } });
const iso = (zone?: string): Pick<ReadOptions, "clock"> => ({ clock: { kind: "iso", column: "Time", zone } });
const log = (...stamps: string[]): string => `Time;F\n${stamps.map((stamp) => `${stamp};1\n`).join("")}`;
const times = (text: string, options: Pick<ReadOptions, "clock">): number[] => [...read(text, options).timesS];

describe("wall-clock stamps", () => {
  const layout = "dd.MM.yyyy HH:mm:ss,SSS";

  it("count seconds from the first, to the last digit", () => {
    const table = read(log("01.10.2026 08:00:59,998", "01.10.2026 08:00:59,999", "01.10.2026 08:01:00,000", "01.10.2026 08:01:00,001"), wall(layout, "Europe/Oslo"));
    expect([...table.timesS]).toEqual([0, 0.001, 0.002, 0.003]);
    expect(table.startedAt).toBe("2026-10-01T08:00:59.998+02:00");
  });

  it("run over midnight, a leap day and a new year", () => {
    expect(times(log("28.02.2028 23:59:59,500", "29.02.2028 00:00:00,500", "29.02.2028 23:59:59,500"), wall(layout))).toEqual([0, 1, 86_400]);
    expect(times(log("31.12.2026 23:59:59,500", "01.01.2027 00:00:00,500"), wall(layout))).toEqual([0, 1]);
  });

  it("take a point or a comma before the fraction, whatever the layout writes", () => {
    expect(times(log("01.10.2026 08:00:00.250", "01.10.2026 08:00:00.750"), wall(layout))).toEqual([0, 0.5]);
    expect(times(log("2026-10-01 08:00:00,250", "2026-10-01 08:00:00,750"), wall("yyyy-MM-dd HH:mm:ss.SSS"))).toEqual([0, 0.5]);
  });

  it("keep more digits than milliseconds", () => {
    expect(times(log("2026-10-01 08:00:00.0000005", "2026-10-01 08:00:00.0001005", "2026-10-01 08:00:00.1"), wall("yyyy-MM-dd HH:mm:ss.u"))).toEqual([0, 0.0001, 0.0999995]);
  });

  it("read layouts without seconds, with 12 hours, and with words", () => {
    expect(times(log("2026-10-01 08:00", "2026-10-01 08:02"), wall("yyyy-MM-dd HH:mm"))).toEqual([0, 120]);
    expect(times(log("10/01/2026 11:59:59 AM", "10/01/2026 12:00:00 PM", "10/01/2026 1:00:00 PM"), wall("MM/dd/yyyy h:mm:ss a"))).toEqual([0, 1, 3601]);
    expect(times(log("1 Oct 2026 08:00:00", "1 Oct 2026 08:00:02"), wall("d MMM yyyy HH:mm:ss"))).toEqual([0, 2]);
    expect(times('Time;F\n"01.10.2026 08:00:00,250";1\n"01.10.2026 08:00:00,750";2\n', wall(layout))).toEqual([0, 0.5]);
  });

  it("stay exact over every millisecond of two minutes", () => {
    const stamps = Array.from({ length: 120_000 }, (_, i) => {
      const moment = new Date(Date.UTC(2026, 9, 1, 23, 59, 0, i)).toISOString();
      return `${moment.slice(8, 10)}.${moment.slice(5, 7)}.${moment.slice(0, 4)} ${moment.slice(11, 19)},${moment.slice(20, 23)}`;
    });
    const found = read(log(...stamps), wall(layout)).timesS;
    expect(found.length).toBe(120_000);
    expect(Array.from({ length: 120_000 }, (_, i) => i).filter((i) => found[i] !== i / 1000)).toEqual([]);
  });

  it.each([
    ["a word", "soon", "does not fit the layout"],
    ["nothing", "", "does not fit the layout"],
    ["second 61", "01.10.2026 08:00:61,000", "does not fit the layout"],
    ["a digit missing", "01.10.2026 08:00:01,00", "does not fit the layout"],
    ["30 February", "30.02.2026 08:00:00,000", "does not fit the layout"],
  ])("name the line of %s", (_, stamp, reason) => {
    expect(refusal(log("01.10.2026 08:00:00,000", stamp, "01.10.2026 08:00:02,000"), wall(layout))).toEqual([{ code: "unreadable-time", at: 'logs/R07.txt line 3, column "Time"', message: expect.stringContaining(reason), hint: expect.any(String) }]);
  });

  it("are refused where daylight saving makes them ambiguous or nonexistent", () => {
    expect(refusal(log("25.10.2026 02:30:00,000", "25.10.2026 02:30:01,000"), wall(layout, "Europe/Oslo"))[0]?.message).toContain("occurs twice in Europe/Oslo");
    expect(refusal(log("29.03.2026 01:59:59,000", "29.03.2026 02:00:00,000"), wall(layout, "Europe/Oslo"))[0]).toMatchObject({ at: 'logs/R07.txt line 3, column "Time"', message: expect.stringContaining("does not exist in Europe/Oslo") });
    // Across the change itself, both sides being clear: 01:59:59 to 03:00:00 is one second.
    expect(times(log("29.03.2026 01:59:59,000", "29.03.2026 03:00:00,000"), wall(layout, "Europe/Oslo"))).toEqual([0, 1]);
  });

  it("need a date and a real zone", () => {
    expect(refusal(log("08:00:00,000", "08:00:01,000"), wall("HH:mm:ss,SSS"))[0]).toMatchObject({ code: "incomplete-clock", message: expect.stringContaining("year, month and day") });
    expect(refusal(log("01.10.2026 08:00:00,000", "01.10.2026 08:00:01,000"), wall(layout, "Europe/Atlantis"))[0]?.code).toBe("unknown-zone");
  });

  it("cannot be a channel as well", () => {
    expect(refusal(log("01.10.2026 08:00:00,000", "01.10.2026 08:00:01,000"), { ...wall(layout), columns: ["Time"] })[0]?.code).toBe("stamp-as-number");
  });
});

describe("ISO stamps", () => {
  it("carry their zone, which may change", () => {
    const table = read(log("2026-10-25T02:59:59.5+02:00", "2026-10-25T02:00:00.5+01:00", "2026-10-25T01:00:01,5Z"), iso());
    expect([...table.timesS]).toEqual([0, 1, 2]);
    expect(table.startedAt).toBe("2026-10-25T02:59:59.500+02:00");
  });

  it("without a zone need one in the description", () => {
    expect(refusal(log("2026-10-01T08:00:00", "2026-10-01T08:00:01"), iso())[0]).toMatchObject({ code: "incomplete-clock", message: expect.stringContaining("carry their zone") });
    expect(read(log("2026-10-01 08:00:00.125", "2026-10-01 08:00:01.25"), iso("Europe/Oslo")).timesS[1]).toBe(1.125);
  });

  it("in another ISO form are read as well", () => {
    expect(times(log("20261001T080000Z", "20261001T080001Z"), iso())).toEqual([0, 1]);
  });
});

describe("the split of a stamp", () => {
  it("is known for the usual layouts, and left to the calendar library for others", () => {
    expect(stampPattern({ kind: "wall", format: "yyyy-MM-dd'T'HH:mm:ss.SSS" }).match("2026-10-01T08:00:07.250")).toEqual({ before: "2026-10-01T08:00:", seconds: 7, fractionNs: 250_000_000, after: "", withLayoutMark: "2026-10-01T08:00:07.250" });
    expect(stampPattern({ kind: "wall", format: "yyyy-MM-dd HH:mm:s" }).match("2026-10-01 08:00:7")).toBeNull();
    expect(times(log("2026-10-01 08:00:9", "2026-10-01 08:00:10"), wall("yyyy-MM-dd HH:mm:s"))).toEqual([0, 1]);
    expect(times(log("2026-10-01 08:00:07 +0200", "2026-10-01 07:00:08 +0100"), wall("yyyy-MM-dd HH:mm:ss ZZZ"))).toEqual([0, 1]);
  });
});
