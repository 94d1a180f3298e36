import type { RunKind } from "../../src/campaign/rigSchema.ts";
import { dice, shuffled } from "./dice.ts";
import { wheels } from "./wheelTruth.ts";

/** A row of the run sheet before it has a number. */
export interface PlannedRun {
  readonly id: string;
  readonly kind: RunKind;
  readonly wheel: string | null;
  readonly bed: string | null;
  readonly loadN: number | null;
  readonly slip: number | null;
  readonly speedMps: number | null;
  readonly repeat: number;
  readonly block: string;
  readonly dropHeightM: number | null;
  readonly plateM: readonly [number, number] | null;
  readonly normalStressPa: number | null;
  readonly contactAngleRad: number | null;
  readonly footprint: { readonly from: "pad" | "image"; readonly ground: "flat" | "step" | "rock" } | null;
  readonly obstacle: { readonly heightM: number; readonly edge: "sharp" } | null;
  readonly remark: string;
}

export const loads = [40, 70, 110] as const;
export const slips = [-0.1, 0.02, 0.1, 0.2, 0.4, 0.6] as const;
export const travelSpeed = 0.25;
export const spinSpeeds = [0.22, 0.65] as const;
export const plates: readonly (readonly [number, number])[] = [[0.04, 0.12], [0.08, 0.24]];
export const normalStresses = [2000, 5000, 10000, 15000] as const;
export const dropHeights = [0.025, 0.05, 0.1, 0.2] as const;
export const contactAngles = [0, 45, 90, 135, 180, 225, 270, 315].map((degrees) => (degrees * Math.PI) / 180);
export const pressedRound = ["W6", "W5"] as const;
export const printed = ["W3", "W5"] as const;
export const steppers = ["W1", "W3"] as const;
export const swept = ["W1", "W3"] as const;
export const stepHeights = [0.014, 0.018, 0.022, 0.026, 0.03, 0.034] as const;
const blocks = ["A", "B", "C"] as const;
const lanesPerBed = 4;

type Draft = Omit<PlannedRun, "id">;
const blank: Draft = { kind: "traction", wheel: null, bed: null, loadN: null, slip: null, speedMps: null, repeat: 1, block: "", dropHeightM: null, plateM: null, normalStressPa: null, contactAngleRad: null, obstacle: null, footprint: null, remark: "" };
const roundPress: Draft = { ...blank, kind: "loadDeflection", loadN: 110, block: "round", remark: "four cycles, held at the top of the last" };
const print: Draft = { ...blank, kind: "footprint", loadN: 110, block: "print" };
const stepTrial: Draft = { ...blank, kind: "obstacle", loadN: 70, speedMps: 0.05, block: "step" };

/** The whole day in the order in which it was run: bench and floor first, soil in three blocks, drops, presses, footprints and steps, swept slip and the turning table last. */
export function dayPlan(seed: number, scale: number): PlannedRun[] {
  const drafts: Draft[] = [];
  for (const wheel of wheels) drafts.push({ ...blank, kind: "loadDeflection", wheel: wheel.id, block: "bench", remark: "three cycles on the steel table" });
  for (const wheel of wheels) for (const loadN of loads) drafts.push({ ...blank, kind: "hardFloor", wheel: wheel.id, loadN, speedMps: travelSpeed, block: "floor" });
  for (const wheel of wheels) for (const speedMps of spinSpeeds) drafts.push({ ...blank, kind: "freeSpin", wheel: wheel.id, speedMps, block: "floor" });
  let bedNumber = 0;
  const newBed = (): string => `B${String(++bedNumber).padStart(2, "0")}`;
  for (const [index, block] of blocks.entries()) {
    const random = dice(seed, `order ${block}`);
    const soilBed = newBed();
    for (const plateM of plates) drafts.push({ ...blank, kind: "plate", bed: soilBed, plateM, repeat: index + 1, block });
    if (index !== 1) for (const normalStressPa of shuffled(normalStresses, random)) drafts.push({ ...blank, kind: "shear", bed: soilBed, normalStressPa, repeat: index === 0 ? 1 : 2, block });
    const traction = shuffled(tractionOf(index, block, scale), random);
    const control = traction.findIndex((run) => run.remark === "control wheel");
    traction.unshift(...traction.splice(control, 1));
    let bed = "";
    for (const [lane, run] of traction.entries()) {
      if (lane % lanesPerBed === 0) bed = newBed();
      drafts.push({ ...run, bed });
    }
  }
  for (const wheel of wheels) for (const dropHeightM of dropHeights) for (const repeat of [1, 2, 3]) drafts.push({ ...blank, kind: "drop", wheel: wheel.id, dropHeightM, repeat, block: "drop" });
  drafts.push(...roundPresses(), ...footprints(), ...obstacleTrials(seed));
  const sweptBed = newBed();
  for (const wheel of swept) drafts.push({ ...blank, kind: "sweep", wheel, bed: sweptBed, loadN: 70, speedMps: travelSpeed, block: "sweep", remark: "slip up and down again, speed of the rim" });
  drafts.push({ ...blank, kind: "endurance", wheel: "W3", loadN: 70, speedMps: 0.3, block: "table", remark: "turning table with stones" });
  return drafts.map((draft, index) => ({ id: `R${String(index + 1).padStart(3, "0")}`, ...draft }));
}

/** The thin wheel bare and with its core, pressed at eight angles each. */
function roundPresses(): Draft[] {
  return pressedRound.flatMap((wheel) => contactAngles.map((contactAngleRad): Draft => ({ ...roundPress, wheel, contactAngleRad })));
}

/** Flexible wheels on the pad, on flat ground, step and rock, and on the glass plate. */
function footprints(): Draft[] {
  return printed.flatMap((wheel) => [
    ...(["flat", "step", "rock"] as const).map((ground): Draft => ({ ...print, wheel, footprint: { from: "pad", ground } })),
    { ...print, wheel, footprint: { from: "image", ground: "flat" } },
  ]);
}

/** Trials at a sharp step, heights drawn by lot, wheel by wheel. */
function obstacleTrials(seed: number): Draft[] {
  return steppers.flatMap((wheel) => {
    const heights = stepHeights.flatMap((heightM) => [heightM, heightM, heightM]);
    return shuffled(heights, dice(seed, `steps ${wheel}`)).map((heightM): Draft => ({ ...stepTrial, wheel, obstacle: { heightM, edge: "sharp" } }));
  });
}

/** One block's traction runs: 20 % slip of every wheel and load, and a third of the other slips. */
function tractionOf(blockIndex: number, block: string, scale: number): Draft[] {
  const drafts: Draft[] = [];
  for (let round = 0; round < scale; round++) {
    for (const [w, wheel] of wheels.entries()) {
      for (const [l, loadN] of loads.entries()) {
        for (const [s, slip] of slips.entries()) {
          const everyBlock = slip === 0.2;
          if (!everyBlock && (w + l + s) % blocks.length !== blockIndex) continue;
          const control = everyBlock && w === 0 && loadN === 70;
          drafts.push({ ...blank, wheel: wheel.id, loadN, slip, speedMps: travelSpeed, repeat: round * (everyBlock ? blocks.length : 1) + (everyBlock ? blockIndex + 1 : 1), block, remark: control ? "control wheel" : "" });
        }
      }
    }
  }
  return drafts;
}

/** A few runs that belong together, for the excerpt kept in the repository. */
export function excerptPlan(): PlannedRun[] {
  const wheel = "W3";
  const drafts: Draft[] = [
    { ...blank, kind: "loadDeflection", wheel, block: "bench", remark: "three cycles on the steel table" },
    { ...blank, kind: "hardFloor", wheel, loadN: 70, speedMps: travelSpeed, block: "floor" },
    ...spinSpeeds.map((speedMps): Draft => ({ ...blank, kind: "freeSpin", wheel, speedMps, block: "floor" })),
    { ...blank, kind: "plate", bed: "B01", plateM: plates[0]!, block: "A" },
    { ...blank, kind: "plate", bed: "B01", plateM: plates[1]!, block: "A" },
    { ...blank, kind: "shear", bed: "B01", normalStressPa: 5000, block: "A" },
    { ...blank, kind: "shear", bed: "B01", normalStressPa: 15000, block: "A" },
    { ...blank, wheel, bed: "B02", loadN: 70, slip: 0.1, speedMps: travelSpeed, block: "A" },
    { ...blank, wheel, bed: "B02", loadN: 70, slip: 0.2, speedMps: travelSpeed, block: "A" },
    { ...blank, kind: "drop", wheel, dropHeightM: 0.05, block: "drop" },
    { ...roundPress, wheel: "W6", contactAngleRad: 0 },
    { ...roundPress, wheel: "W5", contactAngleRad: 0 },
    { ...print, wheel, footprint: { from: "pad", ground: "flat" } },
    { ...print, wheel, footprint: { from: "image", ground: "flat" } },
    { ...stepTrial, wheel, obstacle: { heightM: 0.018, edge: "sharp" } },
    { ...stepTrial, wheel, obstacle: { heightM: 0.034, edge: "sharp" } },
  ];
  return drafts.map((draft, index) => ({ id: `R${String(index + 1).padStart(3, "0")}`, ...draft }));
}
