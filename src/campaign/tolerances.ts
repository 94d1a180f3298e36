import { z } from "zod";

/** Limits of one check: beyond `look` a person looks, beyond `reject` the result is not used. */
const pair = (look: number, reject: number, what: string) =>
  z
    .strictObject({ look: z.number(), reject: z.number() })
    .default({ look, reject })
    .describe(`${what} Default ${look} / ${reject}: common practice.`);

const single = (value: number, what: string) => z.number().nonnegative().default(value).describe(`${what} Default ${value}: common practice.`);

/** Limits of every check. The defaults are common practice at single-wheel rigs; a rig description may state its own. */
export const tolerancesSchema = z.strictObject({
  zeroDriftOfRange: pair(0.003, 0.01, "Zero drift between the pre-run and post-run zero, as a share of the channel's range."),
  zeroDriftOfMean: pair(0.02, 0.05, "Zero drift of vertical load and drawbar pull, as a share of the run's mean vertical load."),
  loadSpread: pair(0.03, 0.08, "Standard deviation of the vertical load within a window's revolution means, as a share of the mean."),
  loadDeviation: pair(0.05, 0.15, "Mean vertical load away from the set load, as a share of it."),
  slipSpread: pair(0.01, 0.03, "Standard deviation of the slip of single revolutions."),
  slipDeviation: pair(0.03, 0.1, "Slip away from the set slip, absolute."),
  pullSlope: pair(0.01, 0.05, "Trend of the pull per revolution, as a share of the vertical load."),
  revolutions: pair(3, 2, "Fewest whole revolutions in the window (below: look / reject)."),
  settlingDiameters: single(1, "Travel left out after the start, in wheel diameters."),
  endDiameters: single(1, "Travel left out before the end of the bed, in wheel diameters."),
  energyExcess: pair(0, 0.03, "Power out above power in, as a share of power in."),
  impulse: pair(0.05, 0.1, "Disagreement of the impulse check of a drop, as a share."),
  footprintLoad: pair(0.1, 0.2, "Pressure summed over a footprint away from the set load, as a share of it, beside three times the standard uncertainty of the pad."),
  obstacleHeight: pair(0.15, 0.4, "Rise of the hub over a climbed step on the hard floor away from the height on the run sheet, as a share of it."),
  restitutionAgreement: pair(0.03, 0.08, "Spread of the restitution from velocities, flight times and heights."),
  clockRatePpm: pair(200, 20000, "Rate of one logger's clock against the other's, in parts per million."),
  sideForce: pair(0.03, 0.08, "Mean side force as a share of the vertical load."),
  sideForceGrowth: single(0.005, "Growth of the side force with the load over all traction runs of the day, where it has one sign in all of them."),
  coneGradient: pair(0.1, 0.2, "Cone index gradient away from the bed's target, as a share."),
  coneSpread: pair(0.1, 0.25, "Standard deviation of the mean cone index between the profiles of a bed, as a share."),
  gapSamples: pair(3, 100, "Longest pause inside a log, in sampling intervals."),
  clippedShare: pair(0, 0.01, "Share of samples at the end of a channel's range."),
  missingShare: pair(0.001, 0.05, "Share of missing samples in a channel."),
  crossTalk: pair(0.004, 0.03, "Pull, or torque at the rim, that comes with the load while the wheel is lowered standing still, as a share of the load."),
  hangingLoad: pair(0.008, 0.04, "Vertical load of the wheel hanging free before it touches, as a share of the load it then stands with."),
  zeroClearance: single(0.001, "Least height of the hub during the zero block above its height at first touch, in metres."),
  loadShift: pair(0.01, 0.08, "Change of the vertical load from standing to rolling, as a share."),
  tiltBias: pair(0.0015, 0.02, "Weight left in the pull because the zero was taken at another tilt, as a share of the load."),
  speedDeviation: pair(0.05, 0.15, "Carriage speed away from the set speed, as a share of it."),
  speedSpread: pair(0.03, 0.08, "Standard deviation of the carriage speed of single revolutions, as a share."),
  encoderRatio: pair(0.25, 0.6, "Carriage speed over rim speed away from what the set slip leaves of it, as the size of its natural logarithm."),
  radiusChoice: pair(0.005, 0.05, "Difference between slip counted from the radius of the record and from the rolled radius."),
  grossTraction: pair(1, 1.5, "Torque at the rim as a share of the load."),
  hubAboveGround: single(0.001, "Negative sinkage beyond twice its standard uncertainty, in metres."),
  lugOrder: pair(0.0025, 0.03, "Difference between the ripple's count per turn of the encoder and the number of lugs, as a share."),
  localHole: pair(0.05, 0.2, "Deviation of the pull over a twelfth of a revolution from the same part of other revolutions, as a share of the load."),
  recordRadius: single(0.01, "How far the rolled radius may lie outside what the record allows (tips, and tips less deflection), as a share."),
  floorOffset: single(0.0025, "Resistance on the hard floor that is left at no load, as a share of the mean load."),
  torqueAgainstPull: pair(0.7, 1.2, "Growth of the force at the rim over growth of the pull from slip to slip, as the size of its natural logarithm."),
  deflectionAgreement: single(0.15, "Hub drop on the hard floor away from the deflection under the press, as a share, beside three times both uncertainties."),
  rutAgreement: single(0.25, "Rut depth away from the running sinkage, as a share of it, beside three times both uncertainties and the height of the lugs: soil springs and falls back."),
  bedChange: single(0.01, "Change of the pull coefficient between repeats on one bed."),
  orderTrend: single(0.008, "Change of the pull coefficient through the day in repeats of one condition."),
  bedDepthDiameters: single(1, "Depth of soil a wheel needs, in wheel diameters."),
  bedDepthSinkages: single(5, "Depth of soil a wheel needs, in its deepest sinkages; the larger of the two counts."),
  bedSideWidths: single(1, "Distance of the wheel's side from the wall, in wheel widths."),
  moistureSpread: single(0.3, "Difference between the wettest and the driest bed, as a share of their mean moisture."),
  coneRate: single(0.2, "Rate of the cone away from 30 mm/s, as a share."),
  spikes: pair(0, 0.01, "Share of single samples of a slow channel that jump away and back."),
  levelJump: pair(0.001, 0.01, "Step of a hub height or position from one sample to the next, in metres."),
  samplesPerLug: pair(4, 2, "Samples of force in the time from one lug to the next (below: look / reject)."),
  linePickup: pair(0.005, 0.05, "Amplitude of a mains line in force or torque while the wheel turns, as a share of the load."),
  clockLag: pair(0.15, 1, "Torque before the wheel turns, or later than the ground explains, on the common clock, in seconds."),
  bedSlope: pair(0.0005, 0.005, "Rise or fall of the hub along the way from first touch to the middle of the window, in metres."),
  soilCarried: pair(0.06, 0.3, "Mass that the lifted wheel gained during a run, in kilograms."),
  wheelMassShift: pair(0.08, 0.5, "Mass of the lifted wheel away from other runs of it that day, in kilograms."),
  rigidDeflection: pair(0.001, 0.01, "Hub drop on the hard floor of a wheel recorded as rigid, in metres."),
  comparedSpeeds: pair(0.015, 0.2, "Difference between the carriage speeds of wheels that are compared, as a share."),
  stiffnessShift: pair(0.03, 0.1, "Change of a wheel's stiffness between its load–deflection runs of the day, as a share."),
  torquePerCurrent: pair(0.03, 0.1, "Change of torque per motor current through the day, as a share."),
  dropBand: pair(0.001, 0.1, "Share of a blow's power that lies in the upper third of the sampled band."),
  windowSensitivity: pair(0.01, 0.03, "Change of the pull coefficient when the window is moved or shortened."),
});

export type Tolerances = z.infer<typeof tolerancesSchema>;
export type TolerancePair = Tolerances["impulse"];
