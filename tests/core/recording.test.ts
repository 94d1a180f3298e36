import { describe, expect, it } from "vitest";
import { InputError, showIssue, UsageError } from "../../src/core/errors.ts";
import { finding } from "../../src/core/finding.ts";
import { channel, hasChannel, indexAt, sampleCount, timeAt } from "../../src/core/recording.ts";
import type { Recording, TimeBase } from "../../src/core/recording.ts";

const uniform: TimeBase = { kind: "uniform", startS: 1, rateHz: 10, count: 5 };
const stamped: TimeBase = { kind: "stamped", timesS: Float64Array.of(0, 1, 1.5, 4) };
const recording: Recording = { time: stamped, startedAt: null, channels: [{ name: "pull", unit: "N", samples: Float64Array.of(1, 2, 3, 4), doubt: null }], sources: [], history: [] };

describe("recording", () => {
  it("checks a channel's name and unit at the door", () => {
    expect(channel(recording, "pull", "N").samples[2]).toBe(3);
    expect(hasChannel(recording, "load")).toBe(false);
    expect(() => channel(recording, "load", "N")).toThrow(new UsageError('expected a channel "load", found pull'));
    expect(() => channel(recording, "pull", "kN")).toThrow('channel "pull": expected the unit "kN", found "N"');
    expect(() => channel({ ...recording, channels: [] }, "pull", "N")).toThrow("found no channels");
  });

  it("tells time and index on both time bases", () => {
    expect([sampleCount(uniform), sampleCount(stamped)]).toEqual([5, 4]);
    expect(timeAt(uniform, 3)).toBe(1.3);
    expect(timeAt(stamped, 2)).toBe(1.5);
    expect(timeAt(stamped, 9)).toBeNaN();
  });

  it("finds the first sample at or after a time", () => {
    expect([0.9, 1, 1.05, 1.1, 1.4, 9].map((timeS) => indexAt(uniform, timeS))).toEqual([0, 0, 1, 1, 4, 5]);
    expect([-1, 0, 0.5, 1, 1.5, 4, 5].map((timeS) => indexAt(stamped, timeS))).toEqual([0, 0, 1, 1, 2, 3, 4]);
    expect(indexAt({ kind: "stamped", timesS: new Float64Array(0) }, 1)).toBe(0);
  });
});

describe("errors and findings", () => {
  it("say where, what and what to do, all issues at once", () => {
    const issue = { code: "x", at: "runs.csv line 3", message: "expected a number, found \"a\"", hint: "Correct it" };
    expect(showIssue(issue)).toBe('runs.csv line 3: expected a number, found "a". Correct it');
    expect(new InputError([issue, issue]).message.split("\n")).toHaveLength(2);
  });

  it("fill what a finding does not need with null", () => {
    expect(finding("gap", "look", "a gap", { fromS: 1 })).toEqual({ code: "gap", severity: "look", message: "a gap", channel: null, fromS: 1, toS: null, measured: null, limit: null });
  });
});
