import { mkdtempSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { defineConfig } from "vitest/config";

// Whole days, browsers and notebooks take their time; two workers, because each may start a process of its own.
export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    testTimeout: 120_000,
    hookTimeout: 300_000,
    maxWorkers: 2,
    watch: false,
    // Whoever runs the tests has a cache of his own, which is none of the tests' business.
    env: { XDG_CACHE_HOME: mkdtempSync(join(tmpdir(), "drawbar-tests-cache-")) },
  },
});
