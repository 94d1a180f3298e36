import type { Estimate } from "../core/estimate.ts";
import type { DayResult } from "../processing/dayResult.ts";
import type { WheelSoilResult } from "../processing/wheelSoilResult.ts";
import { estimateJson, sortedJson } from "./stableJson.ts";
import type { Json } from "./stableJson.ts";

/** The soil as the wheels felt it, for results.json; null = not asked for. */
export function wheelSoilJson(wheelSoil: WheelSoilResult | null): Json {
  if (wheelSoil === null) return null;
  // Draws, wheels and single conditions stand in soil.json, where design models look for them.
  const { posterior, conditions: _conditions, wheels: _wheels, ...rest } = wheelSoil;
  const { draws: _draws, drawColumns: _drawColumns, ...chains } = posterior;
  return sortedJson({ ...rest, posterior: chains, parameters: wheelSoil.parameters.map((parameter) => ({ ...parameter, estimate: estimateJson(parameter.estimate) })) });
}

/** Digits of the draws: what they leave out lies far below their scatter. */
const drawDigits = 7;

/** What a design model needs to foretell a wheel on this soil, for soil.json; null where the wheel runs gave no fit. */
export function wheelSoilCard({ wheelSoil, campaign, runs: all }: DayResult): Json {
  if (wheelSoil === null || wheelSoil.verdict === "undetermined") return null;
  const { parameters, fitted, discrepancy, wheelSpread, flexibleForm, range, conditions, wheels, posterior, sentence, runs } = wheelSoil;
  const { gravity, slipRadius } = campaign.rig;
  return sortedJson({
    model: "stress integrals",
    flexibleForm,
    sentence,
    runs,
    constants: parameters.map(({ name, symbol, estimate, share, sentence: said }) => ({ name, symbol, unitInWords: unitsInWords[estimate.unit] ?? estimate.unit, share, sentence: said, estimate: estimateJson(estimate) })),
    fitted: {
      ...fitted,
      names: parameters.map(({ name }) => name),
      notes: "Values and covariance on the fitted scale, in the order of names: ln p10 [kPa], n, chi, c [kPa], phi [deg], ln K [mm], c1, c2, n1, root of lambda, kappa, root of mu. Stiffness under a wheel of width b: k = p10 (0.01 m)^-n (1 + chi b0/b)/(1 + chi), in newton per metre to the power (n + 2), with p10 in pascal; it belongs to its own n and to no other. Lugs: kappa of their height shears, the rest pushes passive wedges in soil of unitWeight [N/m3] (null = of unknown weight, counted as none). Belief is part of them: use the whole vector, not single entries.",
    },
    discrepancy,
    wheelSpread,
    draws: {
      columns: posterior.drawColumns,
      rows: posterior.draws.map((draw) => draw.map((value) => Number(value.toPrecision(drawDigits)))),
      notes: "Each row is one draw: parameters as under fitted, then the natural logarithm of each entry of discrepancy. What runs share (calibrations) is moved in each row too.",
    },
    posterior: posterior.sentence,
    wheels,
    validity: { sentence: "Fitted to runs at these conditions; beyond them a forecast is an extrapolation. pressurePa is load over radius times width.", ...range, conditions },
    gravityMps2: gravity,
    slipRadius: { policy: slipRadius.policy, lugs: slipRadius.lugs },
    beds: [...new Set(all.flatMap(({ plan }) => (runs.includes(plan.id) && plan.bed !== null ? [plan.bed] : [])))],
  });
}

const unitsInWords: Readonly<Partial<Record<Estimate["unit"], string>>> = { Pa: "pascal, newton per metre to the power 2", m: "metre", rad: "radian", "1": "pure number" };
