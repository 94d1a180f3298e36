import type { RunPlan } from "../../../src/campaign/campaign.ts";
import type { RevolutionWindow } from "../../../src/processing/conditioning/window.ts";
import type { PreparedRun } from "../../../src/processing/preparedRun.ts";
import { rollingWindow } from "../../../src/processing/rolling.ts";
import { record, rigWith, wheel } from "../recordings.ts";

export const plan: RunPlan = { id: "R1", sheetId: "R1", kind: "traction", wheel: "W1", bed: "B1", setLoadN: 60, setSlip: 0.2, setSpeedMps: 0.126, repeat: null, pass: null, block: null, dropHeightM: null, plate: null, shearAreaM2: null, normalStressPa: null, contactAngleRad: null, obstacle: null, footprint: null, remark: "", excluded: null, line: 2, more: {} };

const omega = 1.5;
/** Outer radius of the wheel of these tests. */
export const radiusM = 0.105;
/** from where on the wheel rolls */
export const startS = 6;
const stopS = 34;

export const turned = (t: number): number => omega * Math.min(Math.max(0, t - startS), stopS - startS);
/** 0 hanging until 2.5 s, 1 standing from 3.5 s on, lifted again at 36 s */
export const onGround = (t: number): number => (t > 36 ? 0 : Math.min(1, Math.max(0, t - 2.5)));
const noise = (i: number): number => 0.05 * Math.sin(0.7 * i * i + i);

export interface Parts {
  readonly load?: (t: number) => number;
  readonly pull?: (t: number) => number;
  readonly torque?: (t: number) => number;
  readonly hub?: (t: number) => number;
  readonly position?: (t: number) => number;
  readonly tilt?: (t: number) => number;
  readonly rig?: Readonly<Record<string, unknown>>;
}

/** A run of plain parts: zero, lowering, standing, rolling, lifting. */
export function rolled(parts: Parts = {}): PreparedRun {
  const moving = (t: number): number => Number(t > startS && t < stopS);
  const recording = record(100, 40, {
    wheelAngle: { unit: "rad", of: turned },
    carriagePosition: { unit: "m", of: parts.position ?? ((t) => 0.8 * radiusM * turned(t)) },
    verticalLoad: { unit: "N", of: (t, i) => (parts.load ?? ((at) => 60 * onGround(at)))(t) + noise(i) },
    drawbarPull: { unit: "N", of: (t, i) => (parts.pull ?? ((at) => 12 * moving(at)))(t) + noise(i + 5) },
    wheelTorque: { unit: "N.m", of: (t, i) => (parts.torque ?? ((at) => 2.2 * moving(at)))(t) + 0.1 * noise(i + 9) },
    hubHeight: { unit: "m", of: parts.hub ?? ((t) => (t < 1.9 ? 0.15 : 0.15 - 0.01 * Math.min(t - 1.9, 2))) },
    ...(parts.tilt === undefined ? {} : { tilt: { unit: "rad" as const, of: parts.tilt } }),
  });
  return { plan, wheel, rig: rigWith(parts.rig), recordings: [recording] };
}

export function windowOf(run: PreparedRun): RevolutionWindow {
  const { window } = rollingWindow(run, true);
  if (window === null) throw new Error("the run has no window");
  return window;
}
