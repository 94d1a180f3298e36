import type { RunPlan, WheelRecord } from "../../src/campaign/campaign.ts";
import { rigSchema } from "../../src/campaign/rigSchema.ts";
import type { Channel } from "../../src/core/recording.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import type { PreparedRun } from "../../src/processing/preparedRun.ts";

/** A made drop: what falls, on what, and how badly it is measured. Own formulas; nothing of src/processing is used. */
export interface MadeDrop {
  readonly seed: number;
  readonly heightM: number;
  /** contact force per mass k (−x)^p − c v while x < 0 and the sum is positive; k [1/s² · m^(1−p)], c [1/s] */
  readonly stiffness: number;
  readonly exponent: number;
  readonly damping: number;
  /** dry friction per mass [m/s²] */
  readonly friction: number;
  readonly rateHz: number;
  readonly noise: number;
  readonly zero: number;
  /** relative error of the accelerometer */
  readonly gainError: number;
  readonly gainUncertainty: number;
  /** null = no height channel */
  readonly heightNoise: number | null;
  readonly heightOffset: number;
  readonly durationS: number;
  /** upper end of the accelerometer [m/s²] */
  readonly range: number;
}

export const usual: MadeDrop = {
  seed: 1, heightM: 0.1, stiffness: 9000, exponent: 1, damping: 2 * 0.08 * Math.sqrt(9000), friction: 0.3, rateHz: 20000, noise: 0.5, zero: 0.7,
  gainError: 0, gainUncertainty: 0.01, heightNoise: 0.0002, heightOffset: 0, durationS: 2.5, range: 2000,
};

export const gravity = 9.81;

export interface Truth {
  readonly impactSpeed: number;
  readonly reboundSpeed: number;
  readonly velocityChange: number;
  readonly contactS: number;
  readonly flightsS: readonly number[];
  /** e of each contact that ended in a flight */
  readonly restitutions: readonly number[];
  readonly peak: number;
  /** of the first contact: largest, and at lift-off [m] */
  readonly compression: number;
  readonly compressionAtLiftOff: number;
  /** work of the hub on wheel and guide over the first contact, per mass [m²/s²] */
  readonly lossPerMass: number;
  /** the loading of the first contact: compression [m] and the push per mass [m/s²], step by step */
  readonly loading: readonly (readonly [number, number])[];
}

/** Carriage and wheel [kg]. */
export const fallingKg = 4.5;

/** Steps of the integration per sample. */
const substeps = 4;

/** The log and the truth. */
export function madeDrop(made: MadeDrop): { readonly run: PreparedRun; readonly truth: Truth } {
  const random = seededRandom(made.seed);
  const restS = 0.5 + 0.1 * random.uniform();
  const count = Math.round(made.durationS * made.rateHz);
  const acceleration = new Float64Array(count);
  const height = new Float64Array(count);
  const force = (x: number, v: number): number => (x >= 0 ? 0 : Math.max(0, made.stiffness * (-x) ** made.exponent - made.damping * v));
  const rate = (x: number, v: number): number => force(x, v) - gravity - made.friction * Math.tanh(v / 2e-3);
  let x = made.heightM;
  let v = 0;
  let touching = false;
  let touchS = 0;
  let leaveS = 0;
  const touches: number[] = [];
  const leaves: number[] = [];
  const flightsS: number[] = [];
  let contactS = 0;
  let peak = 0;
  let compression = 0;
  let lossPerMass = 0;
  let left = Number.NaN;
  const loading: [number, number][] = [];
  const step = 1 / made.rateHz / substeps;
  for (let i = 0; i < count; i++) {
    for (let k = 0; k < substeps; k++) {
      const now = i / made.rateHz + (k + 1) * step;
      if (now - step < restS) continue;
      const a1 = rate(x, v);
      const a2 = rate(x + (v * step) / 2, v + (a1 * step) / 2);
      const a3 = rate(x + ((v + (a1 * step) / 2) * step) / 2, v + (a2 * step) / 2);
      const a4 = rate(x + (v + (a2 * step) / 2) * step, v + a3 * step);
      x += v * step + ((a1 + a2 + a3) * step * step) / 6;
      v += ((a1 + 2 * a2 + 2 * a3 + a4) * step) / 6;
      const on = force(x, v) > 0;
      if (touching && leaves.length === 0) {
        compression = Math.max(compression, -x);
        lossPerMass -= (rate(x, v) + gravity) * v * step;
        if (v < 0) loading.push([-x, rate(x, v) + gravity]);
      }
      if (on && !touching) {
        touches.push(-v);
        if (leaves.length > 0) flightsS.push(now - leaveS);
        touchS = now;
      }
      if (!on && touching) {
        if (leaves.length === 0) left = -x;
        leaves.push(v);
        leaveS = now;
        if (leaves.length === 1) contactS = now - touchS;
      }
      touching = on;
    }
    const true_ = i / made.rateHz < restS ? 0 : rate(x, v);
    peak = Math.max(peak, true_);
    acceleration[i] = Math.min(made.range, (1 + made.gainError) * true_ + made.zero + made.noise * random.normal());
    height[i] = x + made.heightOffset + (made.heightNoise ?? 0) * random.normal();
  }
  const truth: Truth = {
    impactSpeed: touches[0] ?? Number.NaN, reboundSpeed: leaves[0] ?? Number.NaN, velocityChange: (touches[0] ?? Number.NaN) + (leaves[0] ?? Number.NaN),
    contactS, flightsS, restitutions: leaves.map((leave, i) => leave / (touches[i] as number)), peak,
    compression, compressionAtLiftOff: left, lossPerMass, loading,
  };
  return { run: prepared(made, acceleration, height), truth };
}

export const wheel: WheelRecord = { id: "W1", radiusM: 0.1, widthM: 0.08, massKg: 2, lugs: 0, lugHeightM: 0, flexible: true, description: "", bareFrame: null, factors: {}, line: 2 };

export const plan: RunPlan = {
  id: "D1", sheetId: "D1", kind: "drop", wheel: "W1", bed: null, setLoadN: null, setSlip: null, setSpeedMps: null, repeat: null, pass: null, block: null, dropHeightM: 0.1,
  plate: null, shearAreaM2: null, normalStressPa: null, contactAngleRad: null, obstacle: null, footprint: null, remark: "", excluded: null, line: 2, more: {},
};

function prepared(made: MadeDrop, acceleration: Float64Array, height: Float64Array): PreparedRun {
  const rig = rigSchema.parse({
    rig: "Drop bench", gravity, slipRadius: { policy: "unloaded", lugs: "without" },
    loggers: { drop: { files: "logs/{run}.csv", kinds: ["drop"], clock: { kind: "rate", rateHz: made.rateHz }, channels: { hubAcceleration: { column: "a", unit: "m/s2", sign: 1, range: [-made.range, made.range] } } } },
    drop: { filterClass: 1000, filterStandard: "SAE J211", restS: 0.2, carriageMass: 2.5, massUncertainty: 0.02, heightUncertainty: 0.0005 },
  });
  const channels: Channel[] = [{ name: "hubAcceleration", unit: "m/s2", samples: acceleration, doubt: { noise: 0, offset: 1, relativeGain: made.gainUncertainty, calibration: "ACC-1" } }];
  if (made.heightNoise !== null) channels.push({ name: "dropHeight", unit: "m", samples: height, doubt: { noise: 0, offset: 0.0003, relativeGain: 0.001, calibration: "POT-1" } });
  return {
    plan: { ...plan, dropHeightM: made.heightM }, wheel, rig,
    recordings: [{ time: { kind: "uniform", startS: 0, rateHz: made.rateHz, count: acceleration.length }, startedAt: null, channels, sources: [], history: [] }],
  };
}
