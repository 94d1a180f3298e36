import type { Random } from "../../src/numerics/random.ts";

/** Names that a file may carry and that nobody should act upon. */
export const hostileNames: readonly string[] = [
  "__proto__",
  "constructor",
  "prototype",
  "hasOwnProperty",
  "toString",
  "../../outside",
  "/etc/passwd",
  "C:\\CON",
  "<img src=x onerror=drawbar()>",
  "</script><script>drawbar()</script>",
  '"><b onmouseover=drawbar()>',
  "{{7*7}}${7*7}`id`",
  "%s%n%x",
  '=HYPERLINK("http://example.invalid","x")',
  "@SUM(1)",
  "\u001b[2J\u001b]0;title\u0007",
  "a\u0000b",
  "a\nb\rc\td",
  "\u0085\u009b31m",
  "\u202egnp.csv",
  "\u2066left\u2069\u200f",
  "line\u2028and\u2029paragraph",
  "\ud800 half a letter",
  "\ufeff\ufffe\uffff",
  "e\u0301".repeat(300),
  "👩‍🔬".repeat(50),
  "x".repeat(70_000),
  "",
  " ",
  "[",
  "N [",
  "] [N] [",
  "a[[[[[[[[[[[[[[[[[[[[",
  "*",
  "&a",
  "!!js",
  "-",
  "?",
  "|",
];

/** Numbers at and past every edge a reader may have. */
export const extremes: readonly string[] = ["1e999", "-1e999", "1e-999", "NaN", "Infinity", "-Infinity", "-0", "9".repeat(400), `0.${"0".repeat(400)}1`, "1e+", "e5", "0x10", "1_000", "١٢٣", "9007199254740993", "18446744073709551616", "-9223372036854775809", "2147483648", "4294967296", "1e308", "5e-324", "--1", "+-1", "1.2.3", ".", ",", "1,234,567.89", "999999-99-99", "0000-00-00T00:00:00Z", "2026-02-30 25:61:61", "1e22", "1e23", "1".repeat(100_000)];

export function pick<T>(list: readonly T[], random: Random): T {
  return list[random.integer(list.length)] as T;
}
