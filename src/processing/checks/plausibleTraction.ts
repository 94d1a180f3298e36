import type { Finding } from "../../core/finding.ts";
import type { Measure } from "../../core/measure.ts";
import { finding } from "../../core/finding.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { outerDiameter } from "../rolling.ts";
import { judged } from "./judged.ts";

/** Numbers that no wheel on loose ground gives: torque beyond any friction, a hub above the ground it stands on, a wheel sunk to its axle. */
export function plausibleTraction(run: PreparedRun, measures: readonly Measure[]): Finding[] {
  const of = (name: string): number => measures.find((measure) => measure.name === name)?.estimate.value ?? Number.NaN;
  const gross = Math.abs(of("grossTractionRatio"));
  const sinkage = measures.find((measure) => measure.name === "sinkageRunning")?.estimate;
  const radius = outerDiameter(run) / 2;
  const findings = judged("torque-implausible", gross, run.rig.tolerances.grossTraction, () => `The torque at the rim is ${gross.toFixed(2)} times the load, more than loose ground can hold. Look at the units of torque and load`, { channel: "wheelTorque" });
  if (sinkage === undefined || sinkage.standardUncertainty === null || radius === 0) return findings;
  const limit = run.rig.tolerances.hubAboveGround;
  const above = -sinkage.value - 2 * sinkage.standardUncertainty;
  if (above > limit) findings.push(finding("sinkage-negative", "look", `The wheel's deflection is ${(1000 * -sinkage.value).toFixed(1)} mm more than its hub came down: it would stand above the ground. Look at the hub height's scale and sign, and at the load–deflection run`, { channel: "hubHeight", measured: above, limit }));
  if (sinkage.value > radius) findings.push(finding("sinkage-implausible", "reject", `The wheel would have sunk ${(1000 * sinkage.value).toFixed(0)} mm, deeper than its axle. Look at the unit and scale of the hub height`, { channel: "hubHeight", measured: sinkage.value, limit: radius }));
  return findings;
}
