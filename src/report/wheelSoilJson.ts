import type { WheelSoilResult } from "../processing/wheelSoilResult.ts";
import { estimateJson, sortedJson } from "./stableJson.ts";
import type { Json } from "./stableJson.ts";

/** The soil as the wheels felt it, for results.json; null = not asked for. */
export function wheelSoilJson(wheelSoil: WheelSoilResult | null): Json {
  if (wheelSoil === null) return null;
  const { posterior, ...rest } = wheelSoil;
  // The draws stand in soil.json, where design models look for them.
  const { draws: _draws, ...chains } = posterior;
  return sortedJson({ ...rest, posterior: chains, parameters: wheelSoil.parameters.map((parameter) => ({ ...parameter, estimate: estimateJson(parameter.estimate) })) });
}

/** What a design model needs to foretell a wheel on this soil, for soil.json; null where the wheel runs gave no fit. */
export function wheelSoilCard(wheelSoil: WheelSoilResult | null): Json {
  if (wheelSoil === null || wheelSoil.verdict === "undetermined") return null;
  const { parameters, fitted, discrepancy, flexibleForm, range, posterior, sentence, runs } = wheelSoil;
  return sortedJson({
    model: "stress integrals",
    flexibleForm,
    sentence,
    runs,
    parameters: parameters.map(({ name, symbol, estimate, share, sentence: said }) => ({ name, symbol, share, sentence: said, estimate: estimateJson(estimate) })),
    fitted: { ...fitted, notes: "values, covariance and draws on the fitted scale, in the order of parameters: ln p10 [kPa], n, chi, c [kPa], phi [deg], ln K [mm], c1, c2, n1, root of lambda, kappa, root of mu. Belief is part of them: use the whole vector, not single entries." },
    discrepancy,
    validity: { sentence: "Fitted inside these ranges; beyond them a forecast is an extrapolation.", ...range },
    draws: posterior.draws,
    posterior: posterior.sentence,
  });
}
