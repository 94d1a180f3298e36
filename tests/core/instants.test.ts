import { describe, expect, it } from "vitest";
import { isoHasOffset, isZone, layoutHasDate, parseIso, parseWall, toIso } from "../../src/core/instants.ts";

const layout = "dd.MM.yyyy HH:mm:ss,SSS";

describe("instants", () => {
  it("reads a wall clock in its zone", () => {
    expect(parseWall("14.03.2026 08:02:11,250", layout, "UTC")).toEqual({ ms: Date.UTC(2026, 2, 14, 8, 2, 11, 250), zone: "UTC" });
    // Oslo keeps UTC+1 in winter and UTC+2 in summer.
    expect(parseWall("14.03.2026 08:02:11,250", layout, "Europe/Oslo")).toEqual({ ms: Date.UTC(2026, 2, 14, 7, 2, 11, 250), zone: "Europe/Oslo" });
    expect(parseWall("14.07.2026 08:02:11,250", layout, "Europe/Oslo")).toEqual({ ms: Date.UTC(2026, 6, 14, 6, 2, 11, 250), zone: "Europe/Oslo" });
    expect(parseWall("31.02.2026 08:02:11,250", layout, "UTC")).toHaveProperty("problem");
    expect(parseWall("14.03.2026", layout, "UTC")).toHaveProperty("problem");
  });

  it("refuses what daylight saving makes ambiguous or nonexistent", () => {
    // Clocks in Oslo: 29 March 2026 02:00 → 03:00, 25 October 2026 03:00 → 02:00.
    expect(parseWall("29.03.2026 02:30:00,000", layout, "Europe/Oslo")).toEqual({ problem: expect.stringContaining("does not exist") });
    expect(parseWall("25.10.2026 02:30:00,000", layout, "Europe/Oslo")).toEqual({ problem: expect.stringContaining("occurs twice") });
    expect(parseWall("25.10.2026 02:30:00,000", layout, "UTC+2")).toEqual({ ms: Date.UTC(2026, 9, 25, 0, 30), zone: "UTC+2" });
    expect(parseWall("25.10.2026 03:00:00,000", layout, "Europe/Oslo")).toEqual({ ms: Date.UTC(2026, 9, 25, 2), zone: "Europe/Oslo" });
    expect(parseWall("25.10.2026 01:59:59,999", layout, "Europe/Oslo")).toHaveProperty("ms");
    expect(parseIso("2026-10-25T02:30:00", "Europe/Oslo")).toHaveProperty("problem");
  });

  it("reads ISO stamps, and asks for a zone where they carry none", () => {
    expect(parseIso("2026-10-01T08:00:00.5+02:00")).toEqual({ ms: Date.UTC(2026, 9, 1, 6, 0, 0, 500), zone: "UTC+2" });
    expect(parseIso("2026-10-01 08:00:00Z")).toEqual({ ms: Date.UTC(2026, 9, 1, 8), zone: "UTC" });
    expect(parseIso("2026-10-01T08:00:00,5", "UTC")).toEqual({ ms: Date.UTC(2026, 9, 1, 8, 0, 0, 500), zone: "UTC" });
    expect(parseIso("2026-10-01T08:00:00")).toEqual({ problem: "carries no zone" });
    expect(parseIso("yesterday")).toHaveProperty("problem");
    expect(["2026-10-01T08:00Z", "2026-10-01T08:00-03:30", "2026-10-01T08:00", "2026-10-01"].map(isoHasOffset)).toEqual([true, true, false, false]);
  });

  it("writes ISO with the zone's offset", () => {
    expect(toIso(Date.UTC(2026, 6, 14, 6), "Europe/Oslo")).toBe("2026-07-14T08:00:00.000+02:00");
    expect(toIso(Date.UTC(2026, 6, 14, 6), "UTC")).toBe("2026-07-14T06:00:00.000Z");
  });

  it("knows zones and layouts without a date", () => {
    expect(["UTC", "utc", "Europe/Oslo", "UTC+2", "UTC-03:30", "Mars/Olympus", ""].map(isZone)).toEqual([true, true, true, true, true, false, false]);
    expect([layout, "yyyy-MM-dd HH:mm:ss.u", "d.M.yy H:mm:ss", "HH:mm:ss", "dd.MM. HH:mm:ss"].map(layoutHasDate)).toEqual([true, true, true, false, false]);
  });
});
