import { z } from "zod";

const share = z.number().gt(0).lt(1);

/** What an endurance test is held against. Nothing has a default: what is not stated leaves what hangs on it undetermined. */
export const enduranceSchema = z
  .strictObject({
    missionDistance: z.number().positive().optional().describe("distance a wheel has to last [m]"),
    massUncertainty: z.number().positive().optional().describe("standard uncertainty of one weighing of a wheel [kg]"),
    soilMassUncertainty: z.number().positive().optional().describe("standard uncertainty of the mass of soil that stuck to a weighed wheel [kg]"),
    radiusUncertainty: z.number().positive().optional().describe("standard uncertainty of one reading of a radius at an inspection [m]"),
    stiffnessUncertainty: z.number().positive().optional().describe("standard uncertainty of one stiffness at an inspection [N/m]"),
    pullUncertainty: z.number().positive().optional().describe("standard uncertainty of one pull coefficient written down at an inspection; a run brings its own"),
    wearingDensity: z.number().positive().optional().describe("density of the material that wears off [kg/m³]"),
    wearingDensityUncertainty: z.number().nonnegative().optional().describe("standard uncertainty of that density [kg/m³]"),
    weibullShape: z.number().positive().optional().describe("shape β of the Weibull distribution of lives that a demonstration without failures assumes; it cannot be learned from such a test"),
    claim: z.strictObject({ reliability: share.describe("share of wheels that outlive one mission"), confidence: share.describe("with which this is to be said") }).optional().describe("what is to be demonstrated, e.g. { reliability: 0.9, confidence: 0.9 }"),
    lifeLine: z
      .strictObject({
        range: z.number().positive().describe("a range of vertical load, greatest less least [N]"),
        cycles: z.number().positive().describe("cycles of that range to failure"),
        exponent: z.number().positive().describe("m: ten times the range costs 10^m of the life"),
        cutOff: z.number().positive().nullable().describe("ranges below it do no damage [N]; null = every range counts"),
        scatterFactor: z.number().gt(1).optional().describe("one standard deviation of the life, as a factor either way"),
      })
      .optional()
      .describe("cycles to failure over the range of vertical load (S–N line), for the linear damage sum"),
  })
  .describe("what endurance runs and inspections are held against");
