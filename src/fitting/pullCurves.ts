import type { Rig } from "../campaign/rigSchema.ts";
import type { Estimate } from "../core/estimate.ts";
import type { Finding } from "../core/finding.ts";
import type { FitPoint } from "../core/fit.ts";
import { finding } from "../core/finding.ts";
import { groupBy } from "../core/groupBy.ts";
import type { CurveCandidate, PullCurve, RunResult, SlipCurve } from "../processing/dayResult.ts";
import { bestEfficiency } from "./bestEfficiency.ts";
import { chooseSlipCurve } from "./chooseSlipCurve.ts";
import { withFormDoubt } from "./formDoubt.ts";
import { curveAtSlip, curveBand, slipAtValue } from "./readSlipCurve.ts";
import { barred, measureOf, refusedPoint } from "./refusedPoint.ts";
import { scatterShare } from "./scatterShare.ts";
import { simultaneousBand } from "./simultaneousBand.ts";
import type { SlipPoint } from "./slipCurveFit.ts";
import { sweepPoints } from "./sweepPoints.ts";
import { selfPropelledPoint, towedPoint } from "./zeroPoints.ts";

/**
 * One pull–slip curve per wheel, set load and pass, over the traction runs and slip sweeps of the day, and what is read from it. Rejected,
 * excluded and unread runs appear as refused points with the reason. Braked runs, whose skid is normalised by the carriage's
 * speed, stand on a curve of both signs; the points without pull and without torque are read there, where there is one.
 *
 * @param runs   all runs of the day
 * @param rig    says at which slips the pull, and at which pulls the slip is reported
 * @returns      curves in order of first appearance on the run sheet
 * @source       common practice
 * @checked      tests/fitting/pullCurves.test.ts
 */
export function pullCurvesFrom(runs: readonly RunResult[], rig: Rig): PullCurve[] {
  const traction = runs.filter((run) => (run.plan.kind === "traction" || run.plan.kind === "sweep") && run.plan.wheel !== null && run.plan.setLoadN !== null);
  const groups = groupBy(traction, (run) => `${run.plan.setLoadN} N, pass ${passOf(run)}, ${run.plan.wheel}`);
  return [...groups.values()].map((group): PullCurve => {
    const driven = sorted(group, "pullCoefficient", false);
    const chosen = chooseSlipCurve(driven.points, driven.refused, "P/W");
    const curve = { ...chosen.curve, fit: { ...chosen.curve.fit, findings: [...chosen.curve.fit.findings, ...mixed(group, driven.points)] } };
    const gross = fitted(sorted(group, "grossTractionRatio", false), "T/(rW)");
    const grossTraction = gross.curve;
    const braked = sorted(group, "pullCoefficient", true);
    const bothSigns = braked.points.length === driven.points.length ? null : { pull: fitted(braked, "P/W"), gross: fitted(sorted(group, "grossTractionRatio", true), "T/(rW)") };
    const read = bothSigns ?? { pull: { curve, candidates: chosen.candidates }, gross };
    const first = group[0] as RunResult;
    const name = `${first.plan.wheel}, ${first.plan.setLoadN} N`;
    return {
      ...curve,
      wheel: first.plan.wheel as string,
      setLoadN: first.plan.setLoadN as number,
      pass: passOf(first),
      candidates: chosen.candidates,
      choice: chosen.choice,
      scatter: chosen.scatter === null ? null : scatterShare(driven.points, chosen.scatter),
      band: curveBand(curve),
      simultaneousBand: simultaneousBand(curve),
      atSlip: rig.reportPullAtSlip.map((slip) => ({ slip, estimate: withFormDoubt(curveAtSlip(curve, slip), comparable(chosen.candidates).map((form) => curveAtSlip(form, slip)), name) })),
      atPull: rig.reportSlipAtPull.map((wanted) => ({ pull: wanted, estimate: withFormDoubt(slipAtValue(curve, wanted, "a pull coefficient"), comparable(chosen.candidates).map((form) => slipAtValue(form, wanted, "a pull coefficient")), name) })),
      grossTraction,
      bestEfficiency: best({ curve, candidates: chosen.candidates }, gross, name),
      bothSigns: bothSigns === null ? null : { pull: bothSigns.pull.curve, grossTraction: bothSigns.gross.curve },
      ...zeroPoints(read.pull, read.gross, name),
    };
  });
}

/** How often the ground had been driven over, this time included: the first time where nothing is said. */
function passOf(run: RunResult): number {
  return run.plan.pass ?? 1;
}

interface Fitted<T extends SlipCurve = SlipCurve> {
  readonly curve: T;
  readonly candidates: readonly CurveCandidate[];
}

function fitted({ points, refused }: { readonly points: readonly SlipPoint[]; readonly refused: readonly FitPoint[] }, quantity: string): Fitted<PullCurve["grossTraction"]> {
  const { curve, candidates } = chooseSlipCurve(points, refused, quantity);
  return { curve: { ...curve, band: curveBand(curve) }, candidates };
}

/** The forms whose readings count in the doubt of the form. */
function comparable(candidates: readonly CurveCandidate[]): readonly CurveCandidate[] {
  return candidates.filter((one) => one.comparable);
}

/** The best efficiency and its slip, with the doubt that lies in the form of the curves. */
function best(pull: Fitted, gross: Fitted, name: string): PullCurve["bestEfficiency"] {
  const { efficiency, slip } = bestEfficiency(pull.curve, gross.curve);
  const forms = pull.candidates.flatMap((one) => gross.candidates.map((other) => bestEfficiency(one, other)));
  return { efficiency: withFormDoubt(efficiency, forms.map((form) => form.efficiency), name), slip: withFormDoubt(slip, forms.map((form) => form.slip), name) };
}

/** The points without pull and without torque, with the doubt that lies in the form of the curves. */
function zeroPoints(pull: Fitted, gross: Fitted, name: string): Pick<PullCurve, "selfPropelled" | "towed"> {
  const towed = towedPoint(pull.curve, gross.curve);
  const forms = pull.candidates.flatMap((one) => gross.candidates.map((other) => towedPoint(one, other)));
  return {
    selfPropelled: withFormDoubt(selfPropelledPoint(pull.curve), pull.candidates.map(selfPropelledPoint), name),
    towed: { slip: withFormDoubt(towed.slip, forms.map(({ slip }) => slip), name), pull: withFormDoubt(towed.pull, forms.map(({ pull: at }) => at), name) },
  };
}

function sorted(group: readonly RunResult[], name: string, withBraked: boolean): { readonly points: SlipPoint[]; readonly refused: FitPoint[] } {
  const points: SlipPoint[] = [];
  const refused: FitPoint[] = [];
  for (const run of group) {
    if (run.plan.kind === "sweep") {
      const swept = name === "pullCoefficient" ? sweepPoints(run) : { points: [], refused: [] };
      points.push(...swept.points.filter((point) => withBraked || point.slip.value >= 0));
      refused.push(...swept.refused);
      continue;
    }
    const point = toPoint(run, name, withBraked);
    if ("kept" in point) refused.push(point);
    else points.push(point);
  }
  return { points, refused };
}

function toPoint(run: RunResult, name: string, withBraked: boolean): SlipPoint | FitPoint {
  const slip = measureOf(run, "slip");
  const skid = measureOf(run, "skid");
  const value = measureOf(run, name);
  const place = slip?.estimate ?? (skid === null ? null : negative(skid.estimate));
  const refuse = (reason: string): FitPoint => refusedPoint(run, place?.value ?? run.plan.setSlip, value?.estimate.value, reason);
  const reason = barred(run);
  if (reason !== null) return refuse(reason);
  if (slip === null && skid !== null && !withBraked) return refuse("braked: its skid, counted from the carriage's speed, stands on the curve of both signs");
  if (place === null || value === null) return refuse(`no ${place === null ? "slip" : (inWords[name] ?? name)} was measured`);
  for (const measure of [slip ?? skid, value]) {
    if (measure?.estimate.standardUncertainty === null) return refuse(`${measure.label.toLowerCase()} has no uncertainty: ${measure.estimate.method}`);
  }
  return { run: run.plan.id, slip: place, value: value.estimate, setSlip: run.plan.setSlip, bed: run.plan.bed };
}

const inWords: Readonly<Record<string, string>> = { pullCoefficient: "pull coefficient", grossTractionRatio: "gross traction ratio" };

function negative(skid: Estimate): Estimate {
  return { ...skid, value: -skid.value, budget: skid.budget.map((row) => ({ ...row, effect: -row.effect })) };
}

/** Runs at different speeds do not belong on one curve. */
function mixed(group: readonly RunResult[], points: readonly SlipPoint[]): Finding[] {
  const used = new Set(points.map((point) => point.run));
  const speeds = new Set(group.filter((run) => used.has(run.plan.id)).map((run) => run.plan.setSpeedMps));
  if (speeds.size < 2) return [];
  const shown = [...speeds].map((speed) => (speed === null ? "not stated" : `${speed * 1000} mm/s`)).join(", ");
  return [finding("mixed-speeds", "look", `The runs on this curve were set to different speeds (${shown}); pull and sinkage change with speed. Fit them apart.`)];
}

