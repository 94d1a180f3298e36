import type { Fault } from "./fault.ts";
import { editLog } from "./logTable.ts";
import { miniRates } from "./miniDay.ts";
import type { MiniDay } from "./miniDay.ts";

const log = "logs/D1_drop.csv";

/** Changes the accelerometer's column; time since first touch, negative before it. */
function editAcceleration(day: MiniDay, change: (gn: number, sinceTouchS: number) => number): void {
  editLog(day, log, (table, column) => {
    const at = column("Acc");
    // still in the air it reads about −1; the floor first shows as the way back up through zero
    const fallen = table.rows.findIndex((row) => (row[at] as number) < -0.8);
    const touch = table.rows.findIndex((row, i) => i > fallen && (row[at] as number) > 0);
    table.rows.forEach((row, i) => (row[at] = change(row[at] as number, (i - touch) / miniRates.dropHz)));
  });
}

/** What an accelerometer does to a blow. */
export const dropFaults: readonly Fault[] = [
  {
    number: 31,
    title: "No filter against folding before the accelerometer is sampled",
    severity: "A",
    caughtBy: ["drop-unfiltered", "rate-too-low"],
    plan: "drops",
    headline: { run: "D1", measure: "peakAcceleration" },
    strengths: [
      { size: 0.05, says: "ringing above half the rate, 5 % of the peak" },
      { size: 0.4, says: "40 % of the peak" },
      { size: 1.5, says: "150 % of the peak" },
    ],
    // Ringing of the carriage at 5.9, 7.1 and 9.6 kHz, sampled at 10 kHz: it shows at 4.1, 2.9 and 0.4 kHz.
    inject: (day, size) =>
      editAcceleration(day, (gn, t) => {
        if (t < 0 || t > 0.05) return gn;
        const ring = (hz: number): number => Math.sin(2 * Math.PI * hz * t);
        return gn + size * 9 * Math.exp(-t / 0.012) * (0.5 * ring(5900) + 0.3 * ring(7100) + 0.2 * ring(9600));
      }),
  },
  {
    number: 54,
    title: "The accelerometer's zero shifts in the blow, and the integrals drift",
    severity: "A",
    caughtBy: ["zero-shift", "impulse-disagrees", "restitution-disagrees", "no-restitution"],
    plan: "drops",
    headline: { run: "D1", measure: "restitutionFromVelocities" },
    strengths: [
      { size: 0.01, says: "by 0.01 gn" },
      { size: 0.04, says: "by 0.04 gn" },
      { size: 0.15, says: "by 0.15 gn" },
    ],
    inject: (day, size) => editAcceleration(day, (gn, t) => (t > 0 ? gn + size : gn)),
  },
];
