import { checkAlignment, clockChannels } from "./checkAlignment.ts";
import { checkLoadPath } from "./checkLoadPath.ts";
import { checkSixAxis } from "./checkSixAxis.ts";
import { show } from "./nearest.ts";
import type { Logger, Rig } from "./rigSchema.ts";
import { isQuantity } from "./quantities.ts";
import type { RigMistake } from "./yamlPlaces.ts";

/** What the schema cannot see in a rig description as a whole: names that must exist, files that must differ, blocks that need each other. */
export function checkRig(rig: Rig): RigMistake[] {
  const loggers = Object.entries(rig.loggers);
  const none: RigMistake[] = loggers.length > 0 ? [] : [{
    code: "no-loggers",
    path: ["loggers"],
    message: "expected at least one logger, found none",
    hint: "Describe each logger: files, kinds, clock and channels.",
  }];
  return [
    ...none,
    ...loggers.flatMap(([name, logger]) => [...checkFiles(name, logger), ...checkClock(name, logger)]),
    ...checkSharedFiles(rig),
    ...checkSharedChannels(rig),
    ...checkAlignment(rig),
    ...checkLoadPath(rig),
    ...(rig.sixAxis === undefined ? [] : checkSixAxis(rig, rig.sixAxis)),
    ...checkTolerances(rig),
  ];
}

function checkFiles(name: string, logger: Logger): RigMistake[] {
  const path = ["loggers", name, "files"];
  const files = logger.files;
  const bad = (code: string, message: string, hint: string): RigMistake => ({ code, path, message, hint });
  const mistakes: RigMistake[] = [];
  if (!files.includes("{run}")) mistakes.push(bad(
    "files-without-run",
    `expected {run} in the file pattern, found ${show(files)}`,
    "Write {run} where the run's id stands in the file names.",
  ));
  if (/\{(?!run\})[^}]*\}/.test(files)) mistakes.push(bad("unknown-placeholder", `expected {run} as the only placeholder, found ${show(files)}`, "Only {run} is filled in."));
  if (files.includes("\\")) mistakes.push(bad("backslash-in-path", `expected forward slashes, found ${show(files)}`, "Write logs/{run}.txt."));
  const parts = files.replaceAll("\\", "/").split("/");
  if (parts.includes("..") || files.startsWith("/") || files.startsWith("~") || /^[A-Za-z]:/.test(files) || files.includes("\0")) mistakes.push(bad(
    "path-leaves-folder",
    `expected a path inside the day folder, found ${show(files)}`,
    "Copy the logs into the day folder and write the path from there, e.g. logs/{run}.txt.",
  ));
  return mistakes;
}

function checkClock(name: string, logger: Logger): RigMistake[] {
  const clock = logger.clock;
  const zone = "zone" in clock ? clock.zone : undefined;
  if (zone !== undefined && !isZone(zone)) return [{
    code: "unknown-zone",
    path: ["loggers", name, "clock", "zone"],
    message: `expected a time zone such as UTC, UTC+2 or Europe/Oslo, found ${show(zone)}`,
    hint: "Write the zone the logger's clock was set to; UTC if it does not matter and daylight saving plays no part.",
  }];
  return [];
}

/** `local` is no zone: it would depend on the computer. */
function isZone(zone: string): boolean {
  if (/^UTC[+-]\d{1,2}(:\d{2})?$/.test(zone)) return true;
  try {
    return new Intl.DateTimeFormat("en", { timeZone: zone }).resolvedOptions().timeZone !== "" && /^[A-Za-z]/.test(zone);
  } catch {
    return false;
  }
}

/** Pairs of loggers that record the same kind of run, each pair once. */
function pairs(rig: Rig): (readonly [string, Logger, string, Logger])[] {
  const loggers = Object.entries(rig.loggers);
  return loggers.flatMap(([a, first], index) => loggers.slice(index + 1).filter(([, second]) => second.kinds.some((kind) => first.kinds.includes(kind))).map(([b, second]) => [a, first, b, second] as const));
}

function checkSharedFiles(rig: Rig): RigMistake[] {
  return pairs(rig)
    // Two parts of one file, such as two topics, have clocks of their own and are two loggers.
    .filter(([, first, , second]) => first.files.toLowerCase() === second.files.toLowerCase() && (first.part === undefined || second.part === undefined || first.part === second.part))
    .map(([a, first, b]) => ({
      code: "same-files",
      path: ["loggers", b, "files"],
      message: `expected each logger to have files of its own, found ${show(first.files)} for ${a} and ${b}`,
      hint: "Correct one pattern, describe the file's channels under one logger, or give each logger a part: of the file.",
    }));
}

function checkSharedChannels(rig: Rig): RigMistake[] {
  return pairs(rig).flatMap(([a, first, b, second]) =>
    Object.keys(second.channels)
      .filter((name) => Object.hasOwn(first.channels, name) && isQuantity(name) && !clockChannels(rig).includes(name))
      .map((name) => ({
        code: "channel-twice",
        path: ["loggers", b, "channels", name],
        message: `expected ${name} from one logger, found it in ${a} and ${b}, which record the same kind of run`,
        hint: "Keep the better one; give the other a name of its own and extra: true.",
      })),
  );
}

function checkTolerances(rig: Rig): RigMistake[] {
  return Object.entries(rig.tolerances).flatMap(([name, limit]): RigMistake[] => {
    if (typeof limit === "number") return [];
    const falls = name === "revolutions" || name === "samplesPerLug";
    const ordered = falls ? limit.reject <= limit.look : limit.look <= limit.reject;
    if (ordered && limit.look >= 0 && limit.reject >= 0) return [];
    return [{
      code: "tolerance-order",
      path: ["tolerances", name],
      message: `expected limits of at least 0 with reject ${falls ? "at or below" : "at or beyond"} look, found look ${limit.look} and reject ${limit.reject}`,
      hint: "Correct the two limits.",
    }];
  });
}
