import type { RunPlan, WheelRecord } from "../../campaign/campaign.ts";
import { logPath } from "../../campaign/logPath.ts";
import type { Logger, Rig } from "../../campaign/rigSchema.ts";
import { InputError } from "../../core/errors.ts";
import type { Finding } from "../../core/finding.ts";
import { hasChannel, sampleCount, timeAt } from "../../core/recording.ts";
import type { Channel, Recording } from "../../core/recording.ts";
import type { Segment } from "../../core/segment.ts";
import type { RawTable, ReadOptions } from "../../importers/contract.ts";
import { calibrate } from "../conditioning/calibrate.ts";
import { check } from "../conditioning/check.ts";
import { decouple } from "../conditioning/decouple.ts";
import { levelRises } from "../conditioning/levelRises.ts";
import { loadCycles } from "../conditioning/loadCycles.ts";
import { medianInterval, timeSteps } from "../conditioning/risingTime.ts";
import { stretches } from "../conditioning/stretches.ts";
import { wheelTicks } from "../conditioning/wheelTicks.ts";
import { channelRange } from "../conditioning/zero.ts";
import { endBlocks } from "./endBlocks.ts";
import type { ZeroLine } from "./endBlocks.ts";
import { findingTally } from "./findingTally.ts";

export type LogPiece = Pick<RawTable, "timesS" | "columns" | "startedAt" | "metadata">;
/** Reads one log of the day piece by piece. @throws InputError */
export type ReadPieces = (relativePath: string, options: ReadOptions, onPiece: (piece: LogPiece) => void) => Promise<Omit<RawTable, "timesS" | "columns">>;

/** Channels that are averaged, beside those that tell the wheel's way. */
const averaged = ["verticalLoad", "drawbarPull", "wheelTorque"] as const;

interface Sums {
  readonly names: readonly string[];
  readonly rolled: ReturnType<typeof stretches>;
  readonly ticks: ReturnType<typeof wheelTicks>;
}

/** What is left of a long log: sums over stretches, counts, and what was noticed. No sample is kept. */
export interface EnduranceLog {
  readonly table: Omit<RawTable, "timesS" | "columns">;
  readonly startS: number;
  readonly endS: number;
  /** those of the averaged channels that were recorded, as the sums count them */
  readonly names: readonly string[];
  /** its two ends, zeroed: all channels with their doubts */
  readonly ends: Recording;
  readonly zeroLines: ReadonlyMap<string, ZeroLine>;
  readonly rolled: ReturnType<typeof stretches>;
  readonly ticks: ReturnType<typeof wheelTicks>["told"];
  /** null = no range is stated for the load channel, so there are no levels to count at */
  readonly rises: ReturnType<typeof levelRises> | null;
  /** likewise */
  readonly cycles: ReturnType<typeof loadCycles> | null;
  readonly samplingS: number;
  readonly findings: readonly Finding[];
  readonly segments: readonly Segment[];
}

/**
 * A log of any length to sums: read → calibrate → decouple → check → sum, piece by piece; the zero comes last, since it
 * needs the log's end, and is taken off the sums.
 *
 * @throws InputError with the issues of the log
 */
export async function enduranceLog(plan: RunPlan, wheel: WheelRecord | null, rig: Rig, name: string, logger: Logger, inPieces: ReadPieces): Promise<EnduranceLog> {
  const path = logPath(logger, plan.sheetId);
  const steps = timeSteps(path);
  const tally = findingTally();
  const ends = endBlocks(rig, wheel);
  const full = channelRange("verticalLoad", rig);
  const rises = full === null ? null : levelRises(full);
  const cycles = full === null ? null : loadCycles(full);
  let state = null as Sums | null;
  let startS = Number.NaN;
  let endS = Number.NaN;
  let samplingS = Number.NaN;

  const table = await inPieces(path, { ...logger, columns: Object.values(logger.channels).map((channel) => channel.column) }, (piece) => {
    steps.add(piece.timesS);
    if (steps.issues().length > 0) return;
    const recording = conditioned(piece, path, name, logger, rig, tally.add);
    ends.add(recording);
    samplingS = medianInterval(recording.time);
    if (Number.isNaN(startS)) startS = timeAt(recording.time, 0);
    endS = timeAt(recording.time, sampleCount(recording.time) - 1);
    const angle = needed(recording, "wheelAngle", plan);
    const position = needed(recording, "carriagePosition", plan);
    const load = needed(recording, "verticalLoad", plan);
    if (state === null) {
      const names = averaged.filter((channel) => hasChannel(recording, channel));
      const rolled = stretches(names.length);
      state = { names, rolled, ticks: wheelTicks(names.length, rolled.add) };
    }
    const channels = state.names.map((channel) => needed(recording, channel, plan).samples);
    state.ticks.add({ timesS: piece.timesS, angleRad: angle.samples, positionM: position.samples, channels }, rig.tolerances.gapSamples.look * samplingS);
    rises?.add(load.samples);
    cycles?.add(load.samples);
  });
  const issues = steps.issues();
  if (issues.length > 0) throw new InputError(issues);
  const { names, rolled, ticks } = state as Sums;
  const zeroing = ends.zeroing();
  return {
    table,
    startS,
    endS,
    names,
    ends: zeroing.ends,
    zeroLines: zeroing.lines,
    rolled,
    ticks: ticks.told,
    rises,
    cycles,
    samplingS,
    findings: [...table.findings, ...tally.all(), ...zeroing.findings],
    segments: zeroing.segments,
  };
}

/** One piece in physical units; its findings go to the tally. */
function conditioned(piece: LogPiece, file: string, name: string, logger: Logger, rig: Rig, note: (findings: readonly Finding[]) => void): Recording {
  // Where the rows came from is known at the log's end only.
  const source = { file, sha256: "", format: "", bytes: 0, rowsRead: piece.timesS.length, rowsRefused: 0 };
  const calibrated = calibrate({ ...piece, evidence: [], findings: [], source }, logger, rig);
  const six = rig.sixAxis?.logger === name && hasChannel(calibrated.recording, "bridge1") ? decouple(calibrated.recording, rig.sixAxis) : { recording: calibrated.recording, findings: [] };
  note([...calibrated.findings, ...check(calibrated.recording, name, rig), ...six.findings]);
  return six.recording;
}

function needed(recording: Recording, name: string, plan: RunPlan): Channel {
  const found = recording.channels.find((channel) => channel.name === name);
  if (found !== undefined) return found;
  throw new InputError([{ code: "channel-missing", at: `run ${plan.id}`, message: `expected wheelAngle, carriagePosition and verticalLoad from one logger, found no ${name}`, hint: "Describe the channel under the logger of endurance runs in rig.yaml" }]);
}
