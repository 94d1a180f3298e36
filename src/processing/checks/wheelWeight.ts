import type { Campaign, WheelRecord } from "../../campaign/campaign.ts";
import { finding } from "../../core/finding.ts";
import { groupBy } from "../../core/groupBy.ts";
import { likelyUnit } from "../../core/likelyUnit.ts";
import { median } from "../../numerics/statistics.ts";
import { hangingKey } from "../conditioning/zero.ts";
import type { DayFinding } from "../dayFinding.ts";
import type { RunResult } from "../dayResult.ts";

/** Fewer runs of the day cannot say which of them is the odd one. */
const fewest = 4;

interface Hanging {
  readonly run: string;
  readonly wheel: WheelRecord;
  /** what hangs on the sensor beyond the wheel's recorded mass, by the sensor's own zero [kg] */
  readonly beyondKg: number;
}

/**
 * The lifted wheel's weight, run against run: what hangs on the sensor, less the wheel's recorded mass, is the same all day. A run
 * that differs has another wheel on than the sheet says, or soil in it; a wheel that differs in all its runs is recorded with the
 * wrong mass. Finer than one run alone, for the sensor's own offset drops out.
 */
export function wheelWeight(runs: readonly RunResult[], campaign: Campaign): DayFinding[] {
  if (campaign.rig.zero?.state !== "wheelLifted") return [];
  const hanging = runs.flatMap((run): Hanging[] => {
    const reading = run.steps.map((step) => step.parameters[hangingKey]).find((value) => typeof value === "number");
    const wheel = campaign.wheels.find((candidate) => candidate.id === run.plan.wheel);
    return reading === undefined || wheel === undefined || run.verdict === "excluded" ? [] : [{ run: run.plan.id, wheel, beyondKg: -reading / campaign.rig.gravity - wheel.massKg }];
  });
  if (hanging.length < fewest) return [];
  const usual = median(hanging.map(({ beyondKg }) => beyondKg));
  const limits = campaign.rig.tolerances.wheelMassShift;
  const odd = hanging.map((one) => ({ ...one, off: one.beyondKg - usual })).filter(({ off }) => Math.abs(off) > limits.look);
  return [...groupBy(odd, ({ wheel }) => wheel.id).values()].map((group) => {
    const [first] = group as [(typeof odd)[number]];
    const off = median(group.map((one) => one.off));
    const severity = Math.abs(off) > limits.reject ? "reject" : "look";
    const all = hanging.filter(({ wheel }) => wheel.id === first.wheel.id).length === group.length && group.length > 1;
    const where = all ? "all its runs" : group.map(({ run }) => run).join(", ");
    const found = finding("wheel-mass-differs", severity, `In ${where} the lifted wheel ${first.wheel.id} weighs ${Math.abs(off).toFixed(2)} kg ${off > 0 ? "more" : "less"} than wheels.csv says, by the day's other runs.${likelyWheel(campaign, first.wheel, off, limits.look)}${likelyUnit((first.wheel.massKg + off) / first.wheel.massKg, "mass")} Look at the wheel's name on the run sheet, at the file, at the recorded mass, and for soil left in the wheel`, { channel: "verticalLoad", measured: Math.abs(off), limit: limits[severity] });
    return { ...found, takesOut: group.map(({ run }) => run) };
  });
}

/** The wheel on record whose mass would explain the difference. */
function likelyWheel(campaign: Campaign, named: WheelRecord, offKg: number, withinKg: number): string {
  const away = (wheel: WheelRecord): number => Math.abs(wheel.massKg - named.massKg - offKg);
  const [nearest] = campaign.wheels.filter((wheel) => wheel.id !== named.id && away(wheel) < withinKg).sort((a, b) => away(a) - away(b));
  return nearest === undefined ? "" : ` That is the mass of ${nearest.id}.`;
}
