import { countAtEnds } from "./calibrate.ts";
import type { Rig } from "../../campaign/rigSchema.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { channel } from "../../core/recording.ts";
import type { Channel, Recording } from "../../core/recording.ts";

const bridges = ["bridge1", "bridge2", "bridge3", "bridge4", "bridge5", "bridge6"] as const;
const outputs = ["forceX", "forceY", "forceZ", "momentX", "momentY", "momentZ"] as const;
/** Quantities a six-axis sensor can give, and their units. */
const unitOf = { drawbarPull: "N", sideForce: "N", verticalLoad: "N", wheelTorque: "N.m" } as const;

/**
 * Forces and moments from the six bridges of a six-axis sensor: F = C · b, cross-talk removed by the decoupling matrix C.
 * The bridges are replaced by the quantities that the rig description assigns.
 */
export function decouple(recording: Recording, sixAxis: NonNullable<Rig["sixAxis"]>): { readonly recording: Recording; readonly findings: readonly Finding[] } {
  const inputs = bridges.map((name) => channel(recording, name, "mV/V").samples);
  const count = inputs[0]?.length ?? 0;
  const findings: Finding[] = [];
  const made: Channel[] = [];
  for (const [name, { output, sign }] of Object.entries(sixAxis.gives)) {
    const row = sixAxis.matrix[outputs.indexOf(output)] as number[];
    const [c1, c2, c3, c4, c5, c6] = row.map((value) => value * sign) as [number, number, number, number, number, number];
    const [b1, b2, b3, b4, b5, b6] = inputs as unknown as [Float64Array, Float64Array, Float64Array, Float64Array, Float64Array, Float64Array];
    const samples = new Float64Array(count);
    for (let i = 0; i < count; i++) {
      samples[i] = c1 * (b1[i] as number) + c2 * (b2[i] as number) + c3 * (b3[i] as number) + c4 * (b4[i] as number) + c5 * (b5[i] as number) + c6 * (b6[i] as number);
    }
    const quantity = name as keyof typeof unitOf;
    made.push({ name: quantity, unit: unitOf[quantity], samples, doubt: { noise: 0, offset: sixAxis.offsetUncertainty, relativeGain: sixAxis.relativeUncertainty, calibration: sixAxis.certificate } });
  }
  if (sixAxis.bridgeRange !== undefined) {
    // A clipped bridge spoils every output, so it is looked for before the matrix mixes it in.
    const end = sixAxis.bridgeRange * 0.9995;
    inputs.forEach((samples, index) => {
      const clipped = countAtEnds(samples, -end, end);
      if (clipped > 0) findings.push(finding("clipped", "reject", `Bridge ${index + 1} of the six-axis sensor stood at the end of its amplifier's range for ${clipped} samples; all forces and moments of the run are wrong there. Lower the gain and repeat`, { channel: `bridge${index + 1}`, measured: clipped / count, limit: 0 }));
    });
  }
  const kept = recording.channels.filter((candidate) => !bridges.includes(candidate.name as (typeof bridges)[number]));
  const step = { name: "decouple", version: "1", parameters: { certificate: sixAxis.certificate, date: sixAxis.date } };
  return { recording: { ...recording, channels: [...kept, ...made], history: [...recording.history, step] }, findings };
}
