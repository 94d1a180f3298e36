import { expect, test } from "vitest";
import { verticalWeighting } from "../../src/models/rideWeighting.ts";
import { agrees } from "../helpers/agrees.ts";

/** nominal third-octave frequency [Hz] and 1000 W_k */
const printed = [
  [0.1, 31.2], [0.125, 48.6], [0.16, 79], [0.2, 121], [0.25, 182], [0.315, 263], [0.4, 352], [0.5, 418], [0.63, 459], [0.8, 477], [1, 482], [1.25, 484], [1.6, 494], [2, 531], [2.5, 631], [3.15, 804],
  [4, 967], [5, 1039], [6.3, 1054], [8, 1036], [10, 988], [12.5, 902], [16, 768], [20, 636], [25, 513], [31.5, 405], [40, 314], [50, 246], [63, 186], [80, 132], [100, 88.7], [125, 54], [160, 28.5], [200, 15.2], [250, 7.9], [315, 3.98], [400, 1.95],
] as const;

test("the printed factors", () => {
  for (const [hz, thousandth] of printed) agrees(1000 * verticalWeighting(hz), { expected: thousandth, relative: 5e-3, source: "ISO 2631-1, table 3, principal weighting W_k at nominal third-octave frequencies (from memory)" });
});

test("further digits", () => {
  for (const [hz, thousandth, within] of [[0.5, 418.2, 0.06], [1, 482.5, 0.06], [4, 967.2, 0.06], [6.3, 1054, 0.6], [16, 768.7, 0.06], [31.5, 404.8, 0.06], [80, 132.4, 0.06]] as const) agrees(1000 * verticalWeighting(hz), { expected: thousandth, within, source: "the transfer function with the constants of ISO 8041, worked by an independent program" });
});

test("wrong call", () => expect(() => verticalWeighting(0)).toThrow(/frequency/));
