import { rigSchema } from "../../src/campaign/rigSchema.ts";
import type { Channel } from "../../src/core/recording.ts";
import { seededRandom } from "../../src/numerics/random.ts";
import type { PreparedRun } from "../../src/processing/preparedRun.ts";
import { plan, wheel } from "./madeDrop.ts";

/** A drop put together from exact pieces: rest, free fall, half-sine contacts, parabolic flights, rest. */
export interface ShapedDrop {
  readonly heightM: number;
  readonly gravity: number;
  readonly restitution: number;
  readonly pulseS: number;
  readonly rateHz: number;
  readonly restS: number;
  readonly bounces: number;
  readonly gain: number;
  readonly shiftMps2: number;
  readonly rangeMps2: number | null;
  readonly withHeight: boolean;
  readonly heightOffsetM: number;
  readonly filterClass: 60 | 180 | 600 | 1000;
  readonly knock: boolean;
}

const usual: ShapedDrop = { heightM: 0.1, gravity: 9.81, restitution: 0.7, pulseS: 0.01, rateHz: 50000, restS: 0.5, bounces: 3, gain: 1, shiftMps2: 0, rangeMps2: 5000, withHeight: false, heightOffsetM: 0, filterClass: 1000, knock: false };

interface Piece {
  readonly durationS: number;
  readonly acceleration: (t: number) => number;
  readonly height: (t: number) => number;
}

export function shapedDrop(change: Partial<ShapedDrop>): PreparedRun {
  const drop = { ...usual, ...change };
  const pieces = piecesOf(drop);
  const totalS = pieces.reduce((sum, piece) => sum + piece.durationS, 0);
  const count = Math.floor(totalS * drop.rateHz);
  const random = seededRandom(5);
  const acceleration = new Float64Array(count);
  const height = new Float64Array(count);
  let piece = 0;
  let startS = 0;
  for (let i = 0; i < count; i++) {
    // A third of an interval: no event falls on a sample by chance.
    const timeS = (i + 1 / 3) / drop.rateHz;
    while (timeS - startS >= (pieces[piece] as Piece).durationS) startS += (pieces[piece++] as Piece).durationS;
    const { acceleration: a, height: h } = pieces[piece] as Piece;
    const shift = piece > 1 ? drop.shiftMps2 : 0;
    acceleration[i] = Math.min(drop.rangeMps2 ?? Infinity, drop.gain * a(timeS - startS) + 0.5 + shift + 0.01 * random.normal()) ;
    height[i] = h(timeS - startS) + drop.heightOffsetM + 1e-5 * random.normal();
  }
  return prepared(drop, acceleration, height);
}

function piecesOf(drop: ShapedDrop): Piece[] {
  const { gravity: g, heightM, pulseS } = drop;
  const zero = (): number => 0;
  const pieces: Piece[] = [{ durationS: drop.restS, acceleration: zero, height: () => heightM }];
  const fallS = Math.sqrt((2 * heightM) / g);
  if (drop.knock) {
    // Half-way in time a push of 5 g for 4 ms takes some speed.
    const pushS = 0.004;
    const v = g * (fallS / 2);
    const left = v - 4 * g * pushS;
    const rest = heightM - (g * (fallS / 2) ** 2) / 2 - ((v + left) / 2) * pushS;
    const on = (Math.sqrt(left ** 2 + 2 * g * rest) - left) / g;
    pieces.push({ durationS: fallS / 2, acceleration: () => -g, height: zero }, { durationS: pushS, acceleration: () => 4 * g, height: zero }, { durationS: on, acceleration: () => -g, height: zero });
    return bounced(drop, pieces, left + g * on);
  }
  pieces.push({ durationS: drop.bounces === 0 ? fallS / 2 : fallS, acceleration: () => -g, height: (t) => heightM - (g * t * t) / 2 });
  return bounced({ ...drop, pulseS }, pieces, Math.sqrt(2 * g * heightM));
}

function bounced(drop: ShapedDrop, pieces: Piece[], impact: number): Piece[] {
  const { gravity: g, restitution: e, pulseS } = drop;
  let speed = impact;
  for (let n = 0; n < drop.bounces; n++) {
    const leave = e * speed;
    const peak = ((Math.PI / 2) * (speed + leave)) / pulseS;
    pieces.push({ durationS: pulseS, acceleration: (t) => peak * Math.sin((Math.PI * t) / pulseS), height: () => 0 });
    if (leave === 0) break;
    pieces.push({ durationS: (2 * leave) / g, acceleration: () => -g, height: (t) => leave * t - (g * t * t) / 2 });
    speed = leave;
  }
  if (drop.bounces > 0 && e > 0) pieces.push({ durationS: pulseS, acceleration: (t) => (((Math.PI / 2) * speed) / pulseS) * Math.sin((Math.PI * t) / pulseS), height: () => 0 });
  if (drop.bounces > 0) pieces.push({ durationS: 0.5, acceleration: () => 0, height: () => 0 });
  return pieces;
}

function prepared(drop: ShapedDrop, acceleration: Float64Array, height: Float64Array): PreparedRun {
  const range = drop.rangeMps2 === null ? {} : { range: [-drop.rangeMps2, drop.rangeMps2] };
  const rig = rigSchema.parse({
    rig: "Drop bench", gravity: drop.gravity, slipRadius: { policy: "unloaded", lugs: "without" },
    loggers: { drop: { files: "logs/{run}.csv", kinds: ["drop"], clock: { kind: "rate", rateHz: drop.rateHz }, channels: { hubAcceleration: { column: "a", unit: "m/s2", sign: 1, ...range } } } },
    drop: { filterClass: drop.filterClass, filterStandard: "SAE J211", restS: 0.2, carriageMass: 2.5, heightUncertainty: 0.0005 },
  });
  const channels: Channel[] = [{ name: "hubAcceleration", unit: "m/s2", samples: acceleration, doubt: { noise: 0, offset: 1, relativeGain: 0.01, calibration: "ACC-1" } }];
  if (drop.withHeight) channels.push({ name: "dropHeight", unit: "m", samples: height, doubt: { noise: 0, offset: 0.0001, relativeGain: 0.001, calibration: "POT-1" } });
  return { plan: { ...plan, dropHeightM: drop.heightM }, wheel, rig, recordings: [{ time: { kind: "uniform", startS: 0, rateHz: drop.rateHz, count: acceleration.length }, startedAt: null, channels, sources: [], history: [] }] };
}
