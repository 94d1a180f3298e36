import type { RunPlan } from "../../src/campaign/campaign.ts";
import type { Rig, RunKind } from "../../src/campaign/rigSchema.ts";
import { rigSchema } from "../../src/campaign/rigSchema.ts";
import type { Channel, Doubt } from "../../src/core/recording.ts";
import type { Unit } from "../../src/core/units.ts";
import type { PreparedRun } from "../../src/processing/preparedRun.ts";

/** A run sheet row with everything empty but what is given. */
export function plan(kind: RunKind, rest: Partial<RunPlan> = {}): RunPlan {
  return {
    id: "run1", sheetId: "run1", kind, wheel: null, bed: null, setLoadN: null, setSlip: null, setSpeedMps: null, repeat: null, pass: null, block: null, dropHeightM: null,
    plate: null, shearAreaM2: null, normalStressPa: null, contactAngleRad: null, obstacle: null, footprint: null, remark: "", excluded: null, line: 2, more: {}, ...rest,
  };
}

/** A rig description with only what every rig states. */
export function rig(rest: Record<string, unknown> = {}): Rig {
  return rigSchema.parse({ rig: "Bench", gravity: 9.81, slipRadius: { policy: "unloaded", lugs: "without" }, loggers: {}, ...rest });
}

/** A prepared run of one logger sampled evenly. */
export function preparedRun(runPlan: RunPlan, channels: Readonly<Record<string, { readonly unit: Unit; readonly samples: readonly number[]; readonly doubt?: Doubt }>>, rateHz = 100, runRig: Rig = rig()): PreparedRun {
  const rows: Channel[] = Object.entries(channels).map(([name, { unit, samples, doubt }]) => ({ name, unit, samples: Float64Array.from(samples), doubt: doubt ?? null }));
  const count = rows[0]?.samples.length ?? 0;
  return { plan: runPlan, wheel: null, rig: runRig, recordings: [{ time: { kind: "uniform", startS: 0, rateHz, count }, startedAt: null, channels: rows, sources: [], history: [] }] };
}
