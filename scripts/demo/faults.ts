import type { PlannedRun } from "./dayPlan.ts";
import type { LogFault } from "./rollingLogs.ts";

/** What is wrong on purpose, by run. */
export interface Faults {
  readonly logs: ReadonlyMap<string, LogFault>;
  /** this run's files are the bytes of that one's: the technician saved the wrong wheel's logs */
  readonly copies: ReadonlyMap<string, string>;
  readonly excluded: ReadonlyMap<string, string>;
  readonly knocks: ReadonlySet<string>;
}

export const noFaults: Faults = { logs: new Map(), copies: new Map(), excluded: new Map(), knocks: new Set() };

/** Faults in a few runs of a whole day. No control run and no 20 % slip repeat of the control wheel is touched. */
export function chooseFaults(runs: readonly PlannedRun[]): Faults {
  const find = (wheel: string, loadN: number, slip: number): string => runs.find((run) => run.kind === "traction" && run.wheel === wheel && run.loadN === loadN && run.slip === slip)!.id;
  const knocked = runs.find((run) => run.kind === "drop" && run.wheel === "W4" && run.dropHeightM === 0.1 && run.repeat === 2)!.id;
  return {
    logs: new Map<string, LogFault>([
      [find("W2", 70, 0.4), { pullDriftN: 9 }],
      [find("W4", 110, 0.1), { unbalanced: [2, 1.85] }],
      [find("W3", 40, 0.6), { gapS: [7.2, 8.7] }],
    ]),
    copies: new Map([[find("W5", 70, 0.1), find("W3", 70, 0.1)]]),
    excluded: new Map([[find("W2", 40, 0.02), "a tool fell into the bed ahead of the wheel"]]),
    knocks: new Set([knocked]),
  };
}

/** For truth.json, in plain words. */
export function faultList(faults: Faults): { readonly run: string; readonly fault: string }[] {
  const logs = [...faults.logs].map(([run, fault]) => ({
    run,
    fault: fault.pullDriftN !== undefined ? `zero of the pull drifts by ${fault.pullDriftN} N` : fault.unbalanced !== undefined ? `bridge ${fault.unbalanced[0] + 1} unbalanced, its amplifier ends under load` : `frame log without rows from ${fault.gapS?.[0]} to ${fault.gapS?.[1]} s`,
  }));
  return [
    ...logs,
    ...[...faults.copies].map(([run, of]) => ({ run, fault: `its files are the bytes of ${of}` })),
    ...[...faults.excluded].map(([run, reason]) => ({ run, fault: `excluded by hand: ${reason}` })),
    ...[...faults.knocks].map((run) => ({ run, fault: "the guide knocks while the wheel falls" })),
  ];
}
