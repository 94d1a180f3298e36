import { expect, test } from "vitest";
import { distanceFromData } from "../../src/fitting/distanceFromData.ts";
import { flexible, rigid, soilCard } from "../helpers/soilCard.ts";

const far = (loadN: number, slip: number, wheel = rigid, card = soilCard()) => distanceFromData(card, wheel, loadN, slip);

test("amid the runs nothing is said; a little past them neither", () => {
  expect(far(60, 0.2)).toEqual({ wheel: [], slip: [] });
  expect(far(102, 0.51)).toEqual({ wheel: [], slip: [] });
});

test("each axis in plain words, with how far", () => {
  expect(far(200, 0.2).wheel).toEqual([
    { words: "load 200 N above the runs' 30 N to 100 N", by: "by a factor of 2" },
    { words: "pressure (load over radius times width) 12.9 kPa above the runs' 1.94 kPa to 6.45 kPa", by: "by a factor of 2" },
  ]);
  expect(far(60, 0.9).slip).toEqual([{ words: "slip above the runs' 0.05 to 0.5", by: "by 0.4" }]);
  expect(far(60, -0.3).slip).toEqual([{ words: "slip below the runs' 0.05 to 0.5", by: "by 0.35" }]);
  expect(far(60, 0.2, { ...rigid, rimM: 0.3 }).wheel).toEqual([{ words: "diameter over the lugs 610 mm above the runs' 310 mm", by: "by a factor of 1.97" }]);
  expect(far(60, 0.2, { ...rigid, widthM: 0.05 }).wheel[0]).toEqual({ words: "width 50 mm below the runs' 100 mm", by: "by a factor of 2" });
});

test("a kind of wheel that was not among the runs", () => {
  expect(far(60, 0.2, flexible).wheel[0]).toEqual({ words: "no flexible wheel was among the runs", by: "" });
});

test("inside the ranges but in a corner without runs: the nearest is named", () => {
  const card = soilCard();
  const corner = { ...card, validity: { ...card.validity, conditions: card.validity.conditions.filter(({ loadN, slip }) => loadN < 50 || slip < 0.1) } };
  expect(far(100, 0.5, rigid, corner).slip[0]?.words).toMatch(/^inside the ranges, but no run stands near: the nearest is R\d+-0\.\d+ \(\d+ N, slip 0\.\d+, 310 mm\)$/);
  expect(far(100, 0.12, rigid, corner).slip).toEqual([]);
});
