import type { CardWheel, SoilCard } from "../campaign/soilFileSchema.ts";
import { deflectionAt } from "../models/plateCurve.ts";

/**
 * Radius that slip is counted from, for a wheel of which only its drawing and its load–deflection curve are known.
 *
 *   unloaded: R      loaded: R − δ(W)      effective: R − δ(W)/2        R to the lugs' tips where lugs count
 *
 * A rolling radius is not known before the wheel has rolled on a hard floor; it lies between the unloaded and the loaded
 * one, and the middle is taken.
 *
 * @param policy   what the card counts slip from
 * @param wheel    radius, lugs and curve
 * @param loadN    W [N], within the curve
 * @returns        r [m]
 * @source         common practice
 * @checked        tests/fitting/wheelPredictor.test.ts
 */
export function slipRadiusOn(policy: SoilCard["slipRadius"], wheel: Omit<CardWheel, "id">, loadN: number): number {
  const radiusM = wheel.rimM + (policy.lugs === "with" ? wheel.lugHeightM : 0);
  if (wheel.curve === null || policy.policy === "unloaded") return radiusM;
  const deflectionM = deflectionAt(wheel.curve, loadN) ?? Number.NaN;
  return radiusM - (policy.policy === "loaded" ? deflectionM : deflectionM / 2);
}
