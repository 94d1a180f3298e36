import type { Finding } from "../../core/finding.ts";
import { lineFit } from "../../numerics/lineFit.ts";
import { turningStretch } from "../conditioning/motion.ts";
import { meanOver } from "../conditioning/slope.ts";
import type { RevolutionWindow } from "../conditioning/window.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { eachRevolution, timed } from "../rolling.ts";
import { scannedBed } from "../scannedBed.ts";
import { judged } from "./judged.ts";

/** Times its standard error that a slope must stand clear of zero. */
const clear = 3;

/**
 * Sinkage is counted from the surface at first touch. Where the hub keeps falling or rising along the way, the bed is not level
 * with the rails (or the wheel digs in further), and the surface under the window is not that of the touch; what a scan of the
 * surface shows is taken off first:
 *   shift = slope of the hub over the travel × way from touch to the middle of the window.
 */
export function bedSlope(run: PreparedRun, window: RevolutionWindow): Finding[] {
  const hub = timed(run, "hubHeight", "m");
  const position = timed(run, "carriagePosition", "m");
  const angle = timed(run, "wheelAngle", "rad");
  const turning = angle === null ? null : turningStretch(angle.time, angle.samples);
  if (hub === null || position === null || turning === null) return [];
  const x = eachRevolution(window, (fromS, toS) => meanOver(position.time, position.samples, fromS, toS).mean);
  const ground = scannedBed(run, window).bed?.rise.perRevolution;
  const z = eachRevolution(window, (fromS, toS) => meanOver(hub.time, hub.samples, fromS, toS).mean).map((height, i) => height - (ground?.[i] ?? 0));
  const startM = meanOver(position.time, position.samples, turning.fromS - 0.3, turning.fromS).mean;
  if (x.length < 3 || [...x, ...z, startM].some(Number.isNaN)) return [];
  const fit = lineFit(x, z);
  if (Math.abs(fit.slope) < clear * Math.sqrt(fit.covariance[1]?.[1] ?? 0)) return [];
  const way = x.reduce((sum, value) => sum + value, 0) / x.length - startM;
  const shift = fit.slope * way;
  const surface = timed(run, "surfaceHeight", "m");
  const profile = surface === null ? "" : ` The surface channel rises by ${(1000 * (meanOver(surface.time, surface.samples, window.segment.fromS, window.segment.toS).mean - meanOver(surface.time, surface.samples, turning.fromS - 0.3, turning.fromS).mean)).toFixed(1)} mm over that way.`;
  return judged("bed-slope", Math.abs(shift), run.rig.tolerances.bedSlope, () => `${ground === undefined ? "The hub" : "Against the scanned surface the hub"} ${shift < 0 ? "falls" : "rises"} by ${(1000 * Math.abs(fit.slope)).toFixed(1)} mm per metre of travel; from first touch to the middle of the window that is ${(1000 * Math.abs(shift)).toFixed(1)} mm, and the sinkage is that much off if the bed slopes.${profile} Scan the surface before the run, level bed and rails to each other, or let the wheel settle longer`, { channel: "hubHeight", fromS: window.segment.fromS, toS: window.segment.toS });
}
