import type { RunPlan } from "../../../src/campaign/campaign.ts";
import type { RawTable } from "../../../src/importers/contract.ts";
import type { LogPiece, ReadPieces } from "../../../src/processing/endurance/enduranceLog.ts";
import { rigWith } from "../recordings.ts";

export const plan = { id: "E1", sheetId: "E1", kind: "endurance", wheel: "W1", excluded: null, setLoadN: 60, more: {} } as unknown as RunPlan;

const uncertainty = { relative: 0.002, offset: 0.1 };
export const rig = rigWith({
  slipRadius: { policy: "unloaded", lugs: "without", uncertainty: 0.0001 },
  massBelowSensor: 0,
  loggers: {
    main: {
      files: "logs/{run}.csv",
      kinds: ["endurance"],
      clock: { kind: "elapsed", column: "t", unit: "s" },
      channels: {
        drawbarPull: { column: "Fx", unit: "N", sign: 1, range: [-500, 500], uncertainty },
        verticalLoad: { column: "Fz", unit: "N", sign: 1, range: [-256, 256], uncertainty },
        wheelTorque: { column: "My", unit: "N.m", sign: 1, range: [-50, 50], uncertainty },
        wheelAngle: { column: "A", unit: "rad", sign: 1 },
        carriagePosition: { column: "X", unit: "m", sign: 1, uncertainty: { relative: 0.001, offset: 0.001 } },
      },
    },
  },
});
/** Free spin of this wheel: a drag of 0.1 N·m at 1 rad/s. */
export const references = {
  rollingRadii: [],
  deflections: [],
  drags: [{ wheel: "W1", run: "F1", wheelSpeed: { value: 1, unit: "rad/s" as const, standardUncertainty: 0, degreesOfFreedom: Infinity, method: "", budget: [] }, torque: { value: 0.1, unit: "N.m" as const, standardUncertainty: 0.001, degreesOfFreedom: Infinity, method: "", budget: [] } }],
};

/** The made wheel: radius 0.1 m, 1 rad/s, slip rising from 0.2 by 0.05, load 60 N, pull 12 N falling by 3 N, torque 2 N·m with the drag. */
export const truth = { speedRadS: 1, load: 60, slip: (share: number) => 0.2 + 0.05 * share, pull: (share: number) => 12 - 3 * share, torque: 2 };

/**
 * A log at 50 Hz: 3 s lifted, legs of `legS` out and home with 20 s of rest between them, 3 s lifted. The zero of every
 * force drifts from 1 to 2 while the log lasts; lugs ripple the load.
 */
export function madeLog({ legs = 4, legS = 200 } = {}): RawTable {
  const restS = 20;
  const liftS = 3;
  const lastS = 2 * liftS + legs * legS + (legs - 1) * restS;
  const count = Math.round(lastS * 50) + 1;
  const columns = { A: new Float64Array(count), X: new Float64Array(count), Fz: new Float64Array(count), Fx: new Float64Array(count), My: new Float64Array(count) };
  const timesS = Float64Array.from({ length: count }, (_, i) => i / 50);
  let angle = 0;
  let position = 0;
  let rolled = 0;
  for (let i = 0; i < count; i++) {
    const t = timesS[i] as number;
    const lifted = t < liftS || t > lastS - liftS;
    const leg = Math.floor((t - liftS) / (legS + restS));
    const rolls = !lifted && t - liftS - leg * (legS + restS) < legS;
    const way = rolls ? (leg % 2 === 0 ? 1 : -1) : 0;
    const share = rolled / (legs * legS);
    angle += way * truth.speedRadS * 0.02;
    position += way * truth.speedRadS * 0.02 * 0.1 * (1 - truth.slip(share));
    rolled += Math.abs(way) * 0.02;
    const zero = 1 + t / lastS;
    columns.A[i] = angle + (i % 3) * 1e-4;
    columns.X[i] = position + (i % 5) * 1e-4;
    columns.Fz[i] = zero - 1.2 * 9.81 + (lifted ? 0 : truth.load + 2 * Math.sin(24 * angle));
    columns.Fx[i] = zero + way * truth.pull(share);
    columns.My[i] = zero + way * truth.torque;
  }
  return {
    timesS,
    startedAt: null,
    columns: Object.entries(columns).map(([name, samples]) => ({ name, unit: null, samples, overloaded: [] })),
    metadata: [],
    evidence: [],
    source: { file: "logs/E1.csv", sha256: "0".repeat(64), format: "made", bytes: 1, rowsRead: count, rowsRefused: 0 },
    findings: [],
  };
}

/** Hands a table out in pieces of so many rows, each beginning with the last row of the one before. */
export function inPieces(table: RawTable, rows: number): ReadPieces {
  return async (_path, _options, onPiece) => {
    for (let from = 0; from < table.timesS.length - 1; from += rows) {
      const cut = (samples: RawTable["timesS"]) => samples.subarray(from, Math.min(samples.length, from + rows + 1));
      const piece: LogPiece = { ...table, timesS: cut(table.timesS), columns: table.columns.map((column) => ({ ...column, samples: cut(column.samples) })) };
      onPiece(piece);
    }
    return table;
  };
}
