import type { PullCurve } from "../processing/dayResult.ts";
import { plainNumber } from "./words.ts";

/** Wheel, load and, where ground was driven over before, the pass. */
export function curveName(curve: PullCurve): string {
  return `Wheel ${curve.wheel}, ${loadAndPass(curve)}`;
}

export function loadAndPass(curve: PullCurve): string {
  return `${plainNumber(curve.setLoadN)} N${curve.pass > 1 ? `, pass ${curve.pass}` : ""}`;
}
