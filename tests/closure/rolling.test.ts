import { beforeAll, describe, expect, test } from "vitest";
import { spinSpeeds, travelSpeed } from "../../scripts/demo/dayPlan.ts";
import { wheels } from "../../scripts/demo/wheelTruth.ts";
import type { WheelTruth } from "../../scripts/demo/wheelTruth.ts";
import type { DayResult } from "../../src/processing/dayResult.ts";
import { holds, measured, note, sentence, tally } from "./coverage.ts";
import { at, plan, reduceMade } from "./madeFolder.ts";
import type { Truth } from "./madeFolder.ts";

const seeds = 200;
const loads = [40, 70, 110];
const slips = [0.02, 0.1, 0.2, 0.4, 0.6];
const counted = tally();
const notGo: string[] = [];
const errors = { pullShare: [] as number[], slip: [] as number[], skid: [] as number[] };

/** One wheel at one load: bench, hard floor, free spin at two speeds, a driven and a braked run. */
function oneSeed(seed: number): void {
  const wheel = wheels[seed % wheels.length] as WheelTruth;
  const loadN = loads[seed % loads.length] as number;
  const slip = slips[Math.floor(seed / 5) % slips.length] as number;
  const runs = [
    plan({ id: "L", kind: "loadDeflection", wheel: wheel.id }),
    plan({ id: "H", kind: "hardFloor", wheel: wheel.id, loadN, speedMps: travelSpeed }),
    ...spinSpeeds.map((speedMps, i) => plan({ id: `F${i}`, kind: "freeSpin", wheel: wheel.id, speedMps })),
    plan({ id: "driven", kind: "traction", wheel: wheel.id, bed: "B1", loadN, slip, speedMps: travelSpeed }),
    plan({ id: "braked", kind: "traction", wheel: wheel.id, bed: "B2", loadN, slip: -0.1, speedMps: travelSpeed }),
  ];
  const { day, truths } = reduceMade(seed, runs);
  for (const run of day.runs) if (run.verdict !== "go") notGo.push(`seed ${seed}, ${run.plan.id}: ${run.reasons[0]}`);
  const truth = (run: string): Truth => truths.get(run) as Truth;
  floor(seed, day, truth, wheel);
  for (const run of ["driven", "braked"]) ground(seed, day, truth(run), run);
}

function floor(seed: number, day: DayResult, truth: (run: string) => Truth, wheel: WheelTruth): void {
  const add = (run: string, name: string, value: number): void => note(counted, name, measured(day, run, name), value, `seed ${seed}`);
  add("H", "rollingRadius", at(truth("H"), "rollingRadiusM"));
  add("F0", "freeSpinDrag", at(truth("F0"), "freeSpinTorqueNm"));
  const deepestM = at(truth("L"), "deepestM");
  const greatestN = at(truth("L"), "largestLoadN");
  add("L", "secantStiffness", greatestN / deepestM);
  add("L", "tangentStiffness", wheel.stiffnessNm + 3 * wheel.hardeningNm3 * deepestM ** 2);
  add("L", "deflection", deepestM);
}

function ground(seed: number, day: DayResult, truth: Truth, run: string): void {
  const t = (name: string): number => at(truth, name);
  const add = (name: string, value: number): void => note(counted, `${name}, ${run}`, measured(day, run, name), value, `seed ${seed}`);
  const [load, pull, torque, radius, speed, turning] = [t("loadN"), t("pullN"), t("torqueNm"), t("rollingRadiusM"), t("speedMps"), t("angularSpeedRadS")];
  const slides = run === "driven" ? "slip" : "skid";
  add(slides, t(slides));
  add("carriageSpeed", speed);
  add("wheelSpeed", turning);
  add("verticalLoad", load);
  add("drawbarPull", pull);
  add("pullCoefficient", pull / load);
  add("wheelTorque", torque);
  add("grossTractionRatio", torque / radius / load);
  add("motionResistanceRatio", (torque / radius - pull) / load);
  add("powerNumber", (torque * turning) / (load * speed));
  add("energyPerDistance", (torque * turning) / speed);
  if (run === "driven") add("tractiveEfficiency", (pull * speed) / (torque * turning));
  add("hubDrop", t("hubDropM"));
  add("sinkageRunning", t("sinkageM"));
  add("sinkageStatic", t("standingSinkageM"));
  errors[slides].push((measured(day, run, slides)?.value ?? Number.NaN) - t(slides));
  errors.pullShare.push(((measured(day, run, "drawbarPull")?.value ?? Number.NaN) - pull) / load);
}

beforeAll(() => {
  for (let seed = 1; seed <= seeds; seed++) oneSeed(seed);
}, 600_000);

/** Why the 95 % interval of slip and skid is rightly wider than their errors. */
const wideSlip =
  "the doubt is the scatter between revolutions, mostly the drive's speed ripple, which comes back to the same angle and so leaves the mean sooner than chance would; and the radius of a flexible wheel is granted any share of its deflection";

describe("a made wheel on made soil comes back through the whole pipeline", () => {
  const both = ["carriageSpeed", "wheelSpeed", "verticalLoad", "drawbarPull", "pullCoefficient", "wheelTorque", "grossTractionRatio", "motionResistanceRatio", "powerNumber", "energyPerDistance", "hubDrop", "sinkageRunning", "sinkageStatic"];
  const names = ["rollingRadius", "freeSpinDrag", "deflection", "secantStiffness", "tangentStiffness", "slip, driven", "skid, braked", "tractiveEfficiency, driven", ...both.flatMap((name) => [`${name}, driven`, `${name}, braked`])];

  test.each(names)("the truth lies in the 95 %% interval as often as stated: %s", (name) => holds(counted, name, /^(slip|skid),/.test(name) ? wideSlip : undefined));

  test("nothing is left undetermined, and no sound run is held back", () => {
    expect(counted.missing).toEqual([]);
    expect(notGo).toEqual([]);
  });

  test("the pull is not biased by 0.5 % of the load, slip and skid not by 0.005", () => {
    const average = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
    expect(Math.abs(average(errors.pullShare)), sentence(counted, "drawbarPull, driven")).toBeLessThan(0.005);
    expect(Math.abs(average(errors.slip)), sentence(counted, "slip, driven")).toBeLessThan(0.005);
    expect(Math.abs(average(errors.skid)), sentence(counted, "skid, braked")).toBeLessThan(0.005);
  });
});
