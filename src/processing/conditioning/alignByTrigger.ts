import type { Rig } from "../../campaign/rigSchema.ts";
import { hasChannel } from "../../core/recording.ts";
import type { Recording } from "../../core/recording.ts";
import { clockLine, clockOffset } from "./clockLine.ts";
import type { ClockLine } from "./clockLine.ts";
import { edgesThrough } from "./events.ts";
import type { ClockEvent } from "./events.ts";

type TriggerAlignment = Extract<NonNullable<Rig["alignment"]>, { method: "trigger" }>;
type Trigger = TriggerAlignment["triggers"][string];

/** Two logs by a trigger that both took part in: an edge on a channel, or times that are declared. A text says why not. */
export function alignByTrigger(reference: Recording, other: Recording, names: readonly [reference: string, other: string], settings: TriggerAlignment, clockLimitPpm: number): ClockLine | string {
  const [there, here] = [triggersOf(reference, settings.triggers[names[0]]), triggersOf(other, settings.triggers[names[1]])];
  if (typeof there === "string") return `${names[0]}: ${there}`;
  if (typeof here === "string") return `${names[1]}: ${here}`;
  const matched = matchEvents(there, here, clockLimitPpm);
  if (typeof matched === "string") return matched;
  const [one, same] = [matched.there[0] as ClockEvent, matched.here[0] as ClockEvent];
  return matched.here.length === 1 ? clockOffset(one, same, settings.rateBoundPpm) : clockLine(matched.there, matched.here);
}

function triggersOf(recording: Recording, trigger: Trigger | undefined): ClockEvent[] | string {
  if (trigger?.atS !== undefined) {
    // A stated standard uncertainty as the width of the rectangle that has it.
    const intervalS = Math.sqrt(12) * (trigger.uncertaintyS ?? Number.NaN);
    return trigger.atS.map((timeS) => ({ timeS, intervalS }));
  }
  const { channel, level, edge } = trigger ?? {};
  if (channel === undefined || level === undefined || edge === undefined) return "rig.yaml states no trigger for this logger";
  if (!hasChannel(recording, channel)) return `the channel ${channel} is not in the log`;
  const events = edgesThrough(recording, channel, level, edge);
  return events.length === 0 ? `no ${edge} edge through ${level} on ${channel}` : events;
}

/** The same events of both logs. Where one log holds fewer, they must fit in one place only: by the intervals between them. */
function matchEvents(there: readonly ClockEvent[], here: readonly ClockEvent[], clockLimitPpm: number): { readonly there: readonly ClockEvent[]; readonly here: readonly ClockEvent[] } | string {
  const found = `${there.length} and ${here.length} triggers`;
  const [short, long] = here.length <= there.length ? [here, there] : [there, here];
  const places = Array.from({ length: long.length - short.length + 1 }, (_, shift) => long.slice(shift, shift + short.length)).filter((part) => sameIntervals(part, short, clockLimitPpm));
  if (places.length === 0) return `the logs hold ${found}, and the intervals between them differ`;
  if (places.length > 1) return `the logs hold ${found}, and they fit in ${places.length} ways`;
  const place = places[0] as readonly ClockEvent[];
  return short === here ? { there: place, here: short } : { there: short, here: place };
}

function sameIntervals(a: readonly ClockEvent[], b: readonly ClockEvent[], clockLimitPpm: number): boolean {
  return a.every((event, i) => {
    if (i === 0) return true;
    const [before, other, otherBefore] = [a[i - 1] as ClockEvent, b[i] as ClockEvent, b[i - 1] as ClockEvent];
    const lengthS = event.timeS - before.timeS;
    const edgesS = [event, before, other, otherBefore].reduce((sum, one) => sum + one.intervalS, 0) / 2;
    return Math.abs(lengthS - (other.timeS - otherBefore.timeS)) <= clockLimitPpm * 1e-6 * lengthS + edgesS;
  });
}
