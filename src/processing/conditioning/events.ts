import { timeAt } from "../../core/recording.ts";
import type { Recording } from "../../core/recording.ts";

/** A moment marked on a line that several loggers record. */
export interface ClockEvent {
  readonly timeS: number;
  /** the sampling interval it fell into */
  readonly intervalS: number;
}

/** Rises or falls of a channel through a level [the channel's own unit]; each lies in the middle of the interval that it happened in. */
export function edgesThrough(recording: Recording, name: string, level: number, edge: "rising" | "falling"): ClockEvent[] {
  const samples = recording.channels.find((candidate) => candidate.name === name)?.samples ?? [];
  const sign = edge === "rising" ? 1 : -1;
  const events: ClockEvent[] = [];
  for (let i = 1; i < samples.length; i++) {
    if (sign * (samples[i - 1] as number) < sign * level && sign * (samples[i] as number) >= sign * level) {
      const before = timeAt(recording.time, i - 1);
      const after = timeAt(recording.time, i);
      events.push({ timeS: (before + after) / 2, intervalS: after - before });
    }
  }
  return events;
}
