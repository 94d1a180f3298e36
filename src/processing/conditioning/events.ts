import { channel, timeAt } from "../../core/recording.ts";
import type { Recording } from "../../core/recording.ts";

/** A moment marked on a line that several loggers record. */
export interface ClockEvent {
  readonly timeS: number;
  /** the sampling interval it fell into */
  readonly intervalS: number;
}

/** Rises of a channel through a level; each lies in the middle of the interval that it happened in. */
export function risingThrough(recording: Recording, name: string, level: number): ClockEvent[] {
  const { samples } = channel(recording, name, "V");
  const events: ClockEvent[] = [];
  for (let i = 1; i < samples.length; i++) {
    if ((samples[i - 1] as number) < level && (samples[i] as number) >= level) {
      const before = timeAt(recording.time, i - 1);
      const after = timeAt(recording.time, i);
      events.push({ timeS: (before + after) / 2, intervalS: after - before });
    }
  }
  return events;
}
