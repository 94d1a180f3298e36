import { seededRandom } from "../numerics/random.ts";
import { misfitWhitening } from "./wheelMisfit.ts";
import { wheelShares } from "./wheelShares.ts";
import type { WheelDatum, WheelModelToFit, WheelSoilFit } from "./wheelSoilFit.ts";
import { wheelRows, whitenedFit } from "./whitenedFit.ts";

/** of each refit, from the fit to all runs: what further steps change lies far below the spread of the replicates */
const refitSteps = 3;

/**
 * Refits to runs drawn with replacement: how much the constants rest on which runs were made.
 *
 * Whole beds are drawn where runs name their bed, else single runs; never single readings, which share their run. A bed
 * drawn twice counts as two beds. Beliefs are drawn too, each from itself, or a constant that only belief carries would not
 * spread at all. Misfit and weights stay as fitted.
 *
 * @param fit     a converged fit
 * @param toFit   its model
 * @param seeds   one a replicate; the same seed gives the same replicate on every thread
 * @returns       fitted parameters of each; replicates without an answer are left out
 * @source        B. Efron and R. J. Tibshirani, An Introduction to the Bootstrap, ch. 8 and 9; drawing the belief: randomised maximum a posteriori, D. S. Oliver et al. 1996; both from memory
 * @checked       tests/fitting/wheelBootstrap.test.ts
 */
export function wheelBootstrap(fit: WheelSoilFit, toFit: WheelModelToFit, seeds: readonly number[]): number[][] {
  const byRun = new Map<string, WheelDatum[]>();
  for (const datum of fit.data) byRun.set(datum.observation.run, [...(byRun.get(datum.observation.run) ?? []), datum]);
  const runs = [...byRun.values()];
  const blockOf = ([first]: readonly WheelDatum[]): string => (first as WheelDatum).observation.bed ?? `run ${(first as WheelDatum).observation.run}`;
  const blocks = [...new Set(runs.map(blockOf))].map((name) => runs.filter((run) => blockOf(run) === name));
  return seeds.flatMap((seed) => {
    const random = seededRandom(seed);
    const drawn = blocks.flatMap((_, k) => (blocks[random.integer(blocks.length)] as WheelDatum[][]).map((run) => ({ run, k })));
    const observations = drawn.map(({ run: [first], k }) => ({ ...(first as WheelDatum).observation, bed: (first as WheelDatum).observation.bed === null ? null : `draw ${k}` }));
    const data = drawn.flatMap(({ run }) => run);
    const rows = wheelRows(observations);
    const whitening = misfitWhitening(rows, data.map(({ ownUncertainty }) => ownUncertainty), data.map(({ weight }) => weight), fit.misfit);
    const beliefs = toFit.beliefs.map(({ mean, sd }) => ({ mean: mean + sd * random.normal(), sd }));
    const { parameters, sumOfSquares } = whitenedFit(wheelShares(rows, toFit), { ...toFit, beliefs }, fit.fitted, whitening, refitSteps);
    return Number.isFinite(sumOfSquares) ? [[...parameters]] : [];
  });
}
