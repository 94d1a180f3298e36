/** A fall lasts at least this long [s]: 10 ms are half a millimetre. */
const shortestFallS = 0.01;

/** Time at which the hub starts to fall: the acceleration drops through −g/2 and stays below for 10 ms; null if it never does. */
export function firstFall(smooth: Float64Array, timesS: Float64Array, gravity: number): number | null {
  let start = -1;
  for (let i = 0; i < smooth.length; i++) {
    const low = (smooth[i] as number) < -gravity / 2;
    if (!low) start = -1;
    else if (start < 0) start = i;
    if (low && start > 0 && (timesS[i] as number) - (timesS[start] as number) >= shortestFallS) return timesS[start] as number;
  }
  return null;
}
