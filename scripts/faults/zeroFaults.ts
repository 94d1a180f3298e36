import type { Fault } from "./fault.ts";
import { editForces } from "./edits.ts";

const pull = { run: "T2", measure: "pullCoefficient" } as const;

export const zeroFaults: readonly Fault[] = [
  {
    number: 9,
    title: "Zero drifts between the blocks before and after the run",
    severity: "A",
    caughtBy: ["zero-drift", "zero-drift-of-mean"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 1, says: "pull drifts by 1 N, all of it in the first second of motion" },
      { size: 3, says: "pull drifts by 3 N" },
      { size: 9, says: "pull drifts by 9 N" },
    ],
    inject: (day, size) =>
      editForces(day, "T2", (forces, timeS, { startS }) => {
        forces.forceX += size * Math.min(1, Math.max(0, timeS - startS));
      }),
  },
];
