import { contactAngles, stepHeights } from "../demo/dayPlan.ts";
import { dice } from "../demo/dice.ts";
import { wheels } from "../demo/wheelTruth.ts";
import type { WheelTruth } from "../demo/wheelTruth.ts";
import { plan, reduceMade } from "./madeFolder.ts";
import { measured, note, noteHeldBack, tally } from "./tally.ts";
import type { Tally } from "./tally.ts";
import { truthOf } from "./truthOf.ts";

const grounds = ["flat", "step", "rock"] as const;

/** One flexible wheel pressed at one angle of its rim, its footprint on pad and glass plate, and one trial of a wheel at a step. */
export async function benchDay(seed: number): Promise<Tally> {
  const counted = tally();
  const flexible = wheels.filter((wheel) => wheel.flexible);
  const pressed = flexible[seed % flexible.length] as WheelTruth;
  const tried = wheels[seed % wheels.length] as WheelTruth;
  const contactAngleRad = contactAngles[seed % contactAngles.length] as number;
  const heightM = stepHeights[seed % stepHeights.length] as number;
  // every ground under every wheel, and a load of any length of contact: one length meets the cells in two ways only
  const ground = grounds[Math.floor(seed / flexible.length) % grounds.length] as (typeof grounds)[number];
  const touchN = Math.round(60 + 85 * dice(seed, "footprint load").uniform());
  const { day, truths } = await reduceMade(seed, [
    plan({ id: "L", kind: "loadDeflection", wheel: pressed.id, loadN: 110, contactAngleRad }),
    plan({ id: "P", kind: "footprint", wheel: pressed.id, loadN: touchN, footprint: { from: "pad", ground } }),
    plan({ id: "G", kind: "footprint", wheel: pressed.id, loadN: touchN, footprint: { from: "image", ground: "flat" } }),
    plan({ id: "O", kind: "obstacle", wheel: tried.id, loadN: 70, obstacle: { heightM, edge: "sharp" } }),
  ]);
  const where = `seed ${seed}, ${pressed.id}, ${tried.id} at ${heightM} m`;
  noteHeldBack(counted, day, where);
  for (const [kind, id, wheel] of [["loadDeflection", "L", pressed], ["footprint", "P", pressed], ["footprint", "G", pressed], ["obstacle", "O", tried]] as const) {
    for (const [name, value] of truthOf(kind, truths.get(id) ?? {}, wheel)) note(counted, kind === "footprint" ? `${name}${id === "P" ? ", pad" : ", photograph"}` : name, measured(day, id, name), value, where);
  }
  return counted;
}
