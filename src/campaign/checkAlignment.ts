import { list, nearest, show } from "./nearest.ts";
import { runKinds } from "./rigSchema.ts";
import type { Logger, Rig, RunKind } from "./rigSchema.ts";
import type { RigMistake } from "./yamlPlaces.ts";

/** How the clocks of loggers that share runs meet: declared, by a logger and channels that exist. */
export function checkAlignment(rig: Rig): RigMistake[] {
  const kinds = runKinds.filter((kind) => loggersOf(rig, kind).length > 1);
  const alignment = rig.alignment;
  if (alignment === undefined) {
    if (kinds.length === 0) return [];
    return [{
      code: "missing-alignment",
      path: ["alignment"],
      message: `expected alignment, because ${kinds.join(", ")} runs have two loggers with a clock each, found nothing`,
      hint: "Write alignment: { method: sharedEvents, reference: …, channel: sync, level: … }, method: trigger, or method: commonChannel.",
    }];
  }
  const mistakes: RigMistake[] = [];
  const names = Object.keys(rig.loggers);
  if (!names.includes(alignment.reference)) {
    const guess = nearest(alignment.reference, names);
    mistakes.push({
      code: "unknown-logger",
      path: ["alignment", "reference"],
      message: `expected one of the loggers ${list(names)}, found ${show(alignment.reference)}`,
      hint: guess === null ? "Name the logger whose clock the others follow." : `Did you mean ${guess}?`,
    });
  } else {
    const without = kinds.filter((kind) => !loggersOf(rig, kind).some(([name]) => name === alignment.reference));
    if (without.length > 0) mistakes.push({
      code: "reference-absent",
      path: ["alignment", "reference"],
      message: `expected a logger that records every kind of run with two loggers, found ${alignment.reference}, which does not record ${without.join(", ")}`,
      hint: "Choose another reference, or add the kind to the logger.",
    });
  }
  const needing = new Map(kinds.flatMap((kind) => loggersOf(rig, kind)));
  if (alignment.method === "trigger") return [...mistakes, ...[...needing].flatMap(([name, logger]) => checkTrigger(name, logger, alignment))];
  for (const [name, logger] of needing) {
    if (Object.hasOwn(logger.channels, alignment.channel)) continue;
    mistakes.push({
      code: "missing-channel",
      path: ["loggers", name, "channels"],
      message: `expected the alignment's channel ${show(alignment.channel)} in logger ${name}, found ${list(Object.keys(logger.channels), 30)}`,
      hint: "Describe it under every logger that shares runs with another.",
    });
  }
  return mistakes;
}

/** A trigger is an edge on a channel of the logger, or times with their uncertainty; one of the two. */
function checkTrigger(name: string, logger: Logger, { triggers }: Extract<NonNullable<Rig["alignment"]>, { method: "trigger" }>): RigMistake[] {
  const path = ["alignment", "triggers", name];
  const trigger = Object.hasOwn(triggers, name) ? triggers[name] : undefined;
  const hint = "Write { channel: …, level: …, edge: rising }, or { atS: [0], uncertaintyS: … } for a logger that the trigger starts.";
  if (trigger === undefined) return [{ code: "missing-trigger", path, message: `expected the trigger of logger ${name}, which shares runs with another, found nothing`, hint }];
  const byEdge = (["channel", "level", "edge"] as const).filter((key) => trigger[key] !== undefined);
  const byTime = (["atS", "uncertaintyS"] as const).filter((key) => trigger[key] !== undefined);
  if (!(byEdge.length === 3 && byTime.length === 0) && !(byEdge.length === 0 && byTime.length === 2)) return [{
    code: "trigger-way",
    path,
    message: `expected either channel, level and edge, or atS and uncertaintyS, found ${list([...byEdge, ...byTime], 5) || "neither"}`,
    hint,
  }];
  if (trigger.channel !== undefined && !Object.hasOwn(logger.channels, trigger.channel)) {
    const guess = nearest(trigger.channel, Object.keys(logger.channels));
    return [{ code: "missing-channel", path: [...path, "channel"], message: `expected a channel of logger ${name}, found ${show(trigger.channel)}`, hint: guess === null ? "Describe the trigger's channel under that logger." : `Did you mean ${guess}?` }];
  }
  const times = trigger.atS ?? [];
  if (times.some((time, i) => i > 0 && time <= (times[i - 1] as number))) return [{ code: "trigger-order", path: [...path, "atS"], message: `expected times that rise, found [${times.join(", ")}]`, hint: "Write them in the order in which they happened." }];
  return [];
}

/** Channels that several loggers may record of one run, because their clocks are brought together by them. */
export function clockChannels({ alignment }: Rig): readonly string[] {
  if (alignment === undefined) return ["sync"];
  return alignment.method === "trigger" ? ["sync", ...Object.values(alignment.triggers).flatMap(({ channel }) => channel ?? [])] : [alignment.channel];
}

/** The loggers that record a kind of run. */
export function loggersOf(rig: Rig, kind: RunKind): (readonly [string, Logger])[] {
  return Object.entries(rig.loggers).filter(([, logger]) => logger.kinds.includes(kind));
}
