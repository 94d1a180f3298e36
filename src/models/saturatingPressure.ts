import { UsageError } from "../core/errors.ts";

/** Constants of a bed that first gives way and then bears by its depth. */
export interface SaturatingSoil {
  /** p_s, pressure of the plateau [Pa], ≥ 0 */
  readonly plateauPa: number;
  /** z_s, sinkage over which it builds up [m], > 0 */
  readonly buildUpM: number;
  /** m, rise beyond it [Pa/m], ≥ 0 */
  readonly rise: number;
}

/**
 * Pressure under a plate on a bed that a power law does not describe: dense or crusted, with a knee.
 *
 *   p = p_s (1 − e^(−z/z_s)) + m z
 *
 * An empirical form without a claim to carry over between plate widths.
 *
 * @param sinkageM   z [m], ≥ 0
 * @param soil       p_s, z_s, m
 * @returns          p [Pa]
 * @throws           UsageError when the sinkage is below zero or z_s is not above zero
 * @source           sum of the saturating form of brittle ground and a linear term; common practice
 * @checked          tests/models/saturatingPressure.test.ts
 */
export function saturatingPressure(sinkageM: number, { plateauPa, buildUpM, rise }: SaturatingSoil): number {
  if (!(sinkageM >= 0)) throw new UsageError(`saturatingPressure: expected a sinkage of at least 0 m, found ${sinkageM}`);
  if (!(buildUpM > 0)) throw new UsageError(`saturatingPressure: expected a build-up above 0 m, found ${buildUpM}`);
  return plateauPa * (1 - Math.exp(-sinkageM / buildUpM)) + rise * sinkageM;
}

/**
 * Factor of a pressure for the speed at which the plate goes down.
 *
 *   p(v) = p(v₀) (v/v₀)^m
 *
 * m is small and found from runs at two speeds or more; at one speed it is not determined.
 *
 * @param speedMps       v [m/s], > 0
 * @param referenceMps   v₀ [m/s], > 0
 * @param exponent       m [1]
 * @returns              the factor [1]
 * @throws               UsageError when a speed is not above zero
 * @source               power law of rate effects in soil; common practice
 * @checked              tests/models/saturatingPressure.test.ts
 */
export function rateFactor(speedMps: number, referenceMps: number, exponent: number): number {
  if (!(speedMps > 0 && referenceMps > 0)) throw new UsageError(`rateFactor: expected speeds above 0 m/s, found ${speedMps} and ${referenceMps}`);
  return (speedMps / referenceMps) ** exponent;
}
