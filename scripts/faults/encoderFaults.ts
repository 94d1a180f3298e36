import type { Fault } from "./fault.ts";
import { replaceText } from "./edits.ts";
import { encoder } from "../demo/rigTruth.ts";

const slip = { run: "T2", measure: "slip" } as const;

export const encoderFaults: readonly Fault[] = [
  {
    number: 5,
    title: "Encoder counter rolls over and nobody undoes it",
    severity: "A",
    caughtBy: ["encoder-jump", "encoder-step", "slip-off", "slip-spread", "few-revolutions", "no-motion"],
    plan: "rolling",
    headline: slip,
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
    caughtBy: ["encoder-ratio"],
    plan: "rolling",
    headline: { run: "T2", measure: "wheelSpeed" },
    strengths: [
      { size: encoder.countsPerRevolution * 2, says: "counts a turn twice too many" },
      { size: encoder.countsPerRevolution / 4, says: "edges counted fourfold, the description counts lines" },
      { size: encoder.countsPerRevolution * encoder.gear, says: "the gear counted twice" },
    ],
    inject: (day, size) => replaceText(day, "rig.yaml", `countsPerRevolution: ${encoder.countsPerRevolution}`, `countsPerRevolution: ${size}`),
  },
];
