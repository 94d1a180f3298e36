import type { DropFits } from "../processing/dropFitsResult.ts";
import { bandJson, fitJson } from "./fitJson.ts";
import { estimateJson, finite } from "./stableJson.ts";
import type { Json } from "./stableJson.ts";

/** What the drops of one wheel say together. */
export function dropFitsJson(drops: DropFits): Json {
  return {
    wheel: drops.wheel,
    restitution: fitJson(drops.restitution),
    restitutionBand: bandJson(drops.restitutionBand),
    contact: fitJson(drops.contact),
    misfit: finite(drops.misfit),
    heldOut: drops.heldOut.map((one) => ({ heightM: finite(one.heightM), run: one.run, quantity: one.quantity, error: finite(one.error), inside: one.inside })),
    predicted: drops.predicted.map((one) => ({
      heightM: finite(one.heightM),
      gravity: finite(one.gravity),
      impactSpeedMps: finite(one.impactSpeedMps),
      extrapolated: one.extrapolated,
      cautions: one.cautions,
      acceleration: estimateJson(one.acceleration),
      force: one.force === null ? null : estimateJson(one.force),
      compression: estimateJson(one.compression),
      duration: estimateJson(one.duration),
      restitution: estimateJson(one.restitution),
    })),
  };
}
