import { describe, expect, it } from "vitest";
import { readSheetXml } from "../../src/workbook/sheetXml.ts";

const cells = (xml: string): unknown[] => readSheetXml(new TextEncoder().encode(`<worksheet><sheetData><row r="2">${xml}</row></sheetData></worksheet>`), [], ["number", "percent", "date"], false).rows.flatMap((row) => [...row.cells]);

// The forms of a formula cell as ECMA-376 part 1 has them: 18.3.1.4 (c), 18.3.1.40 (f), 18.18.11 (types).
describe("formulas", () => {
  it("stand for the result that the program which wrote the workbook kept beside them", () => {
    expect(cells('<c r="A2"><f>B2*2</f><v>-2.25</v></c><c r="B2" t="str"><f>"k"&amp;"N"</f><v>kN</v></c><c r="C2" t="b"><f>1&gt;0</f><v>1</v></c><c r="D2" t="e"><f>1/0</f><v>#DIV/0!</v></c>')).toEqual([
      { kind: "number", value: -2.25 },
      { kind: "text", text: "kN" },
      { kind: "truth", value: true },
      { kind: "error", text: "#DIV/0!" },
    ]);
  });

  it("keep the format of their cell, and may be shared or of an array", () => {
    expect(cells('<c r="A2" s="1"><f t="shared" si="0"/><v>0.25</v></c><c r="B2" s="2"><f t="array" ref="B2:B3">A2:A3</f><v>46296.5</v></c>')).toEqual([
      { kind: "percent", value: 0.25 },
      { kind: "date", ms: Date.UTC(2026, 9, 1, 12) },
    ]);
  });

  it("without a result are no empty cells, and an empty text is one", () => {
    expect(cells('<c r="A2"><f>B2*2</f></c><c r="B2"><f>B3</f><v></v></c><c r="C2" t="str"><f>""</f><v></v></c><c r="D2"><v>1</v></c>')).toEqual([{ kind: "formula without result" }, { kind: "formula without result" }, undefined, { kind: "number", value: 1 }]);
  });
});
