import type { ProjectFile, Violation } from "./projectFiles.ts";

// Put together at run time, so that this file does not break its own rules.
const word = (...parts: string[]): string => parts.join("");
const unfinished = [word("TO", "DO"), word("FIX", "ME"), word("X", "XX"), word("HA", "CK")];
const foreign = [word("trans", "cript"), word("seed ", "document")];

const rules: readonly { readonly name: string; readonly pattern: RegExp; readonly advice: string; readonly only?: string }[] = [
  { name: "unfinished work", pattern: new RegExp(`\\b(${unfinished.join("|")})\\b`, "g"), advice: "finish it, or write an issue" },
  { name: "a test left out", pattern: new RegExp(`\\b[xf](it|test|describe)\\(|\\b(it|test|describe|suite)\\.(${["sk" + "ip", "on" + "ly", "to" + "do", "fa" + "ils"].join("|")})\\b|\\.(${["sk" + "ip", "on" + "ly"].join("|")})If\\b`, "g"), advice: "run it, or take it out", only: ".test.ts" },
  { name: "the type checker silenced", pattern: new RegExp(`@ts-(${["ig" + "nore", "no" + "check", "expect-" + "error"].join("|")})|\\b(as|:) ${word("an", "y")}\\b|<${word("an", "y")}>`, "g"), advice: "give it its type" },
  { name: "a path of one machine", pattern: /(?<![\w.\-/])\/(home|root|work|Users|mnt|srv|tmp)\/[\w.]/g, advice: "name places from the project's root" },
  { name: "a word from outside the project", pattern: new RegExp(`\\b(${foreign.join("|")})s?\\b`, "gi"), advice: "say it without" },
];

/** Words that have no place in any file of the project. */
export function wordingViolations(files: readonly ProjectFile[]): Violation[] {
  return files.flatMap(({ path, text }) =>
    text.split("\n").flatMap((line, index) =>
      rules.filter(({ only = "" }) => path.endsWith(only)).flatMap(({ name, pattern, advice }) => [...line.matchAll(pattern)].map(([found]): Violation => ({ path, line: index + 1, message: `${name} (${found.trim()}): ${advice}` }))),
    ),
  );
}
