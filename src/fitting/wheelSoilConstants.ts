import { estimateFrom, undetermined } from "../core/estimate.ts";
import { standardDeviation } from "../numerics/statistics.ts";
import type { WheelSoilParameter } from "../processing/wheelSoilResult.ts";
import type { Identifiability } from "./identifiability.ts";
import type { ProfileInterval } from "./profileInterval.ts";
import type { ReasonedBelief } from "./soilBeliefs.ts";
import type { WheelSoilFit } from "./wheelSoilFit.ts";
import { soilParameters } from "./wheelSoilParameters.ts";

const twoSided95 = 1.959963984540054;
/** fewer refits tell no spread */
const fewestReplicates = 10;

/**
 * The constants of the soil with everything that is known of how well they are known.
 *
 * A constant that only belief carries has no value of its own: its estimate is undetermined and says why.
 *
 *   intervals: p ± 1.96 √C_jj; the profile's ends; p ± 1.96 sd of the refits; each carried from the fitted scale to the unit
 *
 * @param fit          of the stress integrals
 * @param beliefs      before the data, in the order of `soilParameters`
 * @param known        what the data determine
 * @param profiles     by place among `soilParameters`
 * @param replicates   fitted parameters of refits to drawn beds or runs
 * @returns            one a parameter
 * @source             JCGM 100:2008, 5.1.2; the parts name theirs
 * @checked            tests/fitting/wheelSoilConstants.test.ts
 */
export function wheelSoilConstants(fit: WheelSoilFit, beliefs: readonly ReasonedBelief[], known: Identifiability, profiles: ReadonlyMap<number, ProfileInterval>, replicates: readonly (readonly number[])[]): WheelSoilParameter[] {
  const runs = new Set(fit.data.map(({ observation }) => observation.run)).size;
  return soilParameters.map(({ name, symbol, unit, toUnit, lower, upper }, j) => {
    const belief = beliefs[j] as ReasonedBelief;
    const { narrowing, share, sentence } = known.parameters[j] as Identifiability["parameters"][number];
    const value = fit.fitted[j] as number;
    // the scale may be a logarithm or a square: its slope carries the standard deviation over
    const slopeAt = (x: number): number => (toUnit(x + 1e-6) - toUnit(x - 1e-6)) / 2e-6;
    const variance = (fit.covariance[j] as readonly number[])[j] as number;
    const own = Math.sqrt((fit.ownCovariance[j] as readonly number[])[j] as number);
    const shared = Math.sqrt(Math.max(0, variance - own ** 2));
    const rows = [
      { cause: `scatter of the wheel runs and error of the model, ${symbol}`, effect: slopeAt(value) * own, sharedBy: null, degreesOfFreedom: Infinity },
      { cause: `calibrations behind the wheel runs, ${symbol}`, effect: slopeAt(value) * shared, sharedBy: "calibrations of the wheel runs", degreesOfFreedom: Infinity },
    ];
    const around = (sd: number): [number, number] => [toUnit(Math.max(lower, value - twoSided95 * sd)), toUnit(Math.min(upper, value + twoSided95 * sd))];
    const ended = profiles.get(j);
    const end = (at: number | null): number | null => (at === null ? null : toUnit(at));
    return {
      name, symbol,
      estimate: share === "undetermined" ? undetermined(unit, sentence) : estimateFrom(toUnit(value), unit, `stress integrals fitted to ${runs} runs`, rows),
      believed: { value: toUnit(belief.mean), sd: Math.abs(slopeAt(belief.mean)) * belief.sd, reason: belief.reason },
      interval: around(Math.sqrt(variance)),
      profile: ended === undefined ? null : { low: end(ended.low), high: end(ended.high) },
      bootstrap: replicates.length < fewestReplicates ? null : around(standardDeviation(replicates.map((replicate) => replicate[j] as number))),
      narrowing, share,
      sentence: [
        sentence,
        ...(fit.atLimit[j] === true ? ["It stands at the bound of what it can be: the data ask for more, and its interval holds towards the inside only."] : []),
        ...(ended === undefined ? [] : [profileSentence(symbol, ended, [value - twoSided95 * own, value + twoSided95 * own])]),
      ].join(" "),
    };
  });
}

/** an end that lies this much nearer or farther than the covariance has it is worth a word */
const lopsided = 0.25;

/**
 * What the profile of the data says of a constant, in words.
 *
 * @param symbol       of the constant
 * @param profile      its ends, null = open
 * @param covariance   the interval by the covariance of data and belief
 * @returns            one sentence
 * @source             `profileInterval`
 * @checked            tests/fitting/wheelSoilConstants.test.ts
 */
export function profileSentence(symbol: string, { low, high }: ProfileInterval, [from, to]: readonly [number, number]): string {
  if (low === null && high === null) return `The data alone leave ${symbol} open on both sides.`;
  if (low === null || high === null) return `The data alone leave ${symbol} open ${low === null ? "below" : "above"}: it is not determined on that side.`;
  const half = (to - from) / 2;
  const moved = [["lower", from - low], ["upper", high - to]] as const;
  const farther = moved.filter(([, by]) => by > lopsided * half).map(([side]) => side);
  const nearer = moved.filter(([, by]) => by < -lopsided * half).map(([side]) => side);
  if (farther.length + nearer.length === 0) return "The data hold it on both sides, as far as the covariance says.";
  const ends = (sides: readonly string[]): string => (sides.length === 2 ? "both ends lie" : `the ${sides[0] ?? ""} end lies`);
  return `The data hold it on both sides; ${[farther.length > 0 && `${ends(farther)} farther out than the covariance says`, nearer.length > 0 && `${ends(nearer)} nearer`].filter((part) => part !== false).join(", ")}.`;
}
