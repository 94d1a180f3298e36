import { dropHeights } from "../demo/dayPlan.ts";
import { wheels } from "../demo/wheelTruth.ts";
import type { WheelTruth } from "../demo/wheelTruth.ts";
import { plan, reduceMade } from "./madeFolder.ts";
import { measured, note, noteHeldBack, tally } from "./tally.ts";
import type { Tally } from "./tally.ts";
import { truthOf } from "./truthOf.ts";

/** One drop of one wheel. */
export async function dropDay(seed: number): Promise<Tally> {
  const counted = tally();
  const wheel = wheels[seed % wheels.length] as WheelTruth;
  const dropHeightM = dropHeights[seed % dropHeights.length] as number;
  const { day, truths } = await reduceMade(seed, [plan({ id: "D", kind: "drop", wheel: wheel.id, dropHeightM })]);
  const where = `seed ${seed}, ${wheel.id} from ${dropHeightM} m`;
  noteHeldBack(counted, day, where);
  for (const [name, value] of truthOf("drop", truths.get("D") ?? {}, wheel)) note(counted, name, measured(day, "D", name), value, where);
  return counted;
}
