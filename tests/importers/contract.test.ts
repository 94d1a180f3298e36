import { describe, expect, it } from "vitest";
import { importers } from "../../src/importers/registry.ts";
import { rules } from "./contract.ts";
import type { Sample } from "./contract.ts";
import { delimitedSamples } from "./delimitedSamples.ts";

/** Every format of the registry brings its samples here. */
const samples: Readonly<Record<string, readonly Sample[]>> = { "delimited text": delimitedSamples };

for (const importer of importers) {
  describe(importer.format, () => {
    const own = samples[importer.format] ?? [];
    it("brings samples", () => expect(own.length).toBeGreaterThan(0));
    for (const sample of own) {
      for (const [name, rule] of Object.entries(rules)) it(`${sample.name}: ${name}`, () => rule(importer, sample));
    }
  });
}
