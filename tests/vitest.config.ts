import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { defineConfig } from "vitest/config";
import { BaseSequencer } from "vitest/node";
import type { TestSpecification } from "vitest/node";

/** Files that take half a minute come first, so that no worker waits at the end for one that came last. */
const long = /tests\/(closure\/(demoDay|rolling|soil)|faults\/faults|package\/package|scripts\/(fuzz|kills)|importers\/contract|report\/writeReport|badInput\/)/;

class LongFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    return [...sorted.filter(({ moduleId }) => long.test(moduleId)), ...sorted.filter(({ moduleId }) => !long.test(moduleId))];
  }
}

// Whole days, browsers and notebooks take their time; two workers, because each may start a process of its own.
export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    testTimeout: 120_000,
    hookTimeout: 300_000,
    maxWorkers: 2,
    watch: false,
    sequence: { sequencer: LongFirst },
    // Whoever runs the tests has a cache of his own, which is none of the tests' business.
    env: { XDG_CACHE_HOME: mkdtempSync(join(tmpdir(), "drawbar-tests-cache-")) },
  },
});
