import fc from "fast-check";
import { expect, it } from "vitest";
import { encoderAngle } from "../../../src/processing/conditioning/encoderAngle.ts";

const encoder = { countsPerRevolution: 4096, gear: 20, rollover: 65536 };

it("a full turn of the wheel is 2π, whatever the counter did meanwhile", () => {
  const counts = Float64Array.from({ length: 401 }, (_, i) => (60000 + Math.round((i * 4096 * 20) / 400)) % 65536);
  const { samples } = encoderAngle(counts, encoder, 1);
  expect((samples[400] as number) - (samples[0] as number)).toBeCloseTo(2 * Math.PI, 9);
});

it("unwraps any motion slower than half a modulus per sample, in both directions", () => {
  fc.assert(
    fc.property(fc.array(fc.integer({ min: -16000, max: 16000 }), { minLength: 1, maxLength: 200 }), (steps) => {
      let total = 0;
      const truth = [0, ...steps.map((step) => (total += step))];
      const counts = Float64Array.from(truth, (value) => ((value % 65536) + 65536) % 65536);
      const { samples, findings } = encoderAngle(counts, { ...encoder, countsPerRevolution: 2 * Math.PI, gear: 1 }, 1);
      return findings.length === 0 && truth.every((value, i) => Math.abs((samples[i] as number) - (samples[0] as number) - value) < 1e-6);
    }),
  );
});

it("says when a step is too large to tell rollover from motion", () => {
  const { findings } = encoderAngle(Float64Array.from([0, 20000, 40000]), encoder, 1);
  expect(findings[0]).toMatchObject({ code: "encoder-step", severity: "look" });
});

it("keeps a missing sample missing and goes on after it", () => {
  const { samples } = encoderAngle(Float64Array.from([65500, NaN, 100]), { countsPerRevolution: 2 * Math.PI, gear: 1, rollover: 65536 }, 1);
  expect(samples[1]).toBeNaN();
  expect((samples[2] as number) - (samples[0] as number)).toBeCloseTo(136, 6);
});
