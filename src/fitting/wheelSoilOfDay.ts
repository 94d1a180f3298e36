import type { Campaign } from "../campaign/campaign.ts";
import type { DeflectionCurve, RunResult, SoilResult } from "../processing/dayResult.ts";
import type { WheelSoilResult } from "../processing/wheelSoilResult.ts";
import { soilBeliefs } from "./soilBeliefs.ts";
import { wheelObservationsFrom } from "./wheelObservations.ts";
import { doWheelSoilJob } from "./wheelSoilJobs.ts";
import type { WheelSoilHands } from "./wheelSoilJobs.ts";
import { wheelSoilFrom } from "./wheelSoilResult.ts";
import { groundUnder } from "./wheelSoilStart.ts";

/** draws of each chain, where rig.yaml states none: enough for 400 effective ones on a day of a hundred runs */
const steps = 1500;
/** refits to drawn beds, where rig.yaml states none: they know a spread to a tenth of itself */
const replicates = 50;

/**
 * The soil as the day's wheels felt it, where rig.yaml asks for it.
 *
 * @param runs          all runs of the day
 * @param campaign      wheels, beds and rig description
 * @param deflections   measured plate curves
 * @param soil          the day's plate and shear fits, as belief
 * @param hands         who does the long jobs; left out: this thread
 * @returns             the result; null where rig.yaml has no `soil.wheelModel`
 * @source              `wheelSoilFrom`
 * @checked             tests/fitting/wheelSoilOfDay.test.ts
 */
export async function wheelSoilOfDay(runs: readonly RunResult[], campaign: Campaign, deflections: readonly DeflectionCurve[], soil: SoilResult, hands: WheelSoilHands = ownHands): Promise<WheelSoilResult | null> {
  const declared = campaign.rig.soil?.wheelModel;
  if (declared === undefined) return null;
  const { observations, refused } = wheelObservationsFrom(runs, campaign, deflections);
  const shearRad = declared.shearTransfer === undefined ? undefined : (declared.shearTransfer * Math.PI) / 180;
  const beliefs = soilBeliefs(soil, observations.length === 0 ? 1 : groundUnder(observations).referenceWidthM, { plate: declared.plateTransfer, shearRad });
  const transfer = { plate: declared.plateTransfer ?? null, shearDeg: declared.shearTransfer ?? null };
  return wheelSoilFrom(observations, refused, { beliefs, transfer, hands, steps: declared.draws ?? steps, robust: declared.robust ?? false, replicates: declared.bootstrap ?? replicates });
}

const ownHands: WheelSoilHands = (jobs) => Promise.resolve(jobs.map(doWheelSoilJob));
