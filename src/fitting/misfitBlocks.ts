import { groupedNormal } from "../numerics/groupedNormal.ts";
import type { GroupedNormal, Grouping } from "../numerics/groupedNormal.ts";
import { firstMisfit, missKey } from "./wheelMisfit.ts";
import { quantities } from "./wheelObservations.ts";
import type { Belief, WheelSoilFit } from "./wheelSoilFit.ts";

/** What the model misses of one quantity, as the posterior samples it: logarithms of δ by kind, then of σ by bed and by wheel where the runs can tell them. */
export interface MisfitBlock {
  /** places of its data among those of the fit */
  readonly at: readonly number[];
  /** the kinds of δ, as in the fit's discrepancy */
  readonly kinds: readonly string[];
  readonly start: readonly number[];
  /** about how well so many data and groups tell each */
  readonly spread: readonly number[];
  /** ln of the belief, up to a constant */
  readonly logPrior: (logs: readonly number[]) => number;
  /** of the residuals of this quantity */
  readonly normal: (logs: readonly number[]) => GroupedNormal;
  /** ln of what a further run on another bed is missed by, one a kind */
  readonly whole: (logs: readonly number[]) => number[];
}

/** belief of each δ: a few hundredths, within a factor of three either way; of what beds or wheels share a third of that */
const single: Belief = { mean: Math.log(0.015), sd: 1.1 };
const shared: Belief = { mean: Math.log(0.005), sd: 1.1 };
const leastStart = 0.002;

/**
 * The misfit of a fit in blocks that know nothing of each other, one a quantity.
 *
 *   V = diag((own² + δ²)/w) + σ_bed² within each bed + σ_wheel² within each wheel
 *   ln δ ~ N(ln 0.015, 1.1²)      ln σ ~ N(ln 0.005, 1.1²)
 *
 * @param fit   a converged fit
 * @returns     a block a quantity that was measured
 * @source      covariance as in `wheelSoilFit`; beliefs: common practice
 * @checked     tests/fitting/wheelSoilPosterior.test.ts
 */
export function misfitBlocks(fit: WheelSoilFit): MisfitBlock[] {
  const rows = fit.data.map(({ observation, quantity }) => ({ observation, quantity, kind: missKey(quantity, observation.wheel) }));
  const told = firstMisfit(rows);
  return quantities.flatMap((quantity): MisfitBlock[] => {
    const at = rows.flatMap((row, i) => (row.quantity === quantity ? [i] : []));
    if (at.length === 0) return [];
    const mine = at.map((i) => rows[i] as (typeof rows)[number]);
    const kinds = Object.keys(fit.discrepancy).filter((key) => mine.some(({ kind }) => kind === key));
    const kindOf = mine.map(({ kind }) => kinds.indexOf(kind));
    const [beds, wheels] = [told.beds[quantity] > 0, told.wheels[quantity] > 0];
    const groupings = [...(beds ? [numbered(mine.map(({ observation }) => observation.bed))] : []), ...(wheels ? [numbered(mine.map(({ observation }) => observation.wheel.id))] : [])];
    const known = at.map((i) => (fit.data[i] as WheelSoilFit["data"][number]).ownUncertainty ** 2);
    const weights = at.map((i) => (fit.data[i] as WheelSoilFit["data"][number]).weight);
    const fitted = [...kinds.map((kind) => fit.misfit.single[kind] as number), ...(beds ? [fit.misfit.beds[quantity]] : []), ...(wheels ? [fit.misfit.wheels[quantity]] : [])];
    const normalOf = groupedNormal(groupings);
    const groupsOf = (logs: readonly number[]): number[] => logs.slice(kinds.length).map((log) => Math.exp(2 * log));
    return [{
      at, kinds,
      start: fitted.map((spread) => Math.log(Math.max(leastStart, spread))),
      spread: [...kinds.map((_, k) => 1 / Math.sqrt(2 * kindOf.filter((kind) => kind === k).length)), ...groupings.map((places) => 1 / Math.sqrt(2 * (1 + Math.max(...places))))],
      logPrior: (logs) => logs.reduce((sum, log, j) => sum - 0.5 * ((log - (j < kinds.length ? single : shared).mean) / (j < kinds.length ? single : shared).sd) ** 2, 0),
      normal: (logs) => {
        const deltas = kinds.map((_, k) => Math.exp(2 * (logs[k] as number)));
        return normalOf(known.map((variance, i) => (variance + (deltas[kindOf[i] as number] as number)) / (weights[i] as number)), groupsOf(logs));
      },
      whole: (logs) => kinds.map((_, k) => 0.5 * Math.log(groupsOf(logs).reduce((sum, variance) => sum + variance, Math.exp(2 * (logs[k] as number))))),
    }];
  });
}

/** Names as numbers in the order in which they come; −1 for none. */
function numbered(names: readonly (string | null)[]): Grouping {
  const places = new Map<string, number>();
  return names.map((name) => {
    if (name === null) return -1;
    const place = places.get(name) ?? places.size;
    places.set(name, place);
    return place;
  });
}
