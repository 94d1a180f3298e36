import type { Finding } from "../../core/finding.ts";
import { indexAt, timeAt } from "../../core/recording.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import { meanOver } from "../conditioning/slope.ts";
import type { Timed } from "../conditioning/window.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { outerDiameter, timed } from "../rolling.ts";
import { slopeUnderStanding } from "../scannedBed.ts";
import { judged, percent } from "./judged.ts";
import { beforeStart } from "./standing.ts";

/** Fewest short means that a line is drawn through. */
const fewest = 8;
const blockS = 0.02;
/** A slope must stand clear of its own scatter by this many standard errors. */
const clear = 4;

/**
 * Lowering a wheel that stands still brings load and nothing else. A pull or a torque that grows with the load then is
 * cross-talk: a matrix left out, transposed or of another sensor. Side force is left out, for a wheel with toe makes one; so is what
 * a sloping lane brings into the pull, as far as its scan tells.
 */
export function crossTalk(run: PreparedRun): Finding[] {
  const before = beforeStart(run);
  const radius = outerDiameter(run) / 2;
  if (before === null || !(before.standingLoadN > 0) || radius === 0) return [];
  const { load, zeroEndS, startS, standingLoadN } = before;
  const talk = (name: "drawbarPull" | "wheelTorque", arm: number, bySlope: number): Finding[] => {
    const other = timed(run, name, name === "drawbarPull" ? "N" : "N.m");
    if (other === null) return [];
    const { x, y } = blocks(load, other, zeroEndS, startS);
    if (x.length < fewest || Math.max(...x) - Math.min(...x) < 0.5 * standingLoadN) return [];
    const { slope, covariance } = lineFit(x, y);
    const share = Math.max(0, Math.abs(slope) / arm - bySlope);
    if (share < (clear * Math.sqrt(covariance[1]?.[1] ?? 0)) / arm) return [];
    const grew = name === "drawbarPull" ? "The pull" : "The torque, taken at the rim,";
    return judged("cross-talk", share, run.rig.tolerances.crossTalk, () => `${grew} grew by ${percent(share)} of the load while the wheel was lowered standing still, where load alone should change. Look whether the decoupling matrix is the sensor's own and written row by row as on the certificate, and whether a drive holds the wheel under strain`, { channel: name, fromS: zeroEndS, toS: startS });
  };
  return [...talk("drawbarPull", 1, Math.abs(slopeUnderStanding(run, startS))), ...talk("wheelTorque", radius, 0)];
}

function blocks(load: Timed, other: Timed, fromS: number, toS: number): { readonly x: number[]; readonly y: number[] } {
  const x: number[] = [];
  const y: number[] = [];
  const interval = timeAt(load.time, 1) - timeAt(load.time, 0);
  const size = Math.max(blockS, interval);
  const first = timeAt(load.time, indexAt(load.time, fromS));
  for (let i = 0; first + (i + 1) * size <= toS; i++) {
    const a = meanOver(load.time, load.samples, first + (i - 0.01) * size, first + (i + 0.99) * size);
    const b = meanOver(other.time, other.samples, first + (i - 0.01) * size, first + (i + 0.99) * size);
    if (a.count === 0 || b.count === 0) continue;
    x.push(a.mean);
    y.push(b.mean);
  }
  return { x, y };
}
