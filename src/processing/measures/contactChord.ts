/**
 * Length of contact of a circle flattened by δ on a flat floor: the chord at that height.
 *
 *   L = 2 √(2 R δ − δ²)     [m]
 *
 * As if the rim below the floor were cut off. A rim that bulges or lifts in the middle touches otherwise. 0 ≤ δ ≤ 2 R.
 *
 * @param radiusM      R, unloaded [m]
 * @param deflectionM  δ at the load [m]
 * @returns            L [m]; NaN outside
 * @source             geometry of a circle
 * @checked            tests/processing/measures/contactChord.test.ts
 */
export function contactChord(radiusM: number, deflectionM: number): number {
  return 2 * Math.sqrt(2 * radiusM * deflectionM - deflectionM ** 2);
}
