import { expect, test } from "vitest";
import { significant } from "../../src/core/significant.ts";

test("so many figures, and no power of ten in a sentence", () => {
  expect([significant(60, 3), significant(1234, 3), significant(223.2, 2), significant(0.01234, 2), significant(-98765, 1)]).toEqual(["60.0", "1230", "220", "0.012", "-100000"]);
  expect(significant(Number.NaN, 3)).toBe("NaN");
});
