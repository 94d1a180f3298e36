import type { DropSignal } from "./dropSignal.ts";

/** Longest climb that is followed back [s]; a slower one is left where it leaves the level. */
const longestClimbS = 0.002;

/**
 * When the acceleration leaves a level, seen from a sample inside the stretch at that level.
 * The times at one and at two margins above the level give a straight line, followed back to the level.
 *
 * @param inside    a sample of the stretch, at its edge
 * @param direction 1 = the stretch ends here, −1 = it begins here
 */
export function crossing(signal: DropSignal, inside: number, direction: 1 | -1, level: number, margin: number): { readonly timeS: number; readonly uncertaintyS: number } {
  let index = inside;
  // Back into the stretch until the acceleration is at its level.
  while (index - direction >= 0 && index - direction < signal.smooth.length && (signal.smooth[index] as number) > level + margin) index -= direction;
  const first = passes(signal, index, direction, level + margin);
  const second = passes(signal, index, direction, level + 2 * margin);
  const climb = Math.min(longestClimbS, Math.abs(second - first));
  // Smoothing brings the level's end forward into the stretch: for a touch, which may be a jump (damping pushes at once), by
  // up to half its width; for a force that comes down to zero steadily, by up to a quarter.
  const carried = direction === 1 ? signal.smoothingS / 4 : signal.smoothingS / 8;
  return { timeS: first - direction * (climb - carried), uncertaintyS: Math.hypot(signal.intervalS / Math.sqrt(12), carried / Math.sqrt(3), climb / 2) };
}

/** Time at which the smoothed acceleration first rises through a value, going from a sample in a direction. */
function passes(signal: DropSignal, from: number, direction: 1 | -1, value: number): number {
  const { smooth, timesS } = signal;
  let index = from;
  while (index + direction >= 0 && index + direction < smooth.length && !((smooth[index + direction] as number) > value)) index += direction;
  const next = index + direction;
  if (next < 0 || next >= smooth.length) return timesS[index] as number;
  const share = (value - (smooth[index] as number)) / ((smooth[next] as number) - (smooth[index] as number));
  return (timesS[index] as number) + Math.min(1, Math.max(0, share)) * ((timesS[next] as number) - (timesS[index] as number));
}
