import type { Campaign } from "../campaign/campaign.ts";
import type { Rig } from "../campaign/rigSchema.ts";
import type { Estimate } from "../core/estimate.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { Fit, FitPoint } from "../core/fit.ts";
import { groupBy } from "../core/groupBy.ts";
import { fallingMass } from "../processing/measures/fallingMass.ts";
import { contactForce } from "../processing/measures/contactForce.ts";
import type { RunResult } from "../processing/dayResult.ts";
import type { DropFits, PredictedDrop } from "../processing/dropFitsResult.ts";
import { blowQuantities, contactDropsFrom } from "./contactDrops.ts";
import type { ContactDrop } from "./contactDrops.ts";
import { contactFit } from "./contactFit.ts";
import type { ContactFit } from "./contactFit.ts";
import { leaveOneHeightOut, predictedBlow } from "./contactPrediction.ts";
import type { HeldOut } from "./contactPrediction.ts";
import { barred, measureOf, refusedPoint } from "./refusedPoint.ts";
import { restitutionBand, restitutionFit } from "./restitutionFit.ts";
import type { RestitutionPoint } from "./restitutionFit.ts";

/** Contact speeds this far beyond the fitted ones still count as measured. */
const reach = 0.02;
/** A quantity is badly predicted when its held-out error exceeds this share and fewer than that share lie in their intervals. */
const largestError = 0.05;
const leastInside = 0.8;

/**
 * What the drops of each wheel say together: restitution against impact speed, and a contact that predicts drops not made.
 *
 *   one restitution curve and one contact per wheel; predictions at the heights and gravities that rig.yaml names
 *
 * @param runs     all runs of the day
 * @param campaign the day's records: what falls, and which drops to predict
 * @returns        one entry per wheel that was dropped, in order of first appearance
 * @source         common practice
 * @checked        tests/fitting/dropFits.test.ts
 */
export function dropFitsFrom(runs: readonly RunResult[], campaign: Pick<Campaign, "rig" | "wheels">): DropFits[] {
  const drops = runs.filter((run) => run.plan.kind === "drop" && run.plan.wheel !== null);
  const { rig } = campaign;
  return [...groupBy(drops, (run) => run.plan.wheel as string)].map(([wheel, group]): DropFits => {
    const restitution = restitutionOf(group);
    const { drops: usable, refused } = contactDropsFrom(group);
    const fitted = contactFit(usable, refused, rig.gravity);
    const determined = fitted.fit.verdict === "determined";
    const heldOut = determined ? leaveOneHeightOut(usable, rig.gravity) : [];
    const record = campaign.wheels.find((candidate) => candidate.id === wheel) ?? null;
    return {
      wheel,
      restitution,
      restitutionBand: restitutionBand(restitution),
      contact: { ...fitted.fit, findings: [...fitted.fit.findings, ...missed(heldOut)] },
      misfit: fitted.misfit,
      heldOut,
      predicted: determined ? (rig.drop?.predict ?? []).map((asked) => predictedDrop(asked, fitted, heldOut, usable, rig, record)) : [],
    };
  });
}

/** Root mean square of the held-out errors of one quantity; 0 where there are none. */
function errorOf(heldOut: readonly HeldOut[], quantity: string): number {
  const errors = heldOut.filter((one) => one.quantity === quantity).map((one) => one.error);
  return errors.length === 0 ? 0 : Math.sqrt(errors.reduce((sum, error) => sum + error * error, 0) / errors.length);
}

function missed(heldOut: readonly HeldOut[]): Finding[] {
  return blowQuantities.flatMap(({ label }) => {
    const of = heldOut.filter((one) => one.quantity === label);
    const error = errorOf(of, label);
    const inside = of.filter((one) => one.inside).length;
    if (error <= largestError || inside >= leastInside * of.length) return [];
    return [finding("contact-misses-held-out", "look", `Fitted without one height, the contact misses the ${label} of its drops by ${(100 * error).toFixed(1)} % (root mean square), and ${of.length - inside} of ${of.length} lie outside their predicted 95 % intervals: the wheel stiffens otherwise than the model. The band of a predicted drop holds that error`, { measured: error, limit: largestError })];
  });
}

function restitutionOf(group: readonly RunResult[]): Fit {
  const points: RestitutionPoint[] = [];
  const refused: FitPoint[] = [];
  for (const run of group) {
    const speed = measureOf(run, "impactSpeed")?.estimate;
    const restitution = measureOf(run, "restitution")?.estimate;
    const missing = [speed, restitution].find((estimate) => estimate === undefined || estimate.standardUncertainty === null || !(estimate.value > 0));
    const reason = barred(run) ?? (speed === undefined || restitution === undefined ? "no restitution was measured" : missing === undefined ? null : `not determined: ${missing.method}`);
    if (reason !== null || speed === undefined || restitution === undefined) refused.push(refusedPoint(run, speed?.value, restitution?.value, reason ?? ""));
    else points.push({ run: run.plan.id, speed, restitution, heightM: run.plan.dropHeightM });
  }
  return restitutionFit(points, refused);
}

/** A drop that was not made; it falls freely, without a guide's friction. */
function predictedDrop(asked: { readonly height: number; readonly gravity: number }, fitted: ContactFit, heldOut: readonly HeldOut[], drops: readonly ContactDrop[], rig: Rig, wheel: Campaign["wheels"][number] | null): PredictedDrop {
  const speed = Math.sqrt(2 * asked.gravity * asked.height);
  const speeds = drops.map((drop) => drop.speed.value);
  const [low, high] = [Math.min(...speeds), Math.max(...speeds)];
  const beyond = speed < low * (1 - reach) || speed > high * (1 + reach);
  const heights = heldOut.map((one) => one.heightM);
  const atEdge = (height: number): boolean => height === Math.min(...heights) || height === Math.max(...heights);
  // What the contact missed when it had to reach as far as here is what it may miss again.
  const alike = heldOut.filter((one) => atEdge(one.heightM) === beyond);
  const misfits = blowQuantities.map((quantity) => Math.max(fitted.misfit, errorOf(alike, quantity.label)));
  const [acceleration, compression, duration, restitution] = predictedBlow(fitted, speed, asked.gravity, `${asked.height} m at ${asked.gravity} m/s²`, misfits) as [Estimate<"m/s2">, Estimate<"m">, Estimate<"s">, Estimate<"1">];
  const elsewhere = Math.abs(asked.gravity / rig.gravity - 1) > 0.01;
  const cautions = [
    ...(beyond ? [`its contact speed of ${speed.toFixed(2)} m/s lies outside those measured, ${low.toFixed(2)} to ${high.toFixed(2)} m/s: extrapolated`] : []),
    ...(elsewhere ? ["gravity other than the laboratory's acts through the weight alone; the wheel's own behaviour is taken as unchanged by cold and vacuum"] : []),
  ];
  const mass = rig.drop === undefined ? null : fallingMass(wheel, rig.drop);
  return {
    heightM: asked.height, gravity: asked.gravity, impactSpeedMps: speed, extrapolated: beyond, cautions,
    acceleration, compression, duration, restitution,
    force: mass === null ? null : contactForce(mass, acceleration, asked.gravity),
  };
}
