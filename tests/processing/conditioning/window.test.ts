import { describe, expect, it } from "vitest";
import { revolutionWindow } from "../../../src/processing/conditioning/window.ts";
import type { WindowInput } from "../../../src/processing/conditioning/window.ts";
import { meanOver } from "../../../src/processing/conditioning/slope.ts";
import { channel } from "../../../src/core/recording.ts";
import type { Recording } from "../../../src/core/recording.ts";
import { agrees } from "../../helpers/agrees.ts";
import { record } from "../recordings.ts";

const omega = 1.5;
const started = (t: number): number => Math.min(Math.max(0, t - 5), 24);

function drive(): Recording {
  return record(200, 35, {
    wheelAngle: { unit: "rad", of: (t) => omega * started(t) },
    carriagePosition: { unit: "m", of: (t) => 0.12 * started(t) },
  });
}

function input(recording: Recording, more: Partial<WindowInput> = {}): WindowInput {
  const timed = (name: string, unit: "rad" | "m") => ({ time: recording.time, samples: channel(recording, name, unit).samples });
  const angle = timed("wheelAngle", "rad");
  const position = timed("carriagePosition", "m");
  return { angle, position, needed: [angle, position], wheelDiameterM: 0.2, settlingDiameters: 1, endDiameters: 1, fewest: { look: 3, reject: 2 }, ...more };
}

describe("the window of whole revolutions", () => {
  it("holds whole turns and leaves out settling and end", () => {
    const { window, findings } = revolutionWindow(input(drive()));
    expect(findings).toEqual([]);
    const boundaries = window?.boundariesS ?? [];
    // 24 s at 0.12 m/s less 0.4 m are 20.67 s; a turn takes 4.19 s: four whole turns.
    expect(boundaries).toHaveLength(5);
    for (let i = 1; i < boundaries.length; i++) agrees((boundaries[i] as number) - (boundaries[i - 1] as number), { expected: (2 * Math.PI) / omega, within: 1e-3, source: "one turn at 1.5 rad/s" });
    agrees(boundaries.at(-1) ?? NaN, { expected: 29 - 0.2 / 0.12, within: 0.02, source: "0.2 m before the end of travel at 0.12 m/s" });
  });

  it("averages a once-per-revolution ripple out, where N + ½ turns would keep A/(π(N+½)) of it", () => {
    const recording = drive();
    const { window } = revolutionWindow(input(recording));
    const ripple = record(1000, 35, { drawbarPull: { unit: "N", of: (t) => Math.sin(omega * started(t)) } });
    const pull = channel(ripple, "drawbarPull", "N").samples;
    const fromS = window?.segment.fromS ?? NaN;
    const toS = window?.segment.toS ?? NaN;
    expect(Math.abs(meanOver(ripple.time, pull, fromS, toS).mean)).toBeLessThan(2e-3);
    const worst = Math.max(...Array.from({ length: 40 }, (_, i) => Math.abs(meanOver(ripple.time, pull, 6 + i * 0.1, 6 + i * 0.1 + 3.5 * ((2 * Math.PI) / omega)).mean)));
    agrees(worst, { expected: 1 / (Math.PI * 3.5), relative: 0.02, source: "integral of a sine over N + ½ periods" });
  });

  it("refuses the revolutions a gap touches", () => {
    const recording = drive();
    const holed = record(1000, 35, { drawbarPull: { unit: "N", of: (t) => (t > 25.5 && t < 26.5 ? NaN : 1) } });
    const needed = [{ time: holed.time, samples: channel(holed, "drawbarPull", "N").samples }];
    const { window, findings } = revolutionWindow(input(recording, { needed }));
    expect(findings.map((found) => found.code)).toContain("revolutions-refused");
    expect(window?.segment.toS).toBeLessThan(25.5);
  });

  it("rejects a wheel that does not turn and a travel that is too short", () => {
    const still = record(200, 20, { wheelAngle: { unit: "rad", of: () => 0 }, carriagePosition: { unit: "m", of: (t) => 0.1 * t } });
    expect(revolutionWindow(input(still)).findings[0]).toMatchObject({ code: "no-motion", severity: "reject" });
    const short = record(200, 35, { wheelAngle: { unit: "rad", of: (t) => omega * started(t) }, carriagePosition: { unit: "m", of: (t) => 0.01 * started(t) } });
    expect(revolutionWindow(input(short)).findings[0]).toMatchObject({ code: "travel-short", severity: "reject" });
  });

  it("says when there are few revolutions", () => {
    const { findings } = revolutionWindow(input(drive(), { settlingDiameters: 8 }));
    expect(findings[0]).toMatchObject({ code: "few-revolutions", measured: 2 });
  });
});
