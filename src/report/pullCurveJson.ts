import type { Band, PullCurve, SlipCurve } from "../processing/dayResult.ts";
import { bandJson, fitJson } from "./fitJson.ts";
import { estimateJson, finite } from "./stableJson.ts";
import type { Json } from "./stableJson.ts";

/** One pull–slip curve with every form that was tried and all that was read from it. */
export function pullCurveJson(curve: PullCurve): Json {
  return {
    wheel: curve.wheel,
    setLoadN: finite(curve.setLoadN),
    pass: curve.pass,
    ...slipCurveJson(curve),
    simultaneousBand: bandJson(curve.simultaneousBand),
    candidates: curve.candidates.map((one) => ({ shape: one.shape, knots: one.knots.map(finite), fit: fitJson(one.fit), heldOutError: one.heldOutError === null ? null : finite(one.heldOutError), comparable: one.comparable, chosen: one.chosen })),
    choice: curve.choice,
    scatter: curve.scatter === null ? null : { run: finite(curve.scatter.run), bed: curve.scatter.bed === null ? null : finite(curve.scatter.bed), tilt: finite(curve.scatter.tilt), beds: curve.scatter.beds, runs: curve.scatter.runs, sentence: curve.scatter.sentence },
    atSlip: curve.atSlip.map(({ slip, estimate }) => ({ slip: finite(slip), estimate: estimateJson(estimate) })),
    atPull: curve.atPull.map(({ pull, estimate }) => ({ pull: finite(pull), estimate: estimateJson(estimate) })),
    grossTraction: slipCurveJson(curve.grossTraction),
    bestEfficiency: { efficiency: estimateJson(curve.bestEfficiency.efficiency), slip: estimateJson(curve.bestEfficiency.slip) },
    bothSigns: curve.bothSigns === null ? null : { pull: slipCurveJson(curve.bothSigns.pull), grossTraction: slipCurveJson(curve.bothSigns.grossTraction) },
    selfPropelled: estimateJson(curve.selfPropelled),
    towed: { slip: estimateJson(curve.towed.slip), pull: estimateJson(curve.towed.pull) },
  };
}

function slipCurveJson(curve: SlipCurve & { readonly band: Band | null }): { readonly [key: string]: Json } {
  return { shape: curve.shape, knots: curve.knots.map(finite), fit: fitJson(curve.fit), band: bandJson(curve.band) };
}
