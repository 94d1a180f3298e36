import type { WheelRecord } from "../../campaign/campaign.ts";
import type { Rig } from "../../campaign/rigSchema.ts";
import type { Finding } from "../../core/finding.ts";
import { sampleCount, timeAt } from "../../core/recording.ts";
import type { Channel, Recording } from "../../core/recording.ts";
import type { Segment } from "../../core/segment.ts";
import { zero } from "../conditioning/zero.ts";

/** What a channel's zero adds to its reading: a straight line over the run. */
export type ZeroLine = (timeS: number) => number;

export interface Zeroing {
  readonly lines: ReadonlyMap<string, ZeroLine>;
  /** the two ends, zeroed: channels with the doubt of their zero */
  readonly ends: Recording;
  readonly findings: readonly Finding[];
  readonly segments: readonly Segment[];
}

/** Keeps the two ends of a log that comes in pieces, and takes the zeros from them as from a log that is there as a whole. */
export function endBlocks(rig: Rig, wheel: WheelRecord | null): { add(piece: Recording): void; zeroing(): Zeroing } {
  let head: Recording | null = null;
  let tail: Recording[] = [];
  const startOf = (piece: Recording): number => timeAt(piece.time, 0);
  const endOf = (piece: Recording): number => timeAt(piece.time, sampleCount(piece.time) - 1);

  return {
    add(piece) {
      if (head === null || endOf(head) - startOf(head) < (rig.zero?.beforeS ?? 0)) head = head === null ? piece : joined([head, piece]);
      else tail.push(piece);
      // The first of the last pieces is not needed once those behind it reach back far enough.
      while (tail.length > 1 && endOf(piece) - startOf(tail[1] as Recording) > (rig.zero?.afterS ?? 0)) tail = tail.slice(1);
    },
    zeroing() {
      const ends = joined([head as Recording, ...tail]);
      const zeroed = zero(ends, rig, wheel);
      const lines = new Map<string, ZeroLine>();
      zeroed.recording.channels.forEach((channel, index) => {
        const raw = ends.channels[index] as Channel;
        const line = difference(ends, raw, channel);
        if (raw !== channel && line !== null) lines.set(channel.name, line);
      });
      return { lines, ends: zeroed.recording, findings: zeroed.findings, segments: zeroed.segments };
    },
  };
}

/** The straight line by which two versions of a channel differ, from its first and its last sample that are there. */
function difference({ time }: Recording, raw: Channel, zeroed: Channel): ZeroLine | null {
  const at = (index: number): number => (zeroed.samples[index] as number) - (raw.samples[index] as number);
  let first = 0;
  let last = raw.samples.length - 1;
  while (first < last && Number.isNaN(at(first))) first++;
  while (last > first && Number.isNaN(at(last))) last--;
  if (first === last) return null;
  const slope = (at(last) - at(first)) / (timeAt(time, last) - timeAt(time, first));
  return (timeS) => at(first) + slope * (timeS - timeAt(time, first));
}

/** Pieces one behind the other; each begins with the last row of the one before, or leaves a stretch out. */
function joined(pieces: readonly Recording[]): Recording {
  const [first] = pieces as [Recording, ...Recording[]];
  const starts = pieces.map((piece, index) => (index > 0 && timeAt(piece.time, 0) === timeAt((pieces[index - 1] as Recording).time, sampleCount((pieces[index - 1] as Recording).time) - 1) ? 1 : 0));
  const gather = (of: (piece: Recording) => Iterable<number> & { subarray(from?: number): Iterable<number> }): Float64Array => Float64Array.from(pieces.flatMap((piece, index) => [...of(piece).subarray(starts[index])]));
  const times = (piece: Recording) => Float64Array.from({ length: sampleCount(piece.time) }, (_, i) => timeAt(piece.time, i));
  return { ...first, time: { kind: "stamped", timesS: gather(times) }, channels: first.channels.map((channel, index) => ({ ...channel, samples: gather((piece) => (piece.channels[index] as Channel).samples) })) };
}
