import { describe, expect, it } from "vitest";
import { plainColumn } from "../../src/importers/columnLog.ts";
import type { ColumnValues, LogColumn } from "../../src/importers/columnLog.ts";
import { storedLooker } from "../../src/importers/inspectStored.ts";

const column = (name: string, unit: string | null, values: ColumnValues, rows = 5): LogColumn => plainColumn({ name, unit, rows, type: "made", values: () => values });
const numbers = (...values: number[]): ColumnValues => ({ kind: "numbers", values: Float64Array.from(values) });
const ms = (...values: number[]): ColumnValues => ({ kind: "stamps", zoned: false, ns: values.map((value) => 1_790_841_600_000_000_000n + BigInt(value) * 1_000_000n) });
const look = (...columns: LogColumn[]) => storedLooker(1000)({ name: "", columns, clocks: {}, rowName: String, findings: [] }, ({ name }) => name);

describe("storedLooker", () => {
  it("counts gaps, times written twice and steps back of a time known by its unit", async () => {
    const { candidates } = await look(column("Uhr", "ms", numbers(0, 5, 10, 10, 15, 30, 35, 33, 38, 43, 48, 53)));
    expect(candidates).toMatchObject([{ column: "Uhr", clock: { kind: "elapsed", column: "Uhr", unit: "ms" }, why: "rises but for the steps named here, and its unit is ms", rateHz: 200, intervals: { median: 0.005, gaps: 1, missing: 2, duplicates: 1, backward: 1, longest: 0.015 } }]);
  });

  it("goes by the name where the unit is missing, and says the doubt", async () => {
    const unsteady = numbers(0, 5, 10, 10, 15);
    const { candidates } = await look(column("time", null, unsteady), column("angle", null, unsteady), column("tension", null, unsteady), column("t_log", "N", numbers(1, 2, 3)));
    expect(candidates).toMatchObject([{ column: "time", clock: null, rateHz: null, why: "is named like a time and rises but for the steps named here, in steps of about 5, but the file does not say its unit; elapsed time, or a counter", intervals: { median: 5, duplicates: 1 } }]);
  });

  it("shows that numbers may be dates, counts empty cells, and leaves out what goes back and forth", async () => {
    const { candidates } = await look(column("Time", null, numbers(46_296.5, 46_296.500_01, Number.NaN, 46_296.500_03)), column("t", "s", numbers(1, 2, 1, 2, 1)));
    expect(candidates.map(({ why }) => why)).toEqual([expect.stringContaining("or dates in days (the first may be 2026-10-01 in days from 1900") as string]);
    expect(candidates[0]?.why).toContain("1 of its cells holds no time");
  });

  it("takes stored stamps, stored times of day and texts, and no bare dates", async () => {
    const day = 86_400_000;
    const { candidates } = await look(
      column("at", null, ms(0, 10, 20, 50)),
      column("date", null, { kind: "stamps", zoned: false, ns: [0n, BigInt(day) * 1_000_000n] }),
      column("clock", null, { kind: "daytimes", unit: "d", values: Float64Array.of(0.25, 0.5) }),
      column("written", null, { kind: "cells", cells: ["13.10.2026 08:00:00", "13.10.2026 08:00:01", null, "13.10.2026 08:00:03"] }),
      column("cells", "s", { kind: "cells", cells: [0, 0.5, "OVER", 1] }),
    );
    expect(candidates).toMatchObject([
      { column: "at", clock: null, rateHz: 100, intervals: { gaps: 1, missing: 2 } },
      { column: "clock", clock: null, why: expect.stringContaining("durations in days") as string, intervals: { median: 21_600 } },
      { column: "written", why: expect.stringContaining("dd.MM.yyyy HH:mm:ss") as string, durationS: 3 },
      { column: "cells", clock: { kind: "elapsed", column: "cells", unit: "s" }, why: "rises throughout, and its unit is s; 1 of its cells holds no time", rateHz: 2 },
    ]);
    expect(candidates).toHaveLength(4);
  });

  it("says what it could not look at, and goes on", async () => {
    const broken = plainColumn({ name: "broken", unit: null, rows: 5, type: "made", values: () => { throw new Error("no bytes"); } });
    const huge = column("huge", "s", numbers(), 1e8);
    const { candidates, remarks } = await look(column("t", "s", numbers(0, 1, 2)), broken, huge);
    expect(candidates).toHaveLength(1);
    expect(remarks).toEqual(['"broken" cannot be read: no bytes', '"huge" was not looked at for the time: its 100,000,000 rows take more room than an inspection has']);
  });
});
