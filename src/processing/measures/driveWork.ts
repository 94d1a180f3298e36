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

/**
 * What the torque's noise does to that work.
 *
 *   u = σ √( Σ ((θᵢ₊₁ − θᵢ₋₁)/2)² )     [J], errors of the samples independent
 *
 * @param noiseNm    σ, standard deviation of one sample of torque [N·m]
 * @param angleRad   θ at the samples [rad]
 * @returns          u [J]
 * @source           JCGM 100:2008, 5.1.2, for the trapezoids
 * @checked          tests/processing/obstacleRun.test.ts
 */
export function workNoise(noiseNm: number, angleRad: readonly number[]): number {
  const shares = angleRad.map((_, i) => ((angleRad[Math.min(i + 1, angleRad.length - 1)] as number) - (angleRad[Math.max(i - 1, 0)] as number)) / 2);
  return noiseNm * Math.hypot(...shares);
}
