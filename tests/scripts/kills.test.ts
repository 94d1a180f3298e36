import { afterAll, expect, it } from "vitest";
import { killReduce } from "../../scripts/kills/killReduce.ts";
import { killWatch } from "../../scripts/kills/killWatch.ts";
import { removeDays, tinyFiles, writeDay } from "../helpers/tinyDay.ts";

afterAll(removeDays);

// A few kills each; npm run kills does a hundred.
it("reduce killed three times: nothing torn, input untouched, the next run gives the same bytes", async () => {
  const { struck, faults } = await killReduce(writeDay(tinyFiles()), 3, false);
  expect(faults).toEqual([]);
  expect(struck).toBeGreaterThan(0);
}, 600_000);

it("watch killed twice: no file made or changed, the next watch says the same", async () => {
  const { struck, faults } = await killWatch(writeDay(tinyFiles()), 2, false);
  expect(faults).toEqual([]);
  expect(struck).toBeGreaterThan(0);
}, 600_000);
