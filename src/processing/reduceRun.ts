import type { RunPlan, WheelRecord } from "../campaign/campaign.ts";
import { quantities, isQuantity } from "../campaign/quantities.ts";
import type { Rig } from "../campaign/rigSchema.ts";
import { InputError, UsageError } from "../core/errors.ts";
import type { Issue } from "../core/errors.ts";
import type { Finding } from "../core/finding.ts";
import { sampleCount, timeAt } from "../core/recording.ts";
import type { Segment } from "../core/segment.ts";
import { thinForDrawing } from "../numerics/resample.ts";
import { reduceDropRun } from "./dropRun.ts";
import type { ReadPieces } from "./endurance/enduranceLog.ts";
import { reduceEnduranceRun } from "./endurance/enduranceRun.ts";
import { reduceFootprintRun } from "./footprintRun.ts";
import { reduceFreeSpinRun } from "./freeSpinRun.ts";
import { reduceHardFloorRun } from "./hardFloorRun.ts";
import { combinedByTrials } from "./measures/byTrials.ts";
import { reduceLoadDeflectionRun } from "./loadDeflectionRun.ts";
import { reduceObstacleRun } from "./obstacleRun.ts";
import { reducePlateRun } from "./plateRun.ts";
import { prepareRun } from "./prepareRun.ts";
import type { ReadTable } from "./prepareRun.ts";
import type { PreparedRun, Reduced } from "./preparedRun.ts";
import type { References } from "./references.ts";
import { reduceShearRun } from "./shearRun.ts";
import { reduceSweepRun } from "./sweepRun.ts";
import { reduceTractionRun } from "./tractionRun.ts";
import type { RunResult, RunVerdict, Trace } from "./dayResult.ts";

/** Points kept of each trace for drawing. */
const tracePoints = 500;

/** One run from its files to its measures. Never throws: what is wrong becomes the run's issues, and the day goes on. */
export async function reduceRun(plan: RunPlan, wheel: WheelRecord | null, rig: Rig, references: References, read: ReadTable, inPieces: ReadPieces = asOnePiece(read)): Promise<RunResult> {
  try {
    if (plan.kind === "endurance") return await longRun(plan, wheel, rig, references, inPieces);
    if (plan.kind === "footprint") return await footprintResult(plan, wheel, rig, references, read);
    const prepared = await prepareRun(plan, wheel, rig, read);
    const reduced = measureRun(prepared.run, references);
    const segments = [...prepared.segments, ...reduced.segments];
    const findings = [...prepared.findings, ...reduced.findings].map((found) => outsideWindow(found, segments));
    const { verdict, reasons } = judge(plan, findings, []);
    return {
      plan,
      verdict,
      reasons,
      measures: rig.trials === true ? reduced.measures.map((measure) => ({ ...measure, estimate: combinedByTrials(measure.estimate) })) : reduced.measures,
      curves: reduced.curves ?? [],
      fits: reduced.fits,
      findings,
      issues: [],
      segments,
      traces: traces(prepared.run),
      sampling: prepared.sampling,
      alignments: prepared.alignments,
      windowChoices: reduced.windowChoices,
      picture: null,
      sources: prepared.run.recordings.flatMap((recording) => recording.sources),
      steps: prepared.run.recordings.flatMap((recording) => recording.history),
    };
  } catch (error) {
    return unreadRun(plan, error instanceof InputError ? error.issues : [ownFault(plan, error)]);
  }
}

/** A run whose log is never held as a whole. */
async function longRun(plan: RunPlan, wheel: WheelRecord | null, rig: Rig, references: References, inPieces: ReadPieces): Promise<RunResult> {
  const reduced = await reduceEnduranceRun(plan, wheel, rig, references, inPieces);
  return { ...unreadRun(plan, []), ...judge(plan, reduced.findings, []), ...reduced };
}

/** For those who read logs whole. */
function asOnePiece(read: ReadTable): ReadPieces {
  return async (path, options, onPiece) => {
    const table = await read(path, options);
    onPiece(table);
    return table;
  };
}

/** A fault of drawbar itself is said as such, with its place in the code; it costs this run, not the others. */
function ownFault(plan: RunPlan, error: unknown): Issue {
  const place = error instanceof Error ? (/\n\s+at (?:async )?([\w$.]+)/.exec(error.stack ?? "")?.[1] ?? "an unknown place") : "an unknown place";
  const message = error instanceof Error ? error.message : String(error);
  return { code: "own-fault", at: `run ${plan.id}`, message: `expected to measure this run, found a fault of drawbar itself in ${place}: ${message}`, hint: "Keep the run's files and report this; the other runs are not touched" };
}

/** A run that was not measured: excluded by a person, or its input is wrong. */
export function unreadRun(plan: RunPlan, issues: readonly Issue[]): RunResult {
  const { verdict, reasons } = judge(plan, [], issues);
  return { plan, verdict, reasons, measures: [], curves: [], fits: [], findings: [], issues, segments: [], traces: [], sampling: [], alignments: [], windowChoices: [], picture: null, sources: [], steps: [] };
}

/** A footprint has no clock and no channels: a grid stands in their place. */
async function footprintResult(plan: RunPlan, wheel: WheelRecord | null, rig: Rig, references: References, read: ReadTable): Promise<RunResult> {
  const { measures, findings, picture, source } = await reduceFootprintRun(plan, wheel, rig, references, read);
  return { ...unreadRun(plan, []), ...judge(plan, findings, []), measures, findings, picture, sources: [source] };
}

function measureRun(run: PreparedRun, references: References): Reduced {
  switch (run.plan.kind) {
    case "traction":
      return reduceTractionRun(run, references);
    case "hardFloor":
      return reduceHardFloorRun(run);
    case "freeSpin":
      return reduceFreeSpinRun(run);
    case "drop":
      return reduceDropRun(run);
    case "plate":
      return reducePlateRun(run);
    case "shear":
      return reduceShearRun(run);
    case "sweep":
      return reduceSweepRun(run, references);
    case "loadDeflection":
      return reduceLoadDeflectionRun(run);
    case "obstacle":
      return reduceObstacleRun(run);
    case "endurance":
    case "footprint":
    case null:
      throw new UsageError(`run ${run.plan.id} has no kind and cannot be measured`);
  }
}

/** The run's verdict from its worst finding, and the reasons in plain words, the worst first. */
export function judge(plan: RunPlan, findings: readonly Finding[], issues: readonly Issue[]): { readonly verdict: RunVerdict; readonly reasons: readonly string[] } {
  const rejects = findings.filter((found) => found.severity === "reject").map((found) => found.message);
  const looks = findings.filter((found) => found.severity === "look").map((found) => found.message);
  const wrong = issues.map((issue) => `${issue.at}: ${issue.message}. ${issue.hint}`);
  if (plan.excluded !== null) return { verdict: "excluded", reasons: [plan.excluded, ...wrong, ...rejects, ...looks] };
  if (wrong.length > 0) return { verdict: "unread", reasons: wrong };
  if (rejects.length > 0) return { verdict: "repeat", reasons: [...rejects, ...looks] };
  return { verdict: looks.length > 0 ? "look" : "go", reasons: looks };
}

/** A pause that no averaged stretch touches is worth a note, not a look. */
function outsideWindow(found: Finding, segments: readonly Segment[]): Finding {
  if (found.code !== "gap" || found.fromS === null || found.toS === null) return found;
  const { fromS, toS } = found;
  const used = segments.filter((segment) => segment.kind !== "run");
  const touches = used.some((segment) => segment.fromS < toS && fromS < segment.toS);
  return touches || used.length === 0 ? found : { ...found, severity: "note" };
}

/** Every channel of the run, thinned so that no peak is lost. */
function traces(run: PreparedRun): Trace[] {
  const names = run.recordings.flatMap((recording) => recording.channels.map((channel) => channel.name));
  const twice = new Set(names.filter((name, i) => names.indexOf(name) !== i));
  return run.recordings.flatMap((recording) => {
    const count = sampleCount(recording.time);
    const times = recording.time.kind === "stamped" ? recording.time.timesS : Float64Array.from({ length: count }, (_, i) => timeAt(recording.time, i));
    return recording.channels.map((channel) => {
      const thinned = thinForDrawing(times, channel.samples, tracePoints);
      return {
        channel: channel.name,
        label: `${isQuantity(channel.name) ? quantities[channel.name].label : channel.name}${twice.has(channel.name) ? `, ${recording.sources[0]?.file ?? ""}` : ""}`,
        unit: channel.unit,
        timesS: Array.from(thinned.times),
        values: Array.from(thinned.values, (value) => (Number.isNaN(value) ? null : value)),
      };
    });
  });
}
