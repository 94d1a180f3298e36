import type { Finding } from "../core/finding.ts";
import { finding } from "../core/finding.ts";
import { sinkagePowerLaw } from "../processing/measures/sinkagePowerLaw.ts";
import type { PlateGroup } from "./plateTests.ts";
import { pooledCovariance } from "./pooledCovariance.ts";

/** How the widths' (n, q) scatter: q = ln p at the width's centre sinkage. */
export interface PlateScatter {
  /** of (n₁, q₁, n₂, q₂ …), already for the means of the widths; null when nothing is repeated */
  readonly covariance: readonly (readonly number[])[] | null;
  readonly degreesOfFreedom: number;
  /** names the cause in budgets */
  readonly cause: string;
}

/** sd of ln p between runs of one width above which their beds are hardly one soil */
const oneSoil = 0.15;

/**
 * Scatter of the plate widths' constants, taken from whole runs: points inside a run move together and say nothing of it.
 *
 * Where every run has its bed to itself (or names none): covariance of single runs about their width, pooled over the
 * widths, over the runs of each width.
 * Where a bed holds several runs, they share its preparation, across widths too; then the bed is what repeats:
 *
 *   C = Σ_beds u uᵀ,   u = Σ_runs in bed d √(m/(m − 1)) / m      d: run about its width's mean, m: runs of its width
 *   ν = beds − groups of beds and widths that hang together
 *
 * @param groups   plate groups
 * @returns        covariance of all widths' (n, q) together; null covariance when no width has a repeat, or a bed is shared and some width has none
 * @source         cluster-robust covariance, e.g. A. C. Cameron and D. L. Miller, J. Human Resources 50 (2015), from memory; pooling: common practice
 * @checked        tests/fitting/plateScatter.test.ts
 */
export function plateScatter(groups: readonly PlateGroup[]): PlateScatter {
  const members = groups.map((group) => group.tests.map((test) => {
    const law = sinkagePowerLaw(test.points);
    return { bed: test.bed ?? `run ${test.run}`, value: [law.exponent, Math.log(law.stiffness) + law.exponent * group.centre] as const };
  }));
  // named after the runs: rows of equal cause cancel in a difference, and the scatter of two fits must not
  const runs = groups.flatMap((group) => group.tests.map((test) => test.run)).join(", ");
  const beds = [...new Set(members.flat().map((member) => member.bed))];
  const size = 2 * groups.length;
  if (beds.length === members.flat().length) {
    const { covariance, degreesOfFreedom } = pooledCovariance(members.map((group) => group.map((member) => [...member.value])));
    const own = covariance === null ? null : square(size, (a, b) => (a >> 1 === b >> 1 ? ((covariance[a & 1] as readonly number[])[b & 1] as number) / (members[a >> 1] as unknown[]).length : 0));
    return { covariance: own, degreesOfFreedom, cause: `scatter from run to run, ${runs}` };
  }
  const cause = `scatter from bed to bed, ${runs}`;
  const degreesOfFreedom = beds.length - together(members.map((group) => group.map((member) => member.bed)));
  if (degreesOfFreedom < 1 || members.some((group) => group.length < 2)) return { covariance: null, degreesOfFreedom: 0, cause };
  const sums = beds.map((bed) => members.flatMap((group) => [0, 1].map((part) => {
    const count = group.length;
    const centre = group.reduce((sum, member) => sum + (member.value[part] as number), 0) / count;
    return (group.filter((member) => member.bed === bed).reduce((sum, member) => sum + (member.value[part] as number) - centre, 0) * Math.sqrt(count / (count - 1))) / count;
  })));
  return { covariance: square(size, (a, b) => sums.reduce((sum, u) => sum + (u[a] as number) * (u[b] as number), 0)), degreesOfFreedom, cause };
}

const square = (size: number, at: (a: number, b: number) => number): number[][] => Array.from({ length: size }, (_, a) => Array.from({ length: size }, (__, b) => at(a, b)));

/** Number of groups of beds that no width links to each other. */
function together(bedsOfWidths: readonly (readonly string[])[]): number {
  let islands: Set<string>[] = [];
  for (const beds of bedsOfWidths) {
    const touched = islands.filter((island) => beds.some((bed) => island.has(bed)));
    islands = [...islands.filter((island) => !touched.includes(island)), new Set([...beds, ...touched.flatMap((island) => [...island])])];
  }
  return islands.length;
}

/**
 * Says when plate runs of several beds are taken as one soil though their pressures lie far apart.
 *
 * @param groups   plate groups
 * @returns        one finding at most
 * @source         limit of 15 % own
 * @checked        tests/fitting/plateScatter.test.ts
 */
export function bedFindings(groups: readonly PlateGroup[]): Finding[] {
  const beds = [...new Set(groups.flatMap((group) => group.tests.map((test) => test.bed)))];
  const { covariance } = pooledCovariance(groups.map((group) => group.tests.map((test) => {
    const law = sinkagePowerLaw(test.points);
    return [Math.log(law.stiffness) + law.exponent * group.centre];
  })));
  const spread = Math.sqrt(covariance?.[0]?.[0] ?? 0);
  if (beds.length < 2 || !(spread > oneSoil)) return [];
  const names = beds.map((bed) => bed ?? "not stated").join(", ");
  return [finding("beds-far-apart", "look", `Plate runs of one width scatter by ${(100 * spread).toFixed(0)} % in pressure over the beds ${names}, which are taken as one soil. If the beds were prepared differently on purpose, reduce them as different days.`, { measured: spread, limit: oneSoil })];
}
