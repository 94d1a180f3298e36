import type { RunKind } from "../../src/campaign/rigSchema.ts";
import { gravity } from "../demo/rigTruth.ts";
import type { WheelTruth } from "../demo/wheelTruth.ts";

export type Truth = Readonly<Record<string, unknown>>;

/** A number of a run's truth. */
export function at(truth: Truth, name: string): number {
  const value = truth[name];
  if (typeof value !== "number") throw new Error(`the truth holds no number "${name}"`);
  return value;
}

/** What each measure of a run should be, from the maker's truth of that run; measures whose truth is not known are left out. */
export function truthOf(kind: RunKind, truth: Truth, wheel: WheelTruth | null): ReadonlyMap<string, number> {
  const makers: Record<RunKind, () => Record<string, number | undefined>> = {
    traction: () => traction(truth),
    hardFloor: () => ({ rollingRadius: at(truth, "rollingRadiusM"), carriageSpeed: at(truth, "speedMps"), wheelSpeed: at(truth, "angularSpeedRadS"), verticalLoad: at(truth, "loadN") }),
    freeSpin: () => ({ freeSpinDrag: at(truth, "freeSpinTorqueNm"), wheelSpeed: at(truth, "angularSpeedRadS") }),
    loadDeflection: () => ("firmness" in truth ? round(truth) : bench(truth, wheel)),
    footprint: () => ({ contactArea: at(truth, "areaM2"), contactLength: at(truth, "lengthM"), meanPressure: at(truth, "meanPressurePa"), ...("peakPressurePa" in truth ? { peakPressure: at(truth, "peakPressurePa"), footprintForce: at(truth, "loadN") } : {}) }),
    obstacle: () => ({ climbed: at(truth, "climbed"), hubRise: at(truth, "hubRiseM"), peakTorque: at(truth, "peakTorqueNm"), driveEnergy: at(truth, "driveEnergyJ") }),
    endurance: () => endurance(truth),
    sweep: () => ({ verticalLoad: at(truth, "loadN"), slipRadius: at(truth, "rollingRadiusM"), slipRate: at(truth, "slipRatePerS"), responseLag: at(truth, "lagS"), sweepHysteresis: at(truth, "hysteresis"), pullCoefficientAt20: at(truth, "pullCoefficientAt20") }),
    drop: () => drop(truth),
    plate: () => ({ sinkageExponent: at(truth, "exponent"), plateStiffness: at(truth, "stiffnessPaPerMn"), pressureAt10mm: at(truth, "stiffnessPaPerMn") * 0.01 ** at(truth, "exponent") }),
    shear: () => ({ shearStrength: at(truth, "strengthPa"), shearModulus: at(truth, "shearModulusM"), shearModulusWeighted: at(truth, "shearModulusM"), normalStress: at(truth, "normalStressPa") }),
  };
  return new Map(Object.entries(makers[kind]()).filter((entry): entry is [string, number] => entry[1] !== undefined));
}

function traction(truth: Truth): Record<string, number | undefined> {
  const t = (name: string): number => at(truth, name);
  const [load, pull, torque, radius, speed, turning] = [t("loadN"), t("pullN"), t("torqueNm"), t("rollingRadiusM"), t("speedMps"), t("angularSpeedRadS")];
  const driven = truth["slip"] !== null;
  return {
    ...(driven ? { slip: t("slip"), tractiveEfficiency: (pull * speed) / (torque * turning) } : { skid: t("skid") }),
    slipRadius: radius,
    carriageSpeed: speed,
    wheelSpeed: turning,
    verticalLoad: load,
    drawbarPull: pull,
    pullCoefficient: pull / load,
    wheelTorque: torque,
    grossTractionRatio: torque / radius / load,
    motionResistanceRatio: (torque / radius - pull) / load,
    powerNumber: (torque * turning) / (load * speed),
    energyPerDistance: (torque * turning) / speed,
    // on a lane that slopes the hub climbs with it
    ...("bedSlopeRad" in truth ? { bedSlope: t("bedSlopeRad"), rutDepth: t("rutDepthM") } : { hubDrop: t("hubDropM") }),
    sinkageRunning: t("sinkageM"),
    sinkageStatic: t("standingSinkageM"),
  };
}

function endurance(truth: Truth): Record<string, number> {
  const t = (name: string): number => at(truth, name);
  return {
    distance: t("distanceM"), revolutions: t("revolutions"), runningTime: t("runningS"), carriageSpeed: t("speedMps"), wheelSpeed: t("angularSpeedRadS"),
    slip: t("slip"), slipChange: t("slipChange"), verticalLoad: t("loadN"), drawbarPull: t("pullN"), pullCoefficient: t("pullN") / t("loadN"), wheelTorque: t("torqueNm"),
  };
}

/** At the greatest load, three cycles; the curve that comes back lies lower by hysteresis · 4 p (1 − p), p the share of the load. */
function bench(truth: Truth, wheel: WheelTruth | null): Record<string, number | undefined> {
  const deepestM = at(truth, "deepestM");
  const [stiffness, hardening] = [at(truth, "stiffnessNm"), at(truth, "hardeningNm3")];
  return {
    deflection: deepestM,
    secantStiffness: at(truth, "largestLoadN") / deepestM,
    tangentStiffness: stiffness + 3 * hardening * deepestM ** 2,
    loopEnergy: wheel === null ? undefined : loop(wheel, deepestM),
  };
}

/** At one contact angle, four cycles, the last held. */
function round(truth: Truth): Record<string, number> {
  return {
    deflection: at(truth, "deflectionM"),
    secantStiffness: at(truth, "secantStiffnessNm"),
    loopEnergy: at(truth, "loopEnergyJ"),
    settlingPerCycle: at(truth, "settlingPerCycleM"),
    settlingTotal: at(truth, "settlingTotalM"),
    creepDuringDwell: at(truth, "creepDuringDwellM"),
  };
}

function loop(wheel: WheelTruth, deepestM: number): number {
  const load = (d: number): number => wheel.stiffnessNm * d + wheel.hardeningNm3 * d ** 3;
  const steps = 2000;
  let sum = 0;
  for (let i = 0; i < steps; i++) {
    const d = ((i + 0.5) * deepestM) / steps;
    const share = load(d) / load(deepestM);
    sum += load(d) * wheel.hysteresis * 4 * share * (1 - share);
  }
  return (sum * deepestM) / steps;
}

function drop(truth: Truth): Record<string, number | undefined> {
  const [first, second] = truth["restitution"] as readonly number[];
  const impact = at(truth, "impactSpeedMps");
  const rebound = first ?? Number.NaN;
  return {
    impactSpeed: impact,
    restitution: first,
    restitutionFromVelocities: first,
    restitutionFromFlightTimes: first,
    restitutionFromHeights: first,
    restitutionSecondImpact: second,
    reboundSpeed: rebound * impact,
    velocityChange: (1 + rebound) * impact,
    absorbedShare: 1 - rebound ** 2,
    peakAcceleration: at(truth, "peakAccelerationMps2"),
    peakForce: at(truth, "massKg") * (at(truth, "peakAccelerationMps2") + gravity),
    largestCompression: at(truth, "largestDeflectionM"),
    compressionFromHeight: at(truth, "largestDeflectionM"),
    impactEnergy: 0.5 * at(truth, "massKg") * impact ** 2,
    dampingRatioDecrement: at(truth, "dampingRatio"),
    dampingRatioFit: at(truth, "dampingRatio"),
    naturalFrequency: at(truth, "naturalFrequencyHz"),
  };
}
