import type { Fault } from "./fault.ts";
import { editCounts, onGround, replaceText, runsOf } from "./edits.ts";
import { encoder } from "../demo/rigTruth.ts";

export const encoderFaults: readonly Fault[] = [
  {
    number: 5,
    title: "Encoder counter rolls over and nobody undoes it",
    severity: "A",
    caughtBy: ["encoder-jump", "encoder-step"],
    plan: "rolling",
    headline: { run: "T2", measure: "slip" },
    strengths: [
      { size: encoder.rollover * 64, says: "rig.yaml states a modulus 64 times too large" },
      { size: encoder.rollover * 2, says: "rig.yaml states a modulus twice too large" },
      { size: 0, says: "rig.yaml says the counter never rolls over" },
    ],
    inject: (day, size) => replaceText(day, "rig.yaml", `rollover: ${encoder.rollover}`, `rollover: ${size === 0 ? "null" : size}`),
  },
  {
    number: 6,
    title: "Encoder gear or fourfold edge counting forgotten",
    severity: "A",
    caughtBy: ["encoder-ratio", "lug-order", "record-radius"],
    plan: "rolling",
    headline: { run: "T2", measure: "wheelSpeed" },
    strengths: [
      { size: encoder.countsPerRevolution * 1.01, says: "counts a turn 1 % too many" },
      { size: encoder.countsPerRevolution * 2, says: "edges counted once, the description counts them twice" },
      { size: encoder.countsPerRevolution / 4, says: "edges counted fourfold, the description counts lines" },
    ],
    inject: (day, size) => replaceText(day, "rig.yaml", `countsPerRevolution: ${encoder.countsPerRevolution}`, `countsPerRevolution: ${size}`),
  },
  {
    number: 7,
    title: "Encoder on the motor's side of a belt that slips",
    severity: "A",
    caughtBy: ["lug-order"],
    plan: "rolling",
    headline: { run: "T2", measure: "slip" },
    strengths: [
      { size: 0.002, says: "belt slips 0.2 % under traction" },
      { size: 0.01, says: "belt slips 1 %" },
      { size: 0.04, says: "belt slips 4 %" },
    ],
    // Under traction only: on the floor and in the air the belt holds.
    inject: (day, size) => {
      for (const run of runsOf(day, "traction")) {
        let standing = Number.NaN;
        editCounts(day, run, (count, timeS, phases) => {
          if (!onGround(timeS, phases) || Number.isNaN(standing)) standing = Number.isNaN(standing) ? count : standing;
          return count + size * (count - standing);
        });
      }
    },
  },
];
