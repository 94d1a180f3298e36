/**
 * Work of the drive along a stretch: torque over the wheel's angle.
 *
 *   E = ∫ T dθ     [J], trapezoids over the samples
 *
 * Turning back counts negative, so what the wheel gives back is taken off.
 *
 * @param torqueNm   T about the axle [N·m]
 * @param angleRad   θ at the same samples [rad]
 * @returns          E [J]
 * @source           definition of work
 * @checked          tests/processing/obstacleRun.test.ts
 */
export function driveWork(torqueNm: readonly number[], angleRad: readonly number[]): number {
  let work = 0;
  for (let i = 1; i < torqueNm.length; i++) work += 0.5 * ((torqueNm[i] as number) + (torqueNm[i - 1] as number)) * ((angleRad[i] as number) - (angleRad[i - 1] as number));
  return work;
}
