import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { reduceDay } from "../../src/day.ts";
import { daySummary, fixtureDays, fixtures } from "./daySummary.ts";

// The numbers in expected.json are our own, looked at against truth.json or the publication when they were written; they
// show that something changed, not that it is right. A wanted change: npx tsx scripts/updateGolden.ts, and look at the difference.
describe("each day in fixtures/ gives what it gave", () => {
  test("there are days", () => expect(fixtureDays()).toEqual(expect.arrayContaining(["excerpt-day", "open-plates"])));

  for (const name of fixtureDays()) {
    test(name, async () => {
      const file = join(fixtures, name, "expected.json");
      expect(existsSync(file), `${file} is missing: npx tsx scripts/updateGolden.ts ${name}`).toBe(true);
      expect(daySummary(await reduceDay(join(fixtures, name)))).toEqual(JSON.parse(readFileSync(file, "utf8")));
    });
  }
});
