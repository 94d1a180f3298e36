import { dice } from "./dice.ts";

/** The invented simulant SK-2 as it truly is, in SI units. */
export interface SoilTruth {
  /** N/m^(n+1) */
  readonly kc: number;
  /** N/m^(n+2) */
  readonly kphi: number;
  readonly n: number;
  readonly cohesionPa: number;
  readonly frictionRad: number;
  readonly shearModulusM: number;
  /** growth of n with slip: the wheel digs itself in */
  readonly slipSinkage: number;
  /** unloading stiffness per metre of sinkage [N/m^4] */
  readonly unloading: number;
}

export const simulant: SoilTruth = { kc: 12000, kphi: 2.28e6, n: 1.05, cohesionPa: 450, frictionRad: (34 * Math.PI) / 180, shearModulusM: 0.012, slipSinkage: 0.22, unloading: 3.2e9 };

/** One preparation of the soil bed. Preparations scatter: stiffness and friction move together with the density. */
export interface BedTruth {
  readonly id: string;
  /** share by which this bed is denser than the mean */
  readonly denser: number;
  readonly densityKgM3: number;
  readonly moisturePercent: number;
  /** kPa/mm = MPa/m */
  readonly gradient: number;
  readonly soil: SoilTruth;
}

export const targetGradient = 3.2;

export function bedTruth(seed: number, id: string): BedTruth {
  const random = dice(seed, `bed ${id}`);
  const denser = Math.max(-2, Math.min(2, random.normal())) * 0.008;
  const soil: SoilTruth = { ...simulant, kphi: simulant.kphi * (1 + 4 * denser), kc: simulant.kc * (1 + 4 * denser), frictionRad: simulant.frictionRad * (1 + 0.6 * denser) };
  return { id, denser, densityKgM3: 1640 * (1 + denser), moisturePercent: 0.31 + 0.04 * random.uniform(), gradient: targetGradient * (1 + 5 * denser), soil };
}

export interface ConeTruth {
  readonly bed: string;
  readonly position: string;
  readonly xMm: number;
  readonly yMm: number;
  readonly depthMm: number;
  readonly indexKpa: number;
}

/** Where a cone goes in, about: along the bed and across it [mm]. */
const places = { left: [500, 300], middle: [1500, 0], right: [2500, -300] } as const;

/** Three profiles between the wheels' paths, read every 25 mm. */
export function coneReadings(seed: number, bed: BedTruth): ConeTruth[] {
  const random = dice(seed, `cone ${bed.id}`);
  const hand = dice(seed, `cone places ${bed.id}`);
  return (["left", "middle", "right"] as const).flatMap((position) => {
    const [xMm, yMm] = places[position].map((at) => at + 10 * Math.round(4 * hand.normal())) as [number, number];
    const gradient = bed.gradient * (1 + 0.025 * random.normal());
    return [25, 50, 75, 100, 125, 150].map((depthMm) => ({ bed: bed.id, position, xMm, yMm, depthMm, indexKpa: Math.max(5, gradient * depthMm + 4 + 5 * random.normal()) }));
  });
}
