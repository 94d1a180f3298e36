import { indexAt } from "../../core/recording.ts";
import type { Finding } from "../../core/finding.ts";
import { median } from "../../numerics/statistics.ts";
import type { RevolutionWindow } from "../conditioning/window.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { timed } from "../rolling.ts";
import { angleAt } from "./angleAt.ts";
import { judged, percent } from "./judged.ts";

/** Parts of a revolution that are compared; each holds several lugs. */
const partsPerTurn = 12;
/** Times the ordinary scatter (median of the deviations' sizes) that a place must stand out by. */
const clear = 8;
const fewestSamples = 4;

/**
 * A place in the bed unlike the rest: a cone's hole in the wheel's path, a stone, a soft spot. The pull is averaged over parts of
 * a revolution; each part is held against the same part of the other revolutions, so that the wheel's own unevenness drops out.
 */
export function localHole(run: PreparedRun, window: RevolutionWindow, loadN: number): Finding[] {
  const pull = timed(run, "drawbarPull", "N");
  const angle = timed(run, "wheelAngle", "rad");
  const turns = window.boundariesS.length - 1;
  if (pull === null || angle === null || turns < 3) return [];
  const { fromS, toS } = window.segment;
  const from = indexAt(pull.time, fromS);
  const to = indexAt(pull.time, toS);
  const angles = angleAt(angle, pull.time, from, to);
  const first = angles[0] as number;
  const parts = Array.from({ length: turns * partsPerTurn }, () => ({ sum: 0, count: 0, atS: Number.NaN }));
  for (let i = from; i < to; i++) {
    const value = pull.samples[i] as number;
    const part = parts[Math.floor((Math.abs((angles[i - from] as number) - first) / (2 * Math.PI)) * partsPerTurn)];
    if (part === undefined || Number.isNaN(value)) continue;
    part.sum += value;
    part.count++;
  }
  if (parts.some((part) => part.count < fewestSamples)) return [];
  const means = parts.map((part) => part.sum / part.count);
  const deviations = means.map((value, i) => value - median(means.filter((_, k) => k % partsPerTurn === i % partsPerTurn)));
  // The median of a phase is one of its own values: those zeros say nothing of the scatter.
  const scatter = median(deviations.map(Math.abs).filter((size) => size > 0));
  const sizes = deviations.map(Math.abs);
  const worst = sizes.indexOf(Math.max(...sizes));
  const size = sizes[worst] as number;
  if (!(size > clear * scatter)) return [];
  const share = size / Math.abs(loadN);
  return judged("local-hole", share, run.rig.tolerances.localHole, () => `In revolution ${Math.floor(worst / partsPerTurn) + 1} of ${turns} the pull ${(deviations[worst] as number) < 0 ? "falls" : "rises"} for a moment by ${percent(share)} of the load, which no other revolution shows: the bed differs there. Look for a cone's hole or a stone in the wheel's path; read the cone beside the path`, { channel: "drawbarPull", fromS, toS });
}
