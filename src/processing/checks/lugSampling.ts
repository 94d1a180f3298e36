import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import type { RevolutionWindow } from "../conditioning/window.ts";
import { medianInterval } from "../conditioning/risingTime.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { timed } from "../rolling.ts";

/** Where a frequency shows in samples taken at a rate: folded about half the rate. */
export function aliasOf(frequencyHz: number, rateHz: number): number {
  return Math.abs(frequencyHz - Math.round(frequencyHz / rateHz) * rateHz);
}

/** Harmonics of the lugs' passing that are looked at. */
const harmonics = [1, 2, 3] as const;

/**
 * The lugs pass N·ω/2π times a second and the forces ripple with them. Sampled too seldom, the ripple shows as a slow beat that
 * no averaging over revolutions removes. The worst of the force channels is held against the least number of samples a lug.
 */
export function lugSampling(run: PreparedRun, window: RevolutionWindow, turningRadS: number): Finding[] {
  const lugs = run.wheel?.lugs ?? 0;
  const passingHz = (lugs * Math.abs(turningRadS)) / (2 * Math.PI);
  if (!(passingHz > 0)) return [];
  const channels = (["drawbarPull", "verticalLoad", "wheelTorque"] as const).flatMap((name) => {
    const found = timed(run, name, name === "wheelTorque" ? "N.m" : "N");
    return found === null ? [] : [{ name, rateHz: 1 / medianInterval(found.time) }];
  });
  const slowest = channels.sort((a, b) => a.rateHz - b.rateHz)[0];
  if (slowest === undefined) return [];
  const perLug = slowest.rateHz / passingHz;
  const limits = run.rig.tolerances.samplesPerLug;
  if (!(perLug < limits.look)) return [];
  const severity = perLug < limits.reject ? "reject" : "look";
  const { fromS, toS } = window.segment;
  const table = harmonics.map((k) => `${(k * passingHz).toFixed(1)} Hz shows at ${aliasOf(k * passingHz, slowest.rateHz).toFixed(1)} Hz`).join(", ");
  return [finding("lug-sampling", severity, `The lugs pass ${passingHz.toFixed(1)} times a second and ${slowest.name} is sampled ${slowest.rateHz.toFixed(1)} times: ${perLug.toFixed(1)} samples a lug. Their ripple ${severity === "reject" ? "is folded into the mean" : "is poorly seen"} (${table}). Sample faster, behind a filter that ends below half the rate, or drive slower`, { channel: slowest.name, fromS, toS, measured: perLug, limit: limits[severity] })];
}
