import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { programKeys } from "../../../src/cli/cache/programKey.ts";

const home = mkdtempSync(join(tmpdir(), "drawbar-program-"));
afterAll(() => rmSync(home, { recursive: true, force: true }));
const write = (path: string, text: string): void => {
  mkdirSync(dirname(join(home, path)), { recursive: true });
  writeFileSync(join(home, path), text);
};
const manifest = (name: string, version: string, ...dependencies: string[]): string => JSON.stringify({ name, version, dependencies: Object.fromEntries(dependencies.map((one) => [one, "*"])) });

write("package.json", manifest("mine", "1.0.0", "outer"));
write("node_modules/outer/package.json", manifest("outer", "1.0.0", "inner", "outer"));
write("node_modules/inner/package.json", manifest("inner", "1.0.0"));
for (const room of ["core", "numerics", "workbook", "importers/deep", "processing"]) write(`src/${room}/a.ts`, "1");

const keys = (): ReturnType<typeof programKeys> => programKeys(`${join(home, "src")}/`);

test.each([
  ["a reader", "src/importers/deep/a.ts", "2", true, true],
  ["what readers stand on", "src/core/a.ts", "2", true, true],
  ["a further reader", "src/importers/b.ts", "1", true, true],
  ["what measures", "src/processing/a.ts", "2", false, true],
  ["a package", "node_modules/outer/package.json", manifest("outer", "1.0.1", "inner", "outer"), true, true],
  ["a package's package", "node_modules/inner/package.json", manifest("inner", "1.0.1"), true, true],
  ["a package nobody asks for", "node_modules/stranger/package.json", manifest("stranger", "1.0.1"), false, false],
  ["declarations", "src/core/a.d.ts", "2", false, false],
])("%s that changes: other keys where it matters", (_, path, text, readers, whole) => {
  const before = keys();
  expect(keys()).toEqual(before);
  write(path, text);
  const after = keys();
  expect([after.readers !== before.readers, after.whole !== before.whole]).toEqual([readers, whole]);
});

test("the program knows its own files", () => {
  const own = programKeys();
  expect(own.readers).toMatch(/^[0-9a-f]{64}$/);
  expect(own.whole).not.toBe(own.readers);
});
