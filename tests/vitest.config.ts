import { defineConfig } from "vitest/config";

// Whole days, browsers and notebooks take their time; two workers, because each may start a process of its own.
export default defineConfig({
  test: {
    include: ["tests/**/*.test.ts"],
    testTimeout: 120_000,
    hookTimeout: 300_000,
    maxWorkers: 2,
    watch: false,
  },
});
