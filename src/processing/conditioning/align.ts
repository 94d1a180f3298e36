import { quantities, isQuantity } from "../../campaign/quantities.ts";
import type { Rig } from "../../campaign/rigSchema.ts";
import { estimateFrom, undetermined } from "../../core/estimate.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { channel, hasChannel, sampleCount, timeAt } from "../../core/recording.ts";
import type { Recording, TimeBase } from "../../core/recording.ts";
import { lagByCorrelation } from "../../numerics/correlate.ts";
import { interpolateAt } from "../../numerics/resample.ts";
import type { ClockAlignment } from "../dayResult.ts";
import { alignByTrigger } from "./alignByTrigger.ts";
import { clockLine } from "./clockLine.ts";
import type { ClockLine } from "./clockLine.ts";
import { edgesThrough } from "./events.ts";
import { medianInterval } from "./risingTime.ts";

export interface Aligned {
  readonly recordings: readonly Recording[];
  readonly alignments: readonly ClockAlignment[];
  readonly findings: readonly Finding[];
}

/**
 * All recordings of a run on the reference logger's clock.
 *
 * Only time bases change; no sample is made or moved. Where the clocks cannot be brought together the run is rejected.
 *
 * @param named   recordings by logger name; one logger needs no alignment
 */
export function align(named: readonly { readonly logger: string; readonly recording: Recording }[], rig: Rig): Aligned {
  const only = named[0];
  if (named.length === 1 && only !== undefined) return { recordings: [only.recording], alignments: [], findings: [] };
  const settings = rig.alignment;
  const reference = named.find((candidate) => candidate.logger === settings?.reference);
  if (settings === undefined || reference === undefined) {
    const message = "Two loggers recorded this run and nothing says how their clocks meet; declare alignment in rig.yaml";
    return { recordings: named.map((n) => n.recording), alignments: [], findings: [finding("clocks-apart", "reject", message)] };
  }
  const recordings: Recording[] = [];
  const alignments: ClockAlignment[] = [];
  const findings: Finding[] = [];
  for (const { logger, recording } of named) {
    if (logger === reference.logger) {
      recordings.push(recording);
      continue;
    }
    const made = lineBetween(reference, { logger, recording }, rig, settings);
    if (typeof made === "string") {
      findings.push(finding("clocks-apart", "reject", `Logger ${logger} could not be brought onto the clock of ${reference.logger}: ${made}. Repeat the run with the shared event at its start and its end`));
      alignments.push({ logger, method: settings.method, offset: undetermined("s", made), ratePpm: { value: Number.NaN, standardUncertainty: null } });
      recordings.push(recording);
      continue;
    }
    findings.push(...rateFindings(logger, made, rig));
    recordings.push({ ...recording, time: moved(recording.time, made), history: [...recording.history, { name: "align", version: "1", parameters: { method: settings.method, logger, offsetS: made.offsetS, rate: made.rate, rateUncertainty: made.rateUncertainty } }] });
    const row = { cause: `${timing[settings.method]}, ${logger}`, effect: made.offsetUncertaintyS, sharedBy: null, degreesOfFreedom: Infinity };
    alignments.push({
      logger,
      method: methodWords(settings, made),
      offset: estimateFrom(made.offsetS, "s", settings.method === "commonChannel" ? "offset at the middle of the log's first half" : "offset at the log's first shared event", [row]),
      ratePpm: { value: (made.rate - 1) * 1e6, standardUncertainty: made.rateUncertainty === null ? null : made.rateUncertainty * 1e6 },
    });
  }
  return { recordings, alignments, findings };
}

const timing = { sharedEvents: "sampling interval at the shared events", commonChannel: "lag of the common channel", trigger: "timing of the trigger" } as const;

type Named = { readonly logger: string; readonly recording: Recording };

function lineBetween(reference: Named, other: Named, rig: Rig, settings: NonNullable<Rig["alignment"]>): ClockLine | string {
  switch (settings.method) {
    case "sharedEvents":
      return byEvents(reference.recording, other.recording, settings.channel, settings.level);
    case "commonChannel":
      return byCommonChannel(reference.recording, other.recording, settings.channel);
    case "trigger":
      return alignByTrigger(reference.recording, other.recording, [reference.logger, other.logger], settings, rig.tolerances.clockRatePpm.reject);
  }
}

function methodWords(settings: NonNullable<Rig["alignment"]>, { rate, rateUncertainty }: ClockLine): string {
  if (settings.method === "sharedEvents") return `shared events on ${settings.channel}`;
  if (settings.method === "commonChannel") return `correlation of ${settings.channel}`;
  if (rate !== 1) return "triggers that both logs took part in";
  return rateUncertainty === null ? "one trigger; the rate is not determined" : `one trigger; the rate within ${settings.rateBoundPpm} ppm, as stated`;
}

function byEvents(reference: Recording, other: Recording, name: string, level: number): ClockLine | string {
  if (!hasChannel(reference, name) || !hasChannel(other, name)) return `the channel ${name} is not in both logs`;
  const there = edgesThrough(reference, name, level, "rising");
  const here = edgesThrough(other, name, level, "rising");
  if (there.length < 2 || here.length < 2) return `two shared events are needed, found ${there.length} and ${here.length}`;
  if (there.length !== here.length) return `the logs hold different numbers of shared events (${there.length} and ${here.length})`;
  return clockLine(there, here);
}

/** Lags of the first and the second half give offset and rate. */
function byCommonChannel(reference: Recording, other: Recording, name: string): ClockLine | string {
  if (!hasChannel(reference, name) || !hasChannel(other, name)) return `the channel ${name} is not in both logs`;
  const unit = isQuantity(name) ? quantities[name].unit : "1";
  const interval = Math.max(medianInterval(reference.time), medianInterval(other.time));
  const lengthS = Math.min(duration(reference.time), duration(other.time));
  const halfS = lengthS / 2;
  const halves = [0, halfS].map((startS) => {
    const a = evenly(reference, name, unit, startS, halfS, interval);
    const b = evenly(other, name, unit, startS, halfS, interval);
    return { middleS: startS + halfS / 2, ...lagByCorrelation(a, b, 1 / interval, halfS / 2) };
  }) as [{ middleS: number; lagS: number; standardUncertaintyS: number; peak: number }, { middleS: number; lagS: number; standardUncertaintyS: number; peak: number }];
  const weakest = Math.min(halves[0].peak, halves[1].peak);
  // Below this the highest peak of unrelated smooth signals is found too often (common practice).
  if (!(weakest > 0.5)) return `the two records of ${name} do not resemble each other (correlation ${weakest.toFixed(2)})`;
  const drift = (halves[1].lagS - halves[0].lagS) / (halves[1].middleS - halves[0].middleS);
  const otherStart = timeAt(other.time, 0);
  const rate = 1 - drift;
  // lag > 0: the other log shows the event later on its own clock.
  const offsetS = timeAt(reference.time, 0) - halves[0].lagS + drift * halves[0].middleS - rate * otherStart;
  // Without both lags' uncertainties the alignment could be off by anything: that is no answer.
  if (Number.isNaN(halves[0].standardUncertaintyS + halves[1].standardUncertaintyS)) return `the lag of ${name} between the two logs has no determinable uncertainty`;
  const rateUncertainty = Math.hypot(halves[0].standardUncertaintyS, halves[1].standardUncertaintyS) / (halves[1].middleS - halves[0].middleS);
  return { offsetS, rate, offsetUncertaintyS: halves[0].standardUncertaintyS, rateUncertainty };
}

function duration(time: TimeBase): number {
  return timeAt(time, sampleCount(time) - 1) - timeAt(time, 0);
}

function evenly(recording: Recording, name: string, unit: "1" | (typeof quantities)[keyof typeof quantities]["unit"], startS: number, lengthS: number, interval: number): Float64Array {
  const first = timeAt(recording.time, 0);
  const count = Math.floor(lengthS / interval);
  const at = Float64Array.from({ length: count }, (_, i) => first + startS + i * interval);
  const times = Float64Array.from({ length: sampleCount(recording.time) }, (_, i) => timeAt(recording.time, i));
  return Float64Array.from(interpolateAt(times, channel(recording, name, unit).samples, at));
}

function moved(time: TimeBase, line: ClockLine): TimeBase {
  if (time.kind === "uniform") return { ...time, startS: line.offsetS + line.rate * time.startS, rateHz: time.rateHz / line.rate };
  const timesS = new Float64Array(time.timesS.length);
  for (let i = 0; i < timesS.length; i++) timesS[i] = line.offsetS + line.rate * (time.timesS[i] as number);
  return { kind: "stamped", timesS };
}

function rateFindings(logger: string, line: ClockLine, rig: Rig): Finding[] {
  if (line.rateUncertainty === null) return [finding("clock-rate-unknown", "reject", `One trigger sets the offset of ${logger}'s clock and says nothing of its rate, so times away from the trigger could be off by anything. State alignment.rateBoundPpm in rig.yaml from the two clocks' data sheets, or mark the start and the end of each run`)];
  const ppm = Math.abs(line.rate - 1) * 1e6;
  const limits = rig.tolerances.clockRatePpm;
  // A rate that its own uncertainty could explain is not held against the logger; two edges can be no further off than three.
  const clear = ppm - 3 * line.rateUncertainty * 1e6;
  if (clear <= limits.look) return [];
  const severity = clear > limits.reject ? "reject" : "look";
  return [finding("clock-rate", severity, `The clock of ${logger} runs ${((line.rate - 1) * 1e6).toFixed(0)} ppm off the reference. Look for lost samples or a wrong sampling rate in that logger`, { measured: ppm, limit: limits[severity] })];
}
