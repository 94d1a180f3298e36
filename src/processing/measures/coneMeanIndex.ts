import type { ConeReading } from "../../campaign/campaign.ts";
import type { TolerancePair } from "../../campaign/tolerances.ts";
import { estimateFrom, undetermined } from "../../core/estimate.ts";
import type { Estimate } from "../../core/estimate.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { groupBy } from "../../core/groupBy.ts";
import { mean, standardDeviation } from "../../numerics/statistics.ts";

/** One cone profile of a bed: where it stands, null = not stated, and its mean index. */
export interface ConeProfile {
  readonly position: string;
  readonly place: { readonly xM: number; readonly yM: number } | null;
  readonly indexPa: number;
}

/** share of the range of depths that a profile must reach */
const reach = 0.75;

/**
 * Mean cone index of one profile over a range of depths.
 *
 *   CI = 1/(z₂ − z₁) ∫ CI dz     [Pa], straight lines between the readings from the first to the last inside the range
 *
 * @param readings  readings of one profile
 * @param range     from and to [m]
 * @returns         CI [Pa]; NaN where the readings reach less than three quarters of the range
 * @source          ASABE S313 (from memory): mean of the readings over a stated range of depths
 * @checked         tests/processing/measures/coneMeanIndex.test.ts
 */
export function profileIndex(readings: readonly ConeReading[], [from, to]: readonly [number, number]): number {
  const inside = readings.filter(({ depthM }) => depthM >= from && depthM <= to).sort((a, b) => a.depthM - b.depthM);
  const span = (inside.at(-1)?.depthM ?? 0) - (inside[0]?.depthM ?? 0);
  if (!(span >= reach * (to - from))) return Number.NaN;
  let area = 0;
  inside.forEach((b, i) => {
    const a = inside[i - 1];
    if (a !== undefined) area += ((a.indexPa + b.indexPa) / 2) * (b.depthM - a.depthM);
  });
  return area / span;
}

/**
 * Mean cone index of a bed: mean over its profiles, uncertainty from their scatter; whether the bed is even, and where not.
 *
 *   CI = mean(CIᵢ)     u = s/√m     s/CI held against the tolerance
 *
 * The index grows with depth: only means over the same depths compare.
 *
 * @param bed       the bed's name
 * @param readings  cone readings of the day; those of other beds are ignored
 * @param range     depths from and to [m]
 * @param limits    `coneSpread`: standard deviation between profiles as a share beyond which to look or reject
 * @returns         the index [Pa], every profile that reaches the range, findings; uncertainty is null with fewer than two
 * @source          ASABE S313 (from memory); scatter of profiles: common practice
 * @checked         tests/processing/measures/coneMeanIndex.test.ts
 */
export function coneMeanIndex(bed: string, readings: readonly ConeReading[], range: readonly [number, number], limits: TolerancePair): { readonly index: Estimate<"Pa">; readonly profiles: readonly ConeProfile[]; readonly findings: readonly Finding[] } {
  const words = `${1000 * range[0]} to ${1000 * range[1]} mm of depth`;
  const own = [...groupBy(readings.filter((reading) => reading.bed === bed), (reading) => reading.position)];
  const all = own.map(([position, profile]): ConeProfile => ({ position, place: profile.find((reading) => reading.place !== undefined)?.place ?? null, indexPa: profileIndex(profile, range) }));
  const profiles = all.filter((profile) => Number.isFinite(profile.indexPa));
  const short = all.filter((profile) => !profiles.includes(profile)).map((profile) => profile.position);
  const findings: Finding[] = short.length === 0 ? [] : [finding("cone-profile-short", "look", `Bed ${bed}: the cone profile${short.length === 1 ? "" : "s"} ${short.join(", ")} reach${short.length === 1 ? "es" : ""} less than ${100 * reach} % of ${words} and count${short.length === 1 ? "s" : ""} not in the mean cone index. Push the cone as deep in every place, or state coneIndexDepth in rig.yaml`)];
  if (profiles.length === 0) return { index: undetermined("Pa", `no profile reaches ${words}`), profiles, findings };
  const indices = profiles.map((profile) => profile.indexPa);
  const value = mean(indices);
  const method = `mean over ${words}, straight lines between readings, of ${profiles.length} ${profiles.length === 1 ? "profile" : "profiles"}`;
  if (profiles.length < 2) return { index: undetermined("Pa", `${method}; one profile does not show how even the bed is`, value), profiles, findings };
  const spread = standardDeviation(indices);
  const index = estimateFrom(value, "Pa", method, [{ cause: "scatter between cone profiles", effect: spread / Math.sqrt(profiles.length), sharedBy: null, degreesOfFreedom: profiles.length - 1 }]);
  return { index, profiles, findings: [...findings, ...uneven(bed, profiles, spread / value, limits)] };
}

function uneven(bed: string, profiles: readonly ConeProfile[], share: number, { look, reject }: TolerancePair): Finding[] {
  if (!(share > look)) return [];
  const severity = share > reject ? "reject" : "look";
  const [soft, firm] = [Math.min, Math.max].map((pick) => profiles.find(({ indexPa }) => indexPa === pick(...profiles.map((profile) => profile.indexPa))) as ConeProfile);
  const said = ({ position, place, indexPa }: ConeProfile): string => `${(indexPa / 1000).toFixed(0)} kPa at ${position}${place === null ? "" : ` (x ${(1000 * place.xM).toFixed(0)} mm, y ${(1000 * place.yM).toFixed(0)} mm)`}`;
  return [finding("cone-uneven", severity, `Bed ${bed} is uneven: its profiles' mean cone index scatters by ${(100 * share).toFixed(0)} %, from ${said(soft as ConeProfile)} to ${said(firm as ConeProfile)}. Prepare the bed again, or run where it is even`, { measured: share, limit: severity === "reject" ? reject : look })];
}
