import type { Rig } from "../../campaign/rigSchema.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import type { Samples } from "../../core/recording.ts";

/**
 * Wheel angle from encoder counts, the counter's rollover removed.
 *
 *   θ = 2π · counts / (countsPerRevolution · gear)
 *
 * A step of more than half the modulus is taken as a rollover; steps of more than a quarter are doubtful and said.
 */
export function encoderAngle(counts: Samples, encoder: NonNullable<Rig["encoder"]>, sign: number): { readonly samples: Float64Array; readonly findings: Finding[] } {
  const { rollover } = encoder;
  const scale = (sign * 2 * Math.PI) / (encoder.countsPerRevolution * encoder.gear);
  const samples = new Float64Array(counts.length);
  let turns = 0;
  let previous = Number.NaN;
  let largest = 0;
  for (let i = 0; i < counts.length; i++) {
    const value = counts[i] as number;
    if (rollover !== null && !Number.isNaN(previous)) {
      const step = value - previous;
      if (step > rollover / 2) turns--;
      else if (step < -rollover / 2) turns++;
    }
    const unwrapped = rollover === null ? value : value + turns * rollover;
    if (i > 0 && !Number.isNaN(value) && !Number.isNaN(previous)) largest = Math.max(largest, Math.abs(unwrapped * scale - (samples[i - 1] as number)) / Math.abs(scale));
    samples[i] = unwrapped * scale;
    if (!Number.isNaN(value)) previous = value;
  }
  const findings: Finding[] = [];
  if (rollover !== null && largest > rollover / 4) {
    findings.push(finding("encoder-step", "look", `The encoder advances ${Math.round(largest)} counts between two samples, more than a quarter of its modulus ${rollover}: rollovers cannot be told from motion with certainty. Log the encoder faster, or use a wider counter`, { channel: "wheelAngle", measured: largest, limit: rollover / 4 }));
  }
  return { samples, findings };
}
