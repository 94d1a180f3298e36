import type { TolerancePair } from "../../campaign/tolerances.ts";
import { toldAs, undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import type { Measured } from "../../core/measure.ts";

/** standard uncertainties of a difference above which doubts no longer explain it */
const clear = 2;

/** One way to the restitution, and its name in messages. */
export interface Way {
  readonly name: string;
  readonly estimate: Estimate<"1">;
}

/**
 * The restitution that is reported as the run's, and how well the ways agree.
 *
 * The order is declared, not chosen by the result: velocities, flight times, heights; the first that is determined stands.
 * Velocities come first because the gain of the accelerometer cancels in them and no flight is needed to return to the
 * height it left from. [1]
 *
 * @param ways   the ways in their declared order
 * @param limits limits of the largest difference of two ways as a share of the adopted value; one that their doubts explain does not count
 * @returns      the adopted estimate with the way in its method, and a finding beyond a limit or when only one way is left
 * @source       common practice
 * @checked      tests/processing/measures/restitution.test.ts
 */
export function adoptedRestitution(ways: readonly Way[], limits: TolerancePair): Measured<"1"> {
  const determined = ways.filter((way) => way.estimate.standardUncertainty !== null);
  const order = ways.map((way) => way.name).join(", ");
  const first = determined[0];
  if (first === undefined) {
    const reasons = [...new Set(ways.map((way) => way.estimate.method))].join("; ");
    return { estimate: undetermined("1", reasons), findings: [finding("no-restitution", "look", `No restitution could be determined. ${reasons}`)] };
  }
  const estimate = toldAs(first.estimate, `from ${first.name} (declared order: ${order}; the first that is determined stands); ${first.estimate.method}`);
  return { estimate, findings: agreement(determined, first, limits) };
}

function agreement(ways: readonly Way[], first: Way, limits: TolerancePair): Finding[] {
  if (ways.length < 2) return [finding("restitution-one-way", "note", `Restitution is known from ${first.name} only; nothing confirms it`)];
  const share = Math.max(0, ...ways.flatMap(({ estimate: a }) => ways.map(({ estimate: b }) => (a.value - b.value > clear * Math.hypot(a.standardUncertainty ?? 0, b.standardUncertainty ?? 0) ? a.value - b.value : 0)))) / first.estimate.value;
  if (share <= limits.look) return [];
  const severity = share > limits.reject ? "reject" : "look";
  const list = ways.map((way) => `${way.name} ${way.estimate.value.toFixed(3)} ± ${(2 * (way.estimate.standardUncertainty ?? 0)).toFixed(3)}`).join(", ");
  return [finding("restitution-disagrees", severity, `The ways to the restitution differ by ${(100 * share).toFixed(1)} %: ${list} (± two standard uncertainties). Look at the contact times in the trace, the accelerometer's mounting and the height's zero`, { measured: share, limit: limits[severity] })];
}
