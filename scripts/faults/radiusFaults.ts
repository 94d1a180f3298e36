import type { Fault } from "./fault.ts";
import { editSheet, replaceText } from "./edits.ts";
import { remakeRun } from "./miniRun.ts";

const slip = { run: "T2", measure: "slip" } as const;
const policies = ["{ policy: unloaded, lugs: with }", "{ policy: unloaded, lugs: without }", "{ policy: loaded, lugs: without }"] as const;

/** Which radius slip is counted from. */
export const radiusFaults: readonly Fault[] = [
  {
    number: 1,
    title: "Slip counted from a radius of the drawing, not from the one the wheel rolls on",
    severity: "A",
    caughtBy: ["radius-choice"],
    plan: "rolling",
    headline: slip,
    strengths: [
      { size: 0, says: "unloaded radius to the lugs' tips" },
      { size: 1, says: "unloaded radius to the rim" },
      { size: 2, says: "loaded radius to the rim" },
    ],
    inject: (day, size) => replaceText(day, "rig.yaml", "{ policy: effective, lugs: with }", policies[size] as string),
  },
  {
    number: 2,
    title: "Radius to the lugs' tips in one wheel's record, to the rim in another's",
    severity: "A",
    caughtBy: ["record-radius", "radius-choice"],
    plan: "blocks",
    headline: { run: "C1", measure: "slip" },
    strengths: [
      { size: 1, says: "W1's radius 1 mm too large" },
      { size: 2.5, says: "W1's radius to the middle of its lugs" },
      { size: 5, says: "W1's radius to the tips, its lugs counted again" },
    ],
    inject: (day, size) => {
      replaceText(day, "rig.yaml", "{ policy: effective, lugs: with }", "{ policy: unloaded, lugs: with }");
      editSheet(day, "wheels.csv", (row) => void (row["wheel"] === "W1" && (row["radius [mm]"] = String(100 + size).replace(".", ","))));
    },
  },
  {
    number: 3,
    title: "Rolling radius of a flexible wheel taken at another load",
    severity: "A",
    caughtBy: ["radius-unknown", "load-off"],
    plan: "rolling",
    headline: slip,
    strengths: [
      { size: 64, says: "hard floor at 40 and 64 N, traction at 70 N" },
      { size: 55, says: "hard floor at 40 and 55 N, traction at 70 N" },
      { size: 45, says: "hard floor at 40 and 45 N, traction at 70 N" },
    ],
    inject: (day, size) => {
      remakeRun(day, "H70-W3", { loadN: size });
      editSheet(day, "runs.csv", (row) => void (row["run"] === "H70-W3" && (row["load [N]"] = String(size))));
    },
  },
];
