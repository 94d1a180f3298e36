import type { PlannedRun } from "../demo/dayPlan.ts";
import { spinSpeeds, travelSpeed } from "../demo/dayPlan.ts";

type Part = Partial<PlannedRun> & Pick<PlannedRun, "id" | "kind">;

const run = (part: Part): PlannedRun => ({ wheel: null, bed: null, loadN: null, slip: null, speedMps: null, repeat: 1, block: "A", dropHeightM: null, plateM: null, normalStressPa: null, contactAngleRad: null, obstacle: null, footprint: null, remark: "", ...part });

/** What a wheel's traction runs rest on: deflection, rolling radius, drag. Ids end in the wheel's name. */
function references(wheel: string, loads: readonly number[]): PlannedRun[] {
  return [
    run({ id: `L-${wheel}`, kind: "loadDeflection", wheel, block: "bench" }),
    ...loads.map((loadN) => run({ id: `H${loadN}-${wheel}`, kind: "hardFloor", wheel, loadN, speedMps: travelSpeed, block: "floor" })),
    ...spinSpeeds.map((speedMps, i) => run({ id: `F${i + 1}-${wheel}`, kind: "freeSpin", wheel, speedMps, block: "floor" })),
  ];
}

const traction = (id: string, wheel: string, bed: string, slip: number, part: Partial<PlannedRun> = {}): PlannedRun => run({ id, kind: "traction", wheel, bed, loadN: 70, slip, speedMps: travelSpeed, ...part });

/** Small days of few runs, each for a family of faults. */
export const miniPlans = {
  /** one flexible wheel, its references, a skid and three driven slips on one bed; T2 at 20 % slip is the headline run */
  rolling: [...references("W3", [40, 70]), traction("T1", "W3", "B01", 0.1), traction("T2", "W3", "B01", 0.2), traction("T3", "W3", "B01", 0.4), traction("T4", "W3", "B01", -0.1)],
  /** two wheels in three blocks of fresh beds; W1 is the control wheel, run first and last in every block */
  blocks: [
    ...references("W1", [70]),
    ...references("W3", [70]),
    ...["A", "B", "C"].flatMap((block, i) => [
      traction(`C${2 * i + 1}`, "W1", `B0${i + 1}`, 0.2, { block, repeat: 2 * i + 1, remark: "control wheel" }),
      traction(`T${i + 1}`, "W3", `B0${i + 1}`, 0.2, { block, repeat: i + 1 }),
      traction(`C${2 * i + 2}`, "W1", `B0${i + 1}`, 0.2, { block, repeat: 2 * i + 2, remark: "control wheel" }),
    ]),
  ],
  /** one flexible wheel dropped from two heights, with repeats */
  drops: [run({ id: "L-W3", kind: "loadDeflection", wheel: "W3", block: "bench" }), ...[0.05, 0.1].flatMap((dropHeightM, i) => [1, 2].map((repeat) => run({ id: `D${2 * i + repeat}`, kind: "drop", wheel: "W3", dropHeightM, repeat, block: "drop" })))],
  /** one flexible wheel pressed on a pad and driven over a step that it always climbs */
  steps: [
    run({ id: "G1", kind: "footprint", wheel: "W3", loadN: 110, footprint: { from: "pad", ground: "flat" }, block: "print" }),
    run({ id: "O1", kind: "obstacle", wheel: "W3", loadN: 70, speedMps: 0.05, obstacle: { heightM: 0.008, edge: "sharp" }, block: "step" }),
  ],
  /** two plates and two shear runs on two preparations */
  soil: ["B01", "B02"].flatMap((bed, i) => [
    run({ id: `P${2 * i + 1}`, kind: "plate", bed, plateM: [0.04, 0.12], repeat: i + 1 }),
    run({ id: `P${2 * i + 2}`, kind: "plate", bed, plateM: [0.08, 0.24], repeat: i + 1 }),
    ...[5000, 15000].map((normalStressPa, j) => run({ id: `S${2 * i + j + 1}`, kind: "shear", bed, normalStressPa, repeat: i + 1 })),
  ]),
} as const satisfies Record<string, readonly PlannedRun[]>;

export type MiniPlanName = keyof typeof miniPlans;
