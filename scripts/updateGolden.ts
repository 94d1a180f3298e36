import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { reduceDay } from "../src/day.ts";
import { daySummary, fixtureDays, fixtures, summaryText } from "../tests/golden/daySummary.ts";

// usage: npx tsx scripts/updateGolden.ts [day …]
// Writes fixtures/<day>/expected.json of the named days, or of all. Look at the difference before it is kept:
// excerpt-day against its truth.json, open-plates against the publication named in its ORIGIN.md.
const names = process.argv.slice(2);
for (const name of names.length > 0 ? names : fixtureDays()) {
  const file = join(fixtures, name, "expected.json");
  writeFileSync(file, summaryText(daySummary(await reduceDay(join(fixtures, name)))));
  console.log(file);
}
