import { expect, test } from "vitest";
import { loadCycles } from "../../../src/processing/conditioning/loadCycles.ts";
import { agrees } from "../../helpers/agrees.ts";

const history = [-2, 1, -3, 5, -1, 3, -4, 4, -2];

test("the worked example of the standard, in one piece and in many", () => {
  const source = "ASTM E1049-85, figure 6, from memory: ranges 3, 4, 6, 8, 9 with 0.5, 1.5, 0.5, 1, 0.5 cycles";
  for (const piece of [history.length, 2, 1]) {
    const counter = loadCycles(10);
    for (let from = 0; from < history.length; from += piece) counter.add(history.slice(from, from + piece));
    const found = counter.classes();
    expect(found.length).toBe(5);
    [[3, 0.5], [4, 1.5], [6, 0.5], [8, 1], [9, 0.5]].forEach(([range, cycles], i) => {
      agrees(found[i]?.range ?? Number.NaN, { expected: range as number, within: 0, source });
      agrees(found[i]?.cycles ?? Number.NaN, { expected: cycles as number, within: 0, source });
    });
  }
});

test("ranges of one class share it with their mean; what stays within a class is noise", () => {
  const counter = loadCycles(256);
  counter.add([0, 10.2, 0, 10.6, 0, 0.9, 0]);
  expect(counter.classes()).toEqual([{ range: 10.4, cycles: 2 }]);
  const quiet = loadCycles(256);
  quiet.add([5, 5.5, 5, Number.NaN, 5.4]);
  expect(quiet.classes()).toEqual([]);
});
