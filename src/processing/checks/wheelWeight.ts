import type { Campaign, WheelRecord } from "../../campaign/campaign.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { groupBy } from "../../core/groupBy.ts";
import { median } from "../../numerics/statistics.ts";
import { hangingKey } from "../conditioning/zero.ts";
import type { RunResult } from "../dayResult.ts";

/** Fewer runs of a wheel cannot say which of them is the odd one. */
const fewest = 3;

/**
 * The lifted wheel's weight, run against run: a mass that differs from that of the day's other runs of the same wheel is another
 * wheel, the wrong row of the run sheet, or soil that stayed in it. Finer than the wheel's recorded mass, for the sensor's own
 * offset drops out.
 */
export function wheelWeight(runs: readonly RunResult[], campaign: Campaign): Finding[] {
  if (campaign.rig.zero?.state !== "wheelLifted") return [];
  const { gravity, tolerances } = campaign.rig;
  const hanging = runs.flatMap((run) => {
    const reading = run.steps.map((step) => step.parameters[hangingKey]).find((value) => typeof value === "number");
    return reading === undefined || run.plan.wheel === null || run.verdict === "excluded" ? [] : [{ run: run.plan.id, wheel: run.plan.wheel, kg: -reading / gravity }];
  });
  return [...groupBy(hanging, ({ wheel }) => wheel)].flatMap(([wheel, group]) => {
    if (group.length < fewest) return [];
    const usual = median(group.map(({ kg }) => kg));
    return group.flatMap(({ run, kg }): Finding[] => {
      const off = kg - usual;
      const limits = tolerances.wheelMassShift;
      if (!(Math.abs(off) > limits.look)) return [];
      const severity = Math.abs(off) > limits.reject ? "reject" : "look";
      return [finding("wheel-mass-differs", severity, `${run}: the lifted wheel weighs ${Math.abs(off).toFixed(2)} kg ${off > 0 ? "more" : "less"} than in the day's other runs of ${wheel}.${likelyWheel(campaign, wheel, off, limits.look)} Look at the wheel's name on the run sheet, at the file, and for soil left in the wheel`, { channel: "verticalLoad", measured: Math.abs(off), limit: limits[severity] })];
    });
  });
}

/** The wheel on record whose mass would explain the difference. */
function likelyWheel(campaign: Campaign, named: string, offKg: number, withinKg: number): string {
  const own = campaign.wheels.find((wheel) => wheel.id === named);
  if (own === undefined) return "";
  const away = (wheel: WheelRecord): number => Math.abs(wheel.massKg - own.massKg - offKg);
  const others = campaign.wheels.filter((wheel) => wheel.id !== named && away(wheel) < withinKg).sort((a, b) => away(a) - away(b));
  return others[0] === undefined ? "" : ` That is the mass of ${others[0].id}.`;
}
