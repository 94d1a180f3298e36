import type { Estimate } from "../core/estimate.ts";
import type { FitPoint } from "../core/fit.ts";
import type { Blow } from "../models/wheelBlow.ts";
import type { RunResult } from "../processing/dayResult.ts";
import { barred, measureOf, refusedPoint } from "./refusedPoint.ts";

/**
 * What is observed of each blow: the model's name, the measure's name, and words.
 *
 *   peak acceleration [m/s²], largest compression [m], contact duration [s], restitution [1]
 *
 * @source  common practice
 * @checked tests/fitting/contactFit.test.ts
 */
export const blowQuantities = [
  { of: "peakAcceleration", measure: "peakAcceleration", label: "peak acceleration" },
  { of: "compression", measure: "largestCompression", label: "largest compression" },
  { of: "duration", measure: "contactDuration", label: "contact duration" },
  { of: "restitution", measure: "restitution", label: "restitution" },
] as const satisfies readonly { readonly of: keyof Blow; readonly measure: string; readonly label: string }[];

/** One drop of a wheel: its contact speed and what the blow did, in the order of `blowQuantities`. */
export interface ContactDrop {
  readonly run: string;
  readonly heightM: number | null;
  readonly speed: Estimate;
  readonly observed: readonly Estimate[];
}

/**
 * The drops of a wheel that a contact model can be fitted to; the others with the reason why not.
 *
 *   a drop counts when its verdict is go or look and its contact speed and all four quantities have an uncertainty
 *
 * @param runs the drops of one wheel
 * @returns    drops, and refused points
 * @source     common practice
 * @checked    tests/fitting/contactFit.test.ts
 */
export function contactDropsFrom(runs: readonly RunResult[]): { readonly drops: ContactDrop[]; readonly refused: FitPoint[] } {
  const drops: ContactDrop[] = [];
  const refused: FitPoint[] = [];
  for (const run of runs) {
    const wanted = ["impactSpeed", ...blowQuantities.map((quantity) => quantity.measure)].map((name) => ({ name, estimate: measureOf(run, name)?.estimate ?? null }));
    const missing = wanted.find(({ estimate }) => estimate === null || estimate.standardUncertainty === null || !Number.isFinite(estimate.value));
    const reason = barred(run) ?? (missing === undefined ? null : `${missing.name} is not determined: ${missing.estimate?.method ?? "not measured"}`);
    const [speed, ...observed] = wanted.map(({ estimate }) => estimate as Estimate);
    if (reason !== null) refused.push(refusedPoint(run, speed?.value, null, reason));
    else drops.push({ run: run.plan.id, heightM: run.plan.dropHeightM, speed: speed as Estimate, observed });
  }
  return { drops, refused };
}
