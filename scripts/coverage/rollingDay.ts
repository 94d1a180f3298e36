import { loads, spinSpeeds, travelSpeed } from "../demo/dayPlan.ts";
import { wheels } from "../demo/wheelTruth.ts";
import type { WheelTruth } from "../demo/wheelTruth.ts";
import { plan, reduceMade } from "./madeFolder.ts";
import { measured, note, noteHeldBack, tally } from "./tally.ts";
import type { Tally } from "./tally.ts";
import { at, truthOf } from "./truthOf.ts";
import type { Truth } from "./truthOf.ts";

const slips = [0.02, 0.1, 0.2, 0.4, 0.6];

/** One wheel at one load: bench, hard floor, free spin at two speeds, a driven and a braked run. */
export async function rollingDay(seed: number): Promise<Tally> {
  const counted = tally();
  const wheel = wheels[seed % wheels.length] as WheelTruth;
  const loadN = loads[seed % loads.length] as number;
  const slip = slips[Math.floor(seed / wheels.length) % slips.length] as number;
  const runs = [
    plan({ id: "L", kind: "loadDeflection", wheel: wheel.id }),
    plan({ id: "H", kind: "hardFloor", wheel: wheel.id, loadN, speedMps: travelSpeed }),
    ...spinSpeeds.map((speedMps, i) => plan({ id: `F${i}`, kind: "freeSpin", wheel: wheel.id, speedMps })),
    plan({ id: "driven", kind: "traction", wheel: wheel.id, bed: "B1", loadN, slip, speedMps: travelSpeed }),
    plan({ id: "braked", kind: "traction", wheel: wheel.id, bed: "B2", loadN, slip: -0.1, speedMps: travelSpeed }),
  ];
  const { day, truths } = await reduceMade(seed, runs);
  const where = `seed ${seed}, ${wheel.id} at ${loadN} N, slip ${slip}`;
  noteHeldBack(counted, day, where);
  for (const { plan: { id, kind } } of day.runs) {
    // One free spin a seed is a trial; the second shares its calibration.
    if (kind === null || id === "F1") continue;
    const truth = truths.get(id) as Truth;
    for (const [name, value] of truthOf(kind, truth, wheel)) note(counted, kind === "traction" ? `${name}, ${id}` : `${name}, ${kind}`, measured(day, id, name), value, where);
    if (kind !== "traction") continue;
    const off = (name: string, value: number): number => (measured(day, id, name)?.value ?? Number.NaN) - value;
    const slides = id === "driven" ? "slip" : "skid";
    counted.biases.push({ name: slides, error: off(slides, at(truth, slides)) }, { name: "pull as a share of the load", error: off("drawbarPull", at(truth, "pullN")) / at(truth, "loadN") });
  }
  return counted;
}
