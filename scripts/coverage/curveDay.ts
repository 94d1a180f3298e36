import { rigSchema } from "../../src/campaign/rigSchema.ts";
import { pullCurvesFrom } from "../../src/fitting/pullCurves.ts";
import { repeatabilityFrom } from "../../src/fitting/repeatability.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { loads, travelSpeed } from "../demo/dayPlan.ts";
import { dice, shuffled } from "../demo/dice.ts";
import { bedTruth, simulant } from "../demo/soilTruth.ts";
import type { SoilTruth } from "../demo/soilTruth.ts";
import { rollingOnSoil } from "../demo/wheelOnSoil.ts";
import { rollingRadius, wheels } from "../demo/wheelTruth.ts";
import type { WheelTruth } from "../demo/wheelTruth.ts";
import { drawnWheel } from "./drawn.ts";
import { read, reducedRun, seen, shared } from "./reducedRun.ts";
import { note, tally } from "./tally.ts";
import type { Tally } from "./tally.ts";

const slips = [0.03, 0.1, 0.2, 0.35, 0.5, 0.65];
const repeats = [1, 2, 3];
const lanesPerBed = 3;
const causes = { pull: "calibration pull", load: "calibration load", torque: "calibration torque", radius: "reference run" } as const;
/** standard uncertainties: gains and radius as shares, a run's own slip and coefficients as they are */
const doubts = { gain: 0.003, radius: 5e-4, slip: 8e-4, coefficient: 0.002 } as const;
const reported = [0.2, 0.6] as const;
const rig = rigSchema.parse({ rig: "Bench", gravity: 9.81, slipRadius: { policy: "effective", lugs: "with" }, loggers: {}, reportPullAtSlip: [...reported] });

/**
 * One wheel at one load, six slips three times, once with each run in a bed of its own and once with three runs to a bed, lots
 * drawn over all of them: condition means, the pull at 20 % slip and the best efficiency, of the soil as its beds are in the
 * mean. Runs are made as reduced ones, since rolling days show what each run's interval is worth.
 */
export function curveDay(seed: number): Tally {
  const counted = tally();
  const wheel = drawnWheel(seed, (wheels[seed % wheels.length] as WheelTruth).id) as WheelTruth;
  const loadN = loads[seed % loads.length] as number;
  const day = dice(seed, "curve day");
  const drawn = new Map(Object.values(causes).map((cause) => [cause, day.normal()]));
  const planned = repeats.flatMap((repeat) => slips.map((slip) => ({ id: `run ${repeat} at ${slip}`, slip })));
  const make = ({ id, slip, bed }: { readonly id: string; readonly slip: number; readonly bed: string }): RunResult => made(seed, wheel, id, bed, loadN, slip, drawn);
  const truth = (slip: number) => coefficients(wheel, simulant, loadN, slip);
  const where = `seed ${seed}, ${wheel.id} at ${loadN} N`;
  lookAt(counted, planned.map((run) => make({ ...run, bed: run.id })), truth, seed, where, "");
  lookAt(counted, shuffled(planned, dice(seed, "lots")).map((run, lane) => make({ id: `${run.id}, shared`, slip: run.slip, bed: `bed ${Math.floor(lane / lanesPerBed)}` })), truth, seed, where, ", beds shared");
  return counted;
}

function lookAt(counted: Tally, runs: readonly RunResult[], truth: (slip: number) => Coefficients, seed: number, where: string, plan: string): void {
  const setSlip = slips[seed % slips.length] as number;
  for (const [measure, of] of [["pullCoefficient", "pull"], ["grossTractionRatio", "gross"]] as const) {
    const condition = repeatabilityFrom(runs).find((one) => one.measure === measure)?.conditions.find(({ runs: [first] }) => runs.some(({ plan: { id, setSlip: set } }) => id === first && set === setSlip));
    note(counted, `${measure} of a condition${plan}`, condition?.estimate, truth(setSlip)[of], where);
  }
  const [curve] = pullCurvesFrom(runs, rig);
  reported.forEach((slip, i) => note(counted, `pull coefficient at ${100 * slip} % slip${plan}`, curve?.atSlip[i]?.estimate, truth(slip).pull, where));
  const best = bestOf(truth);
  // a maximum at the edge of the slips is rightly no answer
  if (curve?.bestEfficiency.efficiency.standardUncertainty === null) return;
  note(counted, `best efficiency${plan}`, curve?.bestEfficiency.efficiency, best.efficiency, where);
  note(counted, `slip of the best efficiency${plan}`, curve?.bestEfficiency.slip, best.slip, where);
}

interface Coefficients {
  readonly pull: number;
  readonly gross: number;
}

function coefficients(wheel: WheelTruth, soil: SoilTruth, loadN: number, slip: number): Coefficients {
  const { pullN, torqueNm } = rollingOnSoil(wheel, soil, loadN, slip);
  return { pull: pullN / loadN, gross: torqueNm / (rollingRadius(wheel, loadN) * loadN) };
}

function made(seed: number, wheel: WheelTruth, id: string, bed: string, setLoadN: number, setSlip: number, drawn: ReadonlyMap<string, number>): RunResult {
  const random = dice(seed, id);
  const slip = 1 - (1 - setSlip) * (1 + 0.004 * random.normal());
  const { pull, gross } = coefficients(wheel, bedTruth(seed, bed).soil, setLoadN * (1 + 0.008 * random.normal()), slip);
  const own = (size: number): number => size * random.normal();
  return reducedRun({ id, wheel: wheel.id, setLoadN, setSlip, setSpeedMps: travelSpeed, bed }, {
    slip: read(slip, own(doubts.slip), [shared(causes.radius, (1 - slip) * doubts.radius), seen(random, id, doubts.slip)], drawn),
    pullCoefficient: read(pull, own(doubts.coefficient), [shared(causes.pull, pull * doubts.gain), shared(causes.load, -pull * doubts.gain), seen(random, id, doubts.coefficient)], drawn),
    grossTractionRatio: read(gross, own(doubts.coefficient), [shared(causes.torque, gross * doubts.gain), shared(causes.load, -gross * doubts.gain), shared(causes.radius, -gross * doubts.radius), seen(random, id, doubts.coefficient)], drawn),
  });
}

/** Greatest of (P/W)(1 − s)/(T/(rW)), by ever finer steps. */
function bestOf(truth: (slip: number) => Coefficients): { readonly efficiency: number; readonly slip: number } {
  const efficiency = (slip: number): number => (truth(slip).pull * (1 - slip)) / truth(slip).gross;
  let [slip, step] = [0.3, 0.1];
  while (step > 1e-4) {
    if (efficiency(slip + step) > efficiency(slip)) slip += step;
    else if (slip - step > 0.005 && efficiency(slip - step) > efficiency(slip)) slip -= step;
    else step /= 3;
  }
  return { efficiency: efficiency(slip), slip };
}
