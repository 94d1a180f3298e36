import { describe, expect, test } from "vitest";
import { docTagViolations, documentedRooms } from "./docTags.ts";
import { reaches } from "./imports.ts";
import { expectNone, filesIn } from "./projectFiles.ts";

const planted = (text: string, path = "src/models/a.ts"): string[] =>
  docTagViolations([{ path, text }], (test, file) => (test !== "tests/models/a.test.ts" ? "absent" : file === "src/models/a.ts" ? "fits" : "unrelated")).map(({ line, message }) => `${line} ${message}`);

const full = `/**
 * Half of it.
 *
 * @param x  whole [1]
 * @returns  half [1]
 * @source   common practice
 * @checked  tests/models/a.test.ts
 */
`;

describe("doc comments", () => {
  test("numerics, measures, models and fitting say source and test of every export", () => {
    const files = filesIn(documentedRooms, [".ts"]).filter(({ path }) => !path.endsWith(".d.ts"));
    expect(files.length).toBeGreaterThan(50);
    const all = filesIn(["src", "tests", "scripts"], [".ts"]);
    const reach = reaches(all);
    const tests = new Set(all.map(({ path }) => path));
    expectNone(docTagViolations(files, (test, file) => (!tests.has(test) ? "absent" : reach(test, file) ? "fits" : "unrelated")));
  });

  test("a full comment passes, on a function and on a constant function", () => {
    expect(planted(`${full}export function a(x: number): number {\n  return x / 2;\n}`)).toEqual([]);
    expect(planted(`${full}export const a = (x: number): number => x / 2;`)).toEqual([]);
  });

  test.each([
    ["no comment", "", ["1 a: no doc comment"]],
    ["no source", full.replace(/ \* @source.*\n/, ""), ["8 a: no @source"]],
    ["an empty source", full.replace("common practice", "?"), ["9 a: no @source"]],
    ["no test", full.replace(/ \* @checked.*\n/, ""), ["8 a: no @checked"]],
    ["a test that does not exist", full.replace("a.test", "b.test"), ["9 a: @checked names tests/models/b.test.ts, which does not exist"]],
    ["no parameter", full.replace(/ \* @param.*\n/, ""), ["8 a: no @param"]],
    ["no result", full.replace(/ \* @returns.*\n/, ""), ["8 a: no @returns"]],
  ])("%s: found", (_, comment, expected) => {
    expect(planted(`${comment}export function a(x: number): number {\n  return x / 2;\n}`)).toEqual(expected);
  });

  test("a test that never comes to the file is found", () => {
    expect(planted(`${full}export function a(x: number): number {\n  return x / 2;\n}`, "src/models/b.ts")).toEqual(["9 a: @checked names tests/models/a.test.ts, which never comes to this file"]);
  });

  test("files are reached at first hand and through others", () => {
    const files = [["t.ts", "./a.ts"], ["a.ts", "./b.ts"], ["b.ts", "./a.ts"], ["c.ts", "./a.ts"]].map(([path, target]) => ({ path: `src/${path}`, text: `import "${target}";` }));
    const reach = reaches(files);
    expect([reach("src/t.ts", "src/a.ts"), reach("src/t.ts", "src/b.ts"), reach("src/t.ts", "src/c.ts")]).toEqual([true, true, false]);
  });

  test("of several signatures one comment is enough", () => {
    expect(planted(`${full}export function a(x: number): number;\nexport function a(x: string): string;\nexport function a(x: unknown): unknown {\n  return x;\n}`)).toEqual([]);
  });

  test("a type needs a comment, no source", () => {
    expect(planted("export interface A { readonly x: number }")).toEqual(["1 A: no doc comment"]);
    expect(planted("/** A pair. */\nexport type A = readonly [number, number];")).toEqual([]);
  });
});
