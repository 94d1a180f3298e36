import { describe, expect, it } from "vitest";
import { align } from "../../../src/processing/conditioning/align.ts";
import { timeAt } from "../../../src/core/recording.ts";
import { agrees } from "../../helpers/agrees.ts";
import { record, rigWith } from "../recordings.ts";

const offsetS = 3.217;
const rate = 1 + 80e-6;
const pulse = (t: number): number => ((t > 1 && t < 1.2) || (t > 28 && t < 28.2) ? 5 : 0);
// common = offset + rate · own, so the slow logger's own clock is (common − offset)/rate.
const slow = (of: (commonS: number) => number) => (own: number) => of(offsetS + rate * own);

const events = rigWith({ alignment: { method: "sharedEvents", reference: "frame", channel: "sync", level: 2.5 } });

describe("shared events", () => {
  const frame = record(1000, 30, { sync: { unit: "V", of: pulse } });
  const drive = record(200, 30, { sync: { unit: "V", of: slow(pulse) } }, -3.2);
  const aligned = align([{ logger: "frame", recording: frame }, { logger: "drive", recording: drive }], events);

  it("finds offset and rate within their stated uncertainty", () => {
    const [clock] = aligned.alignments;
    agrees(clock?.offset.value ?? NaN, { expected: offsetS, within: 3 * (clock?.offset.standardUncertainty ?? 0), source: "made record: the offset put in" });
    agrees(clock?.ratePpm.value ?? NaN, { expected: 80, within: 3 * (clock?.ratePpm.standardUncertainty ?? 0), source: "made record: the rate put in" });
    // One sampling interval of 5 ms and one of 1 ms, rectangular.
    agrees(clock?.offset.standardUncertainty ?? NaN, { expected: Math.hypot(0.005, 0.001) / Math.sqrt(12), relative: 1e-3, source: "rectangular distribution over a sampling interval (JCGM 100, 4.3.7)" });
  });

  it("moves the clock, not the samples", () => {
    expect(aligned.recordings[1]?.channels).toBe(drive.channels);
    agrees(timeAt(aligned.recordings[1]?.time as never, 0), { expected: offsetS + rate * -3.2, within: 0.005, source: "made record" });
  });

  it("rejects a run with one event, or with different numbers of them", () => {
    const once = record(200, 30, { sync: { unit: "V", of: (t) => (t > 1 && t < 1.2 ? 5 : 0) } });
    const result = align([{ logger: "frame", recording: frame }, { logger: "drive", recording: once }], events);
    expect(result.findings[0]).toMatchObject({ code: "clocks-apart", severity: "reject" });
    expect(result.findings[0]?.message).toContain("two shared events are needed, found 2 and 1");
  });

  it("names a clock that runs far off, beyond what its uncertainty explains", () => {
    const off = record(200, 30, { sync: { unit: "V", of: (own) => pulse(own * 1.01) } });
    const result = align([{ logger: "frame", recording: frame }, { logger: "drive", recording: off }], events);
    expect(result.findings[0]).toMatchObject({ code: "clock-rate", severity: "look" });
  });
});

describe("a common channel", () => {
  const signal = (t: number): number => Math.sin(1.3 * t) + Math.sin(2.9 * t + 0.4) + Math.sin(0.37 * t * t * 0.2);
  const common = rigWith({ alignment: { method: "commonChannel", reference: "frame", channel: "hubHeight" } });

  it("finds the offset and the rate by correlation", () => {
    const frame = record(200, 40, { hubHeight: { unit: "m", of: signal } });
    const drive = record(100, 40, { hubHeight: { unit: "m", of: (own) => signal(1.5 + (1 + 200e-6) * own) } });
    const result = align([{ logger: "frame", recording: frame }, { logger: "drive", recording: drive }], common);
    expect(result.findings.filter((found) => found.severity === "reject")).toEqual([]);
    // A tenth of the coarser interval: what parabolic interpolation of a smooth peak leaves (common practice).
    agrees(result.alignments[0]?.offset.value ?? NaN, { expected: 1.5, within: 0.004, source: "made record: the offset put in" });
  });

  it("refuses records that do not resemble each other", () => {
    const frame = record(200, 40, { hubHeight: { unit: "m", of: signal } });
    const other = record(200, 40, { hubHeight: { unit: "m", of: (_, i) => Math.sin(i * i) } });
    expect(align([{ logger: "frame", recording: frame }, { logger: "drive", recording: other }], common).findings[0]?.message).toContain("do not resemble");
  });
});

it("says that the clocks are apart when nothing says how they meet", () => {
  const one = record(100, 2, { sync: { unit: "V", of: () => 0 } });
  expect(align([{ logger: "a", recording: one }, { logger: "b", recording: one }], rigWith()).findings[0]).toMatchObject({ code: "clocks-apart", severity: "reject" });
});
