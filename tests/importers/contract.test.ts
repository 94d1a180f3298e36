import { describe, expect, it } from "vitest";
import { formats } from "../../src/importers/registry.ts";
import { rules } from "./contract.ts";
import type { Sample } from "./contract.ts";
import { delimitedSamples } from "./delimitedSamples.ts";
import { formatSamples } from "./formatSamples.ts";

/** Every format of the registry brings its samples here. */
const samples: Readonly<Record<string, readonly Sample[]>> = { "delimited text": delimitedSamples, ...formatSamples };

for (const format of formats) {
  describe(format.format, () => {
    const own = samples[format.format] ?? [];
    it("brings samples", () => expect(own.length).toBeGreaterThan(0));
    for (const sample of own) {
      for (const [name, rule] of Object.entries(rules)) it(`${sample.name}: ${name}`, async () => rule(await format.load(), sample), 180_000);
    }
  });
}
