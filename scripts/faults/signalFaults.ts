import { dice } from "../demo/dice.ts";
import { editForces, editFrame } from "./edits.ts";
import type { Fault } from "./fault.ts";
import { editLog } from "./logTable.ts";
import { miniRates } from "./miniDay.ts";
import type { MiniDay } from "./miniDay.ts";

const pull = { run: "T2", measure: "pullCoefficient" } as const;
const log = "logs/T2_frame.txt";
/** How often the lugs of T2's wheel pass [Hz]. */
const passingHz = (day: MiniDay): number => (24 * (day.truth.get("T2")?.["angularSpeedRadS"] as number)) / (2 * Math.PI);

/** The logger's other habits: rate, range, pickup, loose plugs. */
export const signalFaults: readonly Fault[] = [
  {
    number: 30,
    title: "The lugs' ripple is sampled too seldom and folds into the mean",
    severity: "A",
    caughtBy: ["lug-sampling"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 3.2, says: "3.2 samples a lug, unfiltered" },
      { size: 1.5, says: "1.5 samples a lug" },
      { size: 1, says: "one sample a lug" },
    ],
    // A ripple of a fifth of the pull; rows are kept at the slow rate and nothing filters before.
    inject: (day, size) => {
      const hz = passingHz(day);
      editForces(day, "T2", (forces, timeS, { startS, endS }) => void (timeS > startS && timeS < endS && (forces.forceX -= 2.5 * Math.cos(2 * Math.PI * hz * timeS))));
      editLog(day, log, (table) => {
        let next = 0;
        table.rows = table.rows.filter((_, i) => {
          if (i / miniRates.frameHz < next - 0.5 / miniRates.frameHz) return false;
          next += 1 / (size * hz);
          return true;
        });
      });
    },
  },
  {
    number: 39,
    title: "A bridge's amplifier ends below the range stated",
    severity: "A",
    caughtBy: ["flat-top", "clipped"],
    plan: "rolling",
    headline: { run: "T2", measure: "verticalLoad" },
    strengths: [
      { size: 1, says: "at the usual reading under load: half of the ripple is cut" },
      { size: 0.9, says: "at 90 % of it" },
      { size: 0.5, says: "at half of it" },
    ],
    inject: (day, size) => {
      const rolling: number[] = [];
      const lifted: number[] = [];
      editFrame(day, "T2", "B3", (value, timeS, { startS, endS }) => {
        if (timeS < 1.5) lifted.push(value);
        if (timeS > startS + 1 && timeS < endS - 1) rolling.push(value);
        return value;
      });
      const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length;
      const end = mean(lifted) + size * (mean(rolling) - mean(lifted));
      editFrame(day, "T2", "B3", (value) => (end > mean(lifted) ? Math.min(end, value) : Math.max(end, value)));
    },
  },
  {
    number: 40,
    title: "The motor's current and the mains get into the bridges",
    severity: "B",
    caughtBy: ["line-pickup"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0.2, says: "0.2 N of 50 Hz, and a fifth of that as a shift of the pull, while the motor runs" },
      { size: 1, says: "1 N of 50 Hz" },
      { size: 5, says: "5 N of 50 Hz" },
    ],
    inject: (day, size) =>
      editForces(day, "T2", (forces, timeS, { startS, endS }) => {
        if (timeS < startS || timeS > endS) return;
        forces.forceX += size * Math.sin(2 * Math.PI * 49.97 * timeS + 1) + size / 5;
      }),
  },
  {
    number: 41,
    title: "The draw-wire slips on its drum: the height jumps and stays",
    severity: "B",
    caughtBy: ["level-jump"],
    plan: "rolling",
    headline: { run: "T2", measure: "sinkageRunning" },
    strengths: [
      { size: 0.3, says: "by 0.3 mm" },
      { size: 3, says: "by 3 mm" },
      { size: 15, says: "by 15 mm" },
    ],
    inject: (day, size) => editFrame(day, "T2", "Pot", (volts, timeS, { startS }) => (timeS > startS + 0.6 ? volts + size / 30.02 : volts)),
  },
  {
    number: 41,
    title: "A loose plug: single wild samples of a bridge",
    severity: "B",
    caughtBy: ["spikes"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0.0005, says: "one sample in 2000" },
      { size: 0.01, says: "one in 100" },
      { size: 0.12, says: "one in 8" },
    ],
    inject: (day, size) => {
      const random = dice(day.seed, "loose plug");
      editFrame(day, "T2", "B1", (value, timeS, { startS, endS }) => (random.uniform() < size || Math.abs(timeS - (startS + endS) / 2) < 0.004 ? value + 0.4 : value));
    },
  },
  {
    number: 42,
    title: "An optical height sensor loses its target in the dust",
    severity: "B",
    caughtBy: ["level-jump", "missing-samples", "clipped"],
    plan: "rolling",
    headline: { run: "T2", measure: "sinkageRunning" },
    strengths: [
      { size: 0.02, says: "8 mm too low for 2 % of the time" },
      { size: 0.2, says: "for 20 % of the time" },
      { size: 0.5, says: "for half of the time" },
    ],
    inject: (day, size) => editFrame(day, "T2", "Pot", (volts, timeS, { startS, endS }) => (timeS > startS + 0.5 && timeS < endS && (timeS - startS) % 1 > 1 - size ? volts + 8 / 30.02 : volts)),
  },
  {
    number: 46,
    title: "The hub stands askew: the wheel rolls with toe",
    severity: "A",
    caughtBy: ["side-force"],
    plan: "rolling",
    headline: pull,
    strengths: [
      { size: 0.01, says: "by 0.6°" },
      { size: 0.06, says: "by 3.4°" },
      { size: 0.15, says: "by 8.6°" },
    ],
    // Side force of about one load a radian, turned into the direction of travel.
    inject: (day, size) =>
      editForces(day, "T2", (forces, timeS, { startS, endS }) => {
        if (timeS < startS || timeS > endS) return;
        forces.forceY += 70 * size;
        forces.forceX += 70 * size ** 2;
      }),
  },
];
