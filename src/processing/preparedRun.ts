import type { RunPlan, WheelRecord } from "../campaign/campaign.ts";
import type { Rig } from "../campaign/rigSchema.ts";
import type { Finding } from "../core/finding.ts";
import type { Fit } from "../core/fit.ts";
import type { Measure } from "../core/measure.ts";
import type { Channel, Recording, TimeBase } from "../core/recording.ts";
import type { Segment } from "../core/segment.ts";
import type { Unit } from "../core/units.ts";
import { UsageError } from "../core/errors.ts";
import type { Curve, WindowChoice } from "./dayResult.ts";

/** A run ready to be measured: calibrated, decoupled, zeroed, on one clock. */
export interface PreparedRun {
  readonly plan: RunPlan;
  readonly wheel: WheelRecord | null;
  readonly rig: Rig;
  /** one per logger, each on its own time base, all times on the run's common clock */
  readonly recordings: readonly Recording[];
}

/** What reducing a run of any kind gives. */
export interface Reduced {
  readonly measures: readonly Measure[];
  /** left out where the kind of run has none */
  readonly curves?: readonly Curve[];
  readonly fits: readonly Fit[];
  readonly findings: readonly Finding[];
  readonly segments: readonly Segment[];
  readonly windowChoices: readonly WindowChoice[];
}

/** A channel and the time base it stands on; null when no logger recorded it. @throws UsageError when the unit differs. */
export function find<U extends Unit>(run: PreparedRun, name: string, unit: U): { readonly time: TimeBase; readonly channel: Channel<U> } | null {
  for (const recording of run.recordings) {
    const channel = recording.channels.find((candidate) => candidate.name === name);
    if (channel === undefined) continue;
    if (channel.unit !== unit) throw new UsageError(`channel "${name}": expected the unit "${unit}", found "${channel.unit}"`);
    return { time: recording.time, channel: channel as Channel<U> };
  }
  return null;
}
