import { describe, expect, it } from "vitest";
import { timeAt } from "../../../src/core/recording.ts";
import { align } from "../../../src/processing/conditioning/align.ts";
import { agrees } from "../../helpers/agrees.ts";
import { record, rigWith } from "../recordings.ts";

const offsetS = -2.431;
const rate = 1 + 150e-6;
/** Pulses of 60 ms at the given times of the common clock. */
const pulses = (...atS: readonly number[]) => (t: number): number => (atS.some((start) => t >= start && t < start + 0.06) ? 5 : 0);
/** The same on a clock that common = offset + rate · own leads back to. */
const seenBy = (of: (commonS: number) => number) => (own: number) => of(offsetS + rate * own);

const line = { channel: "sync", level: 2.5, edge: "rising" };
const triggers = (frame: unknown, drive: unknown, more: Record<string, unknown> = {}) => rigWith({ alignment: { method: "trigger", reference: "frame", triggers: { frame, drive }, ...more } });
const aligned = (frame: (t: number) => number, drive: (t: number) => number, rig = triggers(line, line, { rateBoundPpm: 300 }), lengthS = 40) =>
  align([{ logger: "frame", recording: record(500, lengthS, { sync: { unit: "V", of: frame } }) }, { logger: "drive", recording: record(200, lengthS, { sync: { unit: "V", of: drive } }) }], rig);
const made = "made clocks: the offset and the rate put in";

describe("several triggers", () => {
  const edges = pulses(1.003, 7.414, 22.25, 36.9);
  const result = aligned(edges, seenBy(edges));
  it("give offset and rate within their stated uncertainty", () => {
    const [clock] = result.alignments;
    agrees(clock?.offset.value ?? NaN, { expected: offsetS, within: 3 * (clock?.offset.standardUncertainty ?? 0), source: made });
    agrees(clock?.ratePpm.value ?? NaN, { expected: 150, within: 3 * (clock?.ratePpm.standardUncertainty ?? 0), source: made });
    expect(clock?.method).toBe("triggers that both logs took part in");
    expect(result.findings).toEqual([]);
    agrees(timeAt(result.recordings[1]?.time as never, 2000), { expected: offsetS + rate * 10, within: 0.005, source: made });
  });

  it("a log that began later is matched by the intervals between its edges", () => {
    const late = aligned(edges, (own) => (own < 5 ? 0 : seenBy(edges)(own)));
    agrees(late.alignments[0]?.offset.value ?? NaN, { expected: offsetS, within: 0.01, source: made });
    // The log that lacks one may as well be the reference.
    const early = aligned((t) => (t < 3 ? 0 : edges(t)), seenBy(edges));
    agrees(early.alignments[0]?.offset.value ?? NaN, { expected: offsetS, within: 0.01, source: made });
  });

  it("evenly spaced edges fit in several ways, edges of other intervals in none: refused", () => {
    const even = pulses(5, 10, 15, 20);
    expect(aligned(even, (own) => (own < 8 ? 0 : seenBy(even)(own))).findings[0]).toMatchObject({ code: "clocks-apart", severity: "reject", message: expect.stringContaining("4 and 3 triggers, and they fit in 2 ways") as string });
    expect(aligned(edges, pulses(1, 9, 20, 36)).findings[0]?.message).toContain("4 and 4 triggers, and the intervals between them differ");
    expect(aligned(edges, () => 0).findings[0]?.message).toContain("drive: no rising edge through 2.5 on sync");
  });

  it("a falling edge is another moment than a rising one", () => {
    const falling = { ...line, edge: "falling" };
    agrees(aligned(edges, seenBy(edges), triggers(falling, falling)).alignments[0]?.offset.value ?? NaN, { expected: offsetS, within: 0.01, source: made });
    agrees(aligned(edges, edges, triggers(line, falling)).alignments[0]?.offset.value ?? NaN, { expected: -0.06, within: 0.01, source: "pulses of 60 ms: the fall comes 60 ms after the rise" });
  });
});

describe("one trigger", () => {
  const once = pulses(12.3);
  it("gives the offset; the rate is that of equal clocks with the stated bound as its doubt", () => {
    const [clock] = aligned(once, seenBy(once)).alignments;
    // The edge falls at 14.73 s of its own clock, where a rate of 150 ppm has moved it by 2.2 ms.
    agrees(clock?.offset.value ?? NaN, { expected: offsetS + 150e-6 * 14.73, within: 3 * (clock?.offset.standardUncertainty ?? 0), source: made });
    agrees(clock?.offset.standardUncertainty ?? NaN, { expected: Math.hypot(0.005, 0.002) / Math.sqrt(12), relative: 1e-3, source: "rectangular distribution over a sampling interval (JCGM 100, 4.3.7)" });
    expect(clock?.ratePpm.value).toBe(0);
    agrees(clock?.ratePpm.standardUncertainty ?? NaN, { expected: 300 / Math.sqrt(3), relative: 1e-12, source: "rectangular distribution of half-width 300 ppm (JCGM 100, 4.3.7)" });
    expect(clock?.method).toContain("within 300 ppm, as stated");
  });

  it("without a bound the rate is not determined, and that is asked for", () => {
    const result = aligned(once, seenBy(once), triggers(line, line));
    expect(result.alignments[0]?.ratePpm.standardUncertainty).toBeNull();
    expect(result.findings).toMatchObject([{ code: "clock-rate-unknown", severity: "reject", message: expect.stringContaining("rateBoundPpm") as string }]);
  });

  it("a logger that the trigger starts declares when, and how well that is known", () => {
    const started = triggers(line, { atS: [0], uncertaintyS: 0.004 }, { rateBoundPpm: 50 });
    const [clock] = aligned(once, () => 0, started).alignments;
    agrees(clock?.offset.value ?? NaN, { expected: 12.3, within: 0.002, source: "the reference sees the trigger at 12.3 s, the other log begins there" });
    agrees(clock?.offset.standardUncertainty ?? NaN, { expected: Math.hypot(0.004, 0.002 / Math.sqrt(12)), relative: 1e-3, source: "JCGM 100, 5.1.2: independent parts in quadrature" });
  });
});
