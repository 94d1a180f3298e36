import type { SoilTruth } from "./soilTruth.ts";
import { rollingOnSoil } from "./wheelOnSoil.ts";
import type { WheelState } from "./wheelOnSoil.ts";
import type { WheelTruth } from "./wheelTruth.ts";

/** The drive's program: the rim keeps its speed while the carriage slows down and speeds up again; slips, and turns each way. */
const program = { from: 0.02, to: 0.6, turnsEachWay: 8 };
/** The ground answers to the slip of so much rim path before [m]. */
const answerM = 0.15;
/** Pull coefficient on the way up less that on the way down: on the way back the wheel pushes what it has dug out. */
const hysteresis = 0.012;
const slipStep = 0.005;

/** A slip sweep over the wheel's angle. */
export interface SweptDrive {
  readonly turnedRad: number;
  /** travel at an angle [m] */
  travel(angle: number): number;
  /** what the ground does at an angle */
  ground(angle: number): WheelState;
  /** between slip and pull [rad] */
  readonly lagRad: number;
  /** change of slip, either way [1/rad] */
  readonly slipPerRad: number;
  readonly hysteresis: number;
}

/** `ratioError`: the carriage runs this share faster than its program says. */
export function sweptDrive(wheel: WheelTruth, soil: SoilTruth, loadN: number, radiusM: number, ratioError: number): SweptDrive {
  const [low, high] = [program.from, program.to].map((slip) => 1 - (1 - slip) * (1 + ratioError)) as [number, number];
  const half = 2 * Math.PI * program.turnsEachWay;
  const slipPerRad = (high - low) / half;
  // ∫ slip dθ: the slip rises in a straight line to the turn and falls as it rose
  const slipPath = (angle: number): number => {
    const risen = Math.min(Math.max(0, angle), half);
    const fallen = Math.min(Math.max(0, angle - half), half);
    return low * angle + slipPerRad * (risen ** 2 / 2 + half * fallen - fallen ** 2 / 2);
  };
  const wayPath = (angle: number): number => Math.min(angle, 2 * half - angle);
  const atSlips = Array.from({ length: Math.ceil(high / slipStep) + 2 }, (_, i) => rollingOnSoil(wheel, soil, loadN, i * slipStep));
  const answer = (2 * answerM) / radiusM;
  /** Mean over the rim path that still speaks in what the ground does now. */
  const over = (path: (angle: number) => number, angle: number): number => (path(angle) - path(angle - answer)) / answer;
  const ground = (angle: number): WheelState => {
    const place = over(slipPath, angle) / slipStep;
    const [a, b] = [atSlips[Math.floor(place)], atSlips[Math.floor(place) + 1]] as [WheelState, WheelState];
    const share = place - Math.floor(place);
    const between = (of: (state: WheelState) => number): number => of(a) * (1 - share) + of(b) * share;
    const way = over(wayPath, angle);
    return { sinkageM: between((state) => state.sinkageM), pullN: between((state) => state.pullN) + (way * hysteresis * loadN) / 2, torqueNm: between((state) => state.torqueNm), loadN };
  };
  return { turnedRad: 2 * half, travel: (angle) => radiusM * (angle - slipPath(angle)), ground, lagRad: answer / 2, slipPerRad, hysteresis };
}
