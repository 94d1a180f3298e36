import { extremes, hostileNames, pick } from "./hostile.ts";
import type { Spoil } from "./spoilBytes.ts";
import { onText } from "./spoilText.ts";

const aliasBomb = (levels: number, width: number): string => Array.from({ length: levels }, (_, level) => `a${level}: &a${level} [${Array.from({ length: width }, () => (level === 0 ? "x" : `*a${level - 1}`)).join(", ")}]`).join("\n");
const steps = (depth: number, key: string): string => Array.from({ length: depth }, (_, level) => `${" ".repeat(level)}${key}:`).join("\n");

/** What can stand where a value stands. */
const values: readonly ((size: number) => string)[] = [
  (size) => "[".repeat(size),
  (size) => "{a: ".repeat(size),
  (size) => `${"[".repeat(size)}${"]".repeat(size)}`,
  (size) => `${"{a: ".repeat(size)}1${"}".repeat(size)}`,
  (size) => `\n${steps(Math.min(size, 1200), "  k").replaceAll("\n", "\n  ")}`,
  (size) => `- ${"- ".repeat(size)}`,
  (size) => `"${"x".repeat(size * 20)}"`,
  (size) => `|\n${`  ${"y".repeat(80)}\n`.repeat(size / 10)}`,
  () => "&self [*self]",
  () => "{<<: *nobody}",
  () => "!!binary aGVsbG8=",
  () => '!!js/function "function () {}"',
  () => "!!timestamp 2026-01-01",
  () => "!!set {a, b}",
  () => "{__proto__: {polluted: yes}}",
  () => "{constructor: {prototype: {polluted: yes}}}",
  () => "{? [a, b] : c, ? {d: e} : f}",
  () => "{toString: 1, valueOf: 2, hasOwnProperty: 3}",
  () => "~",
  () => "{}",
  () => "[]",
];

/** What a rig description suffers. */
export const spoilYaml: Readonly<Record<string, Spoil>> = {
  "odd value": onText((text, random) => {
    const value = pick(values, random)(1 + random.integer(pick([4, 100, 10_000], random)));
    let left = random.integer((text.match(/: /g) ?? []).length) + 1;
    return text.replace(/: ([^\n{},]*)/g, (whole) => (--left === 0 ? `: ${value}` : whole));
  }),
  "extreme value": onText((text, random) => {
    let left = random.integer((text.match(/: [^\n{},]+/g) ?? []).length) + 1;
    return text.replace(/: ([^\n{},]+)/g, (whole) => (--left === 0 ? `: ${pick([...extremes, ...hostileNames.map((name) => JSON.stringify(name))], random)}` : whole));
  }),
  "hostile key": onText((text, random) => {
    let left = random.integer((text.match(/[A-Za-z]+:/g) ?? []).length) + 1;
    return text.replace(/[A-Za-z]+:/g, (whole) => (--left === 0 ? `${pick([...hostileNames.map((name) => JSON.stringify(name)), "? [a]\n", "? {b: c}\n", "__proto__", "1", "~", "*x", "&y z"], random)}:` : whole));
  }),
  "bomb of aliases": onText((text, random) => `${aliasBomb(2 + random.integer(30), 2 + random.integer(12))}\n${text}`),
  "deep beside": onText((text, random) => `${text}\nmore: ${pick(values, random)(1 + random.integer(100_000))}\n`),
  "many keys": onText((text, random) => `${text}${Array.from({ length: random.integer(30_000) }, (_, index) => `k${index}: ${index}`).join("\n")}`),
  "many documents": onText((text, random) => text + "---\n".repeat(random.integer(50_000))),
  "many channels": onText((text, random) => text.replace(/channels:\n/, (whole) => whole + Array.from({ length: random.integer(5000) }, (_, index) => `      c${index}: { column: "c${index}", unit: N, sign: 1 }\n`).join(""))),
  "indentation": onText((text, random) => text.replace(/^ +/gm, (blanks) => (random.integer(10) === 0 ? " ".repeat(random.integer(8)) : blanks))),
  "tabs": onText((text) => text.replace(/^ +/gm, "\t")),
};
