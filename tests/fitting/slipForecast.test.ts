import { expect, test } from "vitest";
import { slipForecast } from "../../src/fitting/slipForecast.ts";
import { wheelPredictor } from "../../src/fitting/wheelPredictor.ts";
import { agrees } from "../helpers/agrees.ts";
import { cardConstants, flexible, rigid, soilCard } from "../helpers/soilCard.ts";

const half = (interval: readonly [number, number] | null): number => ((interval?.[1] ?? Number.NaN) - (interval?.[0] ?? Number.NaN)) / 2;

test("with known constants the interval is 1.96 times what the model misses", () => {
  const [row] = slipForecast(soilCard({ scatter: 0, missed: 0.02 }), rigid, 60, [0.2]).rows;
  const source = "1.96 δ W, 1.96 δ R W, 1.96 δ R by hand; 1600 values know an edge to a few hundredths";
  agrees(half(row?.band.pullN ?? null), { expected: 1.96 * 0.02 * 60, relative: 0.08, source });
  agrees(half(row?.band.torqueNm ?? null), { expected: 1.96 * 0.02 * 60 * 0.155, relative: 0.08, source });
  agrees(half(row?.band.sinkageM ?? null), { expected: 1.96 * 0.02 * 0.155, relative: 0.08, source });
});

test("with an exact model the interval is that of the constants", () => {
  const card = soilCard({ missed: 0, draws: 400 });
  const [row] = slipForecast(card, rigid, 60, [0.2]).rows;
  const pulls = card.draws.rows.map((draw) => {
    const found = wheelPredictor(card, rigid, draw.slice(0, 12))(60, 0.2);
    return "reason" in found ? Number.NaN : found.pullN;
  }).sort((a, b) => a - b);
  const source = "the 2.5 % and 97.5 % of the pulls by each draw, counted here";
  agrees(row?.band.pullN?.[0] ?? Number.NaN, { expected: pulls[10] as number, within: 0.15, source });
  agrees(row?.band.pullN?.[1] ?? Number.NaN, { expected: pulls[389] as number, within: 0.15, source });
  expect(row?.best).toEqual(wheelPredictor(card, rigid, cardConstants)(60, 0.2));
});

test("the slope: its tangent is the pull over the load that the slope leaves on the wheel", () => {
  const card = soilCard();
  const [slope] = slipForecast(card, rigid, 60, [0.3], [0.3]).slopes;
  const angle = slope?.bestRad ?? Number.NaN;
  const found = wheelPredictor(card, rigid)(60 * Math.cos(angle), 0.3);
  if ("reason" in found) throw new Error(found.reason);
  agrees(found.pullN, { expected: 60 * Math.sin(angle), relative: 1e-5, source: "balance along the slope, by hand" });
  expect(slope?.bandRad?.[0]).toBeLessThan(angle);
  expect(slope?.bandRad?.[1]).toBeGreaterThan(angle);
});

test("no balance: no value, no interval, the reason; where some draws have none the interval is open", () => {
  const { rows: [none], slopes: [slope] } = slipForecast(soilCard(), rigid, 1e6, [0.2], [0.2]);
  expect(none).toMatchObject({ best: null, reason: "the soil does not carry 1000000 N before the wheel is in up to its axle", band: { pullN: null } });
  expect(slope).toEqual({ slip: 0.2, bestRad: null, bandRad: null });
  const most = [400, 800, 1200, 1600, 2000, 2400, 2800, 3200, 3600, 4000, 4400, 4800].map((loadN) => slipForecast(soilCard({ scatter: 3 }), rigid, loadN, [0.2]).rows[0]).filter((row) => row?.best !== null).at(-1);
  expect(most?.band.sinkageM).toBeNull();
});

test("a kind of wheel that was not among the runs: the greatest that the model misses of the others", () => {
  const card = soilCard({ scatter: 0, missed: 0.02 });
  agrees(half(slipForecast(card, flexible, 60, [0.2]).rows[0]?.band.pullN ?? null), { expected: 1.96 * 0.02 * 60, relative: 0.08, source: "1.96 δ W by hand" });
});

test("a wheel that was not among the runs: wider, by Student's factor on what goes from wheel to wheel", () => {
  const four = ["A", "B", "C", "D"].map((id) => ({ ...rigid, id }));
  const card = { ...soilCard({ scatter: 0, missed: 0.02 }), wheels: four, wheelSpread: { pull: 0.015, torque: 0, sinkage: 0 } };
  const pull = (id: string): number => half(slipForecast(card, { ...rigid, id }, 60, [0.2]).rows[0]?.band.pullN ?? null);
  agrees(pull("A"), { expected: 1.96 * 0.02 * 60, relative: 0.08, source: "1.96 δ W by hand" });
  // δ² = 0.02² − 0.015² + (0.015 · 3.182/1.96)²
  agrees(pull("E"), { expected: 1.96 * Math.sqrt(0.02 ** 2 - 0.015 ** 2 + ((0.015 * 3.182) / 1.96) ** 2) * 60, relative: 0.08, source: "Student's t of three degrees of freedom, printed tables: 3.182; the rest by hand" });
});

test("same card, same numbers", () => {
  expect(slipForecast(soilCard(), rigid, 60, [0.1, 0.4], [0.2])).toEqual(slipForecast(soilCard(), rigid, 60, [0.1, 0.4], [0.2]));
});
