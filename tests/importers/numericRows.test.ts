import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { plainNumber } from "../../src/importers/oddCell.ts";
import { numbers, read } from "./sample.ts";

const digits = (most: number): fc.Arbitrary<string> => fc.stringMatching(new RegExp(`^[0-9]{0,${most}}$`));
const decimalText = fc
  .tuple(fc.constantFrom("", "-", "+"), digits(19), fc.constantFrom("", "."), digits(19), fc.option(fc.tuple(fc.constantFrom("e", "E"), fc.constantFrom("", "+", "-"), fc.integer({ min: 0, max: 320 }))))
  .map(([sign, whole, point, fraction, exponent]) => `${sign}${whole}${point}${point === "" ? "" : fraction}${exponent === null ? "" : exponent.join("")}`)
  .filter((text) => /\d/.test(text.split(/[eE]/)[0] as string) && Number.isFinite(Number(text)));
const anyDouble = fc.oneof(fc.double({ noNaN: true, noDefaultInfinity: true }).map(String), decimalText);
/** Rounded readings as loggers write them. */
const reading = fc.tuple(fc.double({ min: -1e5, max: 1e5, noNaN: true }), fc.integer({ min: 0, max: 9 })).map(([value, places]) => value.toFixed(places));

describe("numbers are read as Number() reads them, bit for bit", () => {
  for (const decimal of [".", ","] as const) {
    it.each([
      ["random decimals", anyDouble],
      ["logger readings", reading],
    ])(`decimal ${decimal}: %s`, (_, source) => {
      fc.assert(
        fc.property(fc.array(source, { minLength: 2, maxLength: 60 }), (cells) => {
          const rows = cells.map((cell) => `${cell.replace(".", decimal)}\n`).join("");
          const found = numbers(read(`F\n${rows}`, { clock: { kind: "rate", rateHz: 1 }, decimal }));
          expect(found.map(bits)).toEqual(cells.map((cell) => bits(Number(cell))));
        }),
        { numRuns: 400, seed: 20261125 },
      );
    });
  }

  it.each(["9007199254740991", "9007199254740992", "9007199254740993", "1e22", "1e23", "1e-22", "1e-23", "0.1e-21", "123456789012345678e-30", "-0", "-0.0", "+1.2", ".5", "5.", "1E+5", "4.9e-324", "1.7976931348623157e308", "2.2250738585072011e-308"])("%s", (text) => {
    const [found] = numbers(read(`t,F\n0.0,${text}\n0.1,1\n`));
    expect(bits(found as number)).toBe(bits(Number(text)));
  });

  it.each(["", ".", "+", "-", "1e", "e5", "1e+", "1.2.3", "1_000", "0x1F", "Infinity", "1e400", "1 2", "½", "١"])("no number: %j", (text) => {
    expect(plainNumber(text, ".")).toBeNull();
    if (text !== "") expect(() => read(`t;F\n0.5;${text}\n0.6;1\n`, { decimal: "." })).toThrow("expected a number");
  });

  it("does not read a point where the comma is the decimal mark, nor the other way round", () => {
    expect(() => read("t;F\n0,5;1.5\n0,6;1,5\n", { decimal: "," })).toThrow('found "1.5"');
    expect(() => read("t;F\n0.5;1,5\n0.6;1.5\n", { decimal: "." })).toThrow('found "1,5"');
  });

  it("makes room when later rows are shorter than the first", () => {
    const long = Array.from({ length: 800 }, (_, i) => `${i}.${"0".repeat(100)},1.5\n`).join("");
    const short = Array.from({ length: 50_000 }, (_, i) => `${800 + i},2\n`).join("");
    const table = read(`t,F\n${long}${short}`);
    expect(table.source.rowsRead).toBe(50_800);
    expect(table.timesS[50_799]).toBe(50_799);
    expect(table.columns[0]?.samples[50_799]).toBe(2);
  });
});

function bits(value: number): bigint {
  return new BigUint64Array(Float64Array.of(value).buffer)[0] as bigint;
}
