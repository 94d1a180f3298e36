import { describe, expect, test } from "vitest";
import { expectNone, filesIn, readFiles } from "./projectFiles.ts";
import { wordingViolations } from "./wording.ts";

const planted = (text: string): number[] => wordingViolations([{ path: "tests/a.test.ts", text }]).map(({ line }) => line);

describe("wording", () => {
  test("nothing unfinished, left out, silenced or foreign in any file", () => {
    const code = filesIn(["src", "tests", "scripts", "notebooks"], [".ts", ".sh", ".py", ".md", ".json", ".ipynb"]);
    const written = filesIn(["fixtures"], [".md", ".yaml"]);
    expectNone(wordingViolations([...code, ...written, ...readFiles(["README.md", "DEVELOPERS.md", "CHANGELOG.md", "package.json", "tsconfig.json", ".ci/run"])]));
  });

  // Each planted text is put together here, so that this file does not break the rule itself.
  test.each([
    ["unfinished work", ["// TO", "DO: later"]],
    ["a test left out", ["te", "st.sk", "ip('a', b);"]],
    ["a lone test", ["describe.on", "ly('a', b);"]],
    ["a test left out by its first letter", ["x", "it('a', b);"]],
    ["a silenced type", ["// @ts-ig", "nore"]],
    ["a type given up", ["const a = b as an", "y;"]],
    ["a path of one machine", ['"/ho', 'me/ann/day"']],
    ["a foreign word", ["see the trans", "cript"]],
  ])("%s: found, with its line", (_, parts) => expect(planted(`fine\n${parts.join("")}`)).toEqual([2]));

  test("ordinary words pass", () => expect(planted("the only one; skip settling; out/home/ann; company; as anyone; /usr/bin/chromium")).toEqual([]));
});
