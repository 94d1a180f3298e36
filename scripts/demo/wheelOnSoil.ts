import type { SoilTruth } from "./soilTruth.ts";
import { deflection, rollingRadius, tipRadius } from "./wheelTruth.ts";
import type { WheelTruth } from "./wheelTruth.ts";

/** What a wheel truly does at a load and a slip. */
export interface WheelState {
  readonly sinkageM: number;
  readonly pullN: number;
  /** at the ground, hub drag not included */
  readonly torqueNm: number;
  readonly loadN: number;
}

// where the stress peaks between entry and bottom, and how the rut springs back
const peakShare = 0.4;
const peakSlip = 0.15;
const rebound = 0.08;
const intervals = 40;

/** Steady rolling. `speedRatio` is travel speed over rim speed: 1 − slip when driven, 1 / (1 + slip) when braked. */
export function rollingOnSoil(wheel: WheelTruth, soil: SoilTruth, loadN: number, slip: number): WheelState {
  const speedRatio = slip >= 0 ? 1 - slip : 1 / (1 + slip);
  let low = 1e-4;
  let high = 0.09;
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (forces(wheel, soil, loadN, slip, speedRatio, middle).vertical < loadN) low = middle;
    else high = middle;
  }
  const sinkageM = (low + high) / 2;
  const { vertical, pull, rim } = forces(wheel, soil, loadN, slip, speedRatio, sinkageM);
  const radius = rollingRadius(wheel, loadN);
  return { sinkageM, pullN: pull, torqueNm: radius * (rim + wheel.rollingLoss * loadN), loadN: vertical };
}

/** A flexible wheel stands on a flatter arc: the radius of the circle that takes its place. */
function arcRadius(wheel: WheelTruth, loadN: number, sinkageM: number): number {
  const bend = deflection(wheel, loadN);
  return tipRadius(wheel) * (1 + (1.1 * bend) / (bend + sinkageM));
}

function forces(wheel: WheelTruth, soil: SoilTruth, loadN: number, slip: number, speedRatio: number, sinkageM: number): { vertical: number; pull: number; rim: number } {
  const arc = arcRadius(wheel, loadN, sinkageM);
  const entry = Math.acos(1 - sinkageM / arc);
  const exit = -Math.acos(1 - (rebound * sinkageM) / arc);
  const peak = (peakShare + peakSlip * Math.max(0, slip)) * entry;
  const exponent = soil.n + soil.slipSinkage * Math.abs(slip);
  const stiffness = (soil.kc / wheel.widthM + soil.kphi) * arc ** exponent;
  // lugs hold soil between them: part of the rim shears soil on soil, the rest slides on the skin
  const held = Math.min(1, 0.45 + (2.2 * wheel.lugs * wheel.lugHeightM) / (2 * Math.PI * wheel.radiusM));
  const friction = held * Math.tan(soil.frictionRad) + (1 - held) * Math.tan(0.62 * soil.frictionRad);
  const cosEntry = Math.cos(entry);
  const sinEntry = Math.sin(entry);
  let vertical = 0;
  let pull = 0;
  let rim = 0;
  const part = (from: number, to: number): void => {
    const step = (to - from) / intervals;
    for (let i = 0; i <= intervals; i++) {
      const angle = from + i * step;
      const weight = (step / 3) * (i === 0 || i === intervals ? 1 : i % 2 === 1 ? 4 : 2);
      const mapped = angle >= peak ? angle : entry - ((angle - exit) / (peak - exit)) * (entry - peak);
      const normal = stiffness * Math.max(0, Math.cos(mapped) - cosEntry) ** exponent;
      const travel = arc * (entry - angle - speedRatio * (sinEntry - Math.sin(angle)));
      const shear = Math.sign(travel) * (held * soil.cohesionPa + normal * friction) * (1 - Math.exp(-Math.abs(travel) / soil.shearModulusM));
      vertical += weight * (normal * Math.cos(angle) + shear * Math.sin(angle));
      pull += weight * (shear * Math.cos(angle) - normal * Math.sin(angle));
      rim += weight * shear;
    }
  };
  part(exit, peak);
  part(peak, entry);
  const area = wheel.widthM * arc;
  return { vertical: vertical * area, pull: pull * area, rim: rim * area };
}

/** Sinkage of the wheel standing still under a load [m]. */
export function standingSinkage(wheel: WheelTruth, soil: SoilTruth, loadN: number): number {
  const carried = (sinkageM: number): number => {
    const arc = arcRadius(wheel, loadN, sinkageM);
    const entry = Math.acos(1 - sinkageM / arc);
    const stiffness = (soil.kc / wheel.widthM + soil.kphi) * arc ** soil.n;
    const step = entry / intervals;
    let sum = 0;
    for (let i = 0; i <= intervals; i++) {
      const angle = i * step;
      sum += (step / 3) * (i === 0 || i === intervals ? 1 : i % 2 === 1 ? 4 : 2) * stiffness * Math.max(0, Math.cos(angle) - Math.cos(entry)) ** soil.n * Math.cos(angle);
    }
    return 2 * wheel.widthM * arc * sum;
  };
  let low = 1e-5;
  let high = 0.09;
  for (let i = 0; i < 50; i++) {
    const middle = (low + high) / 2;
    if (carried(middle) < loadN) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
