import type { BedRecord, Campaign } from "../../campaign/campaign.ts";
import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import { convert, unitKind } from "../../core/units.ts";
import { mean } from "../../numerics/statistics.ts";
import type { RunResult } from "../dayResult.ts";
import { pick } from "../references.ts";

/** Diameters of the two cones of the trade and the share of wear at which one is replaced. @source ASABE S313, from memory */
const coneDiametersM = [0.02027, 0.01283] as const;
const coneWear = 0.03;
/** Rate a cone is pushed at [m/s]. @source ASABE S313, from memory: 30 mm/s */
const coneRate = 0.03;

/** Whether beds were large, alike and read with a sound cone, as far as beds.csv says. */
export function bedRecordFindings(runs: readonly RunResult[], campaign: Campaign): Finding[] {
  return [...campaign.beds.flatMap((bed) => [...tooSmall(bed, runs, campaign), ...cone(bed, campaign)]), ...moistureSpread(campaign)];
}

/** A free column of the bed's record as a length or speed in SI; null when it is not there or is something else. */
function column(bed: BedRecord, name: string, unit: "m" | "m/s"): number | null {
  const cell = bed.more[name];
  if (cell === undefined || !("value" in cell) || unitKind(cell.unit) !== unitKind(unit)) return null;
  return convert(cell.value, cell.unit, unit);
}

/** Floor and walls feel a wheel when they are too near: soil as deep as the wheel is high and five times its sinkage, walls a wheel's width away. */
function tooSmall(bed: BedRecord, runs: readonly RunResult[], campaign: Campaign): Finding[] {
  const depth = column(bed, "soil depth", "m");
  const clearance = column(bed, "side clearance", "m");
  const { bedDepthDiameters, bedDepthSinkages, bedSideWidths } = campaign.rig.tolerances;
  const found: Finding[] = [];
  const used = runs.filter((run) => run.plan.bed === bed.id && run.plan.kind === "traction");
  for (const wheel of campaign.wheels.filter((candidate) => used.some((run) => run.plan.wheel === candidate.id))) {
    const own = used.filter((run) => run.plan.wheel === wheel.id);
    const deepest = Math.max(0, ...own.map((run) => pick(run, "sinkageRunning")?.value ?? 0));
    const needed = Math.max(bedDepthDiameters * 2 * (wheel.radiusM + wheel.lugHeightM), bedDepthSinkages * deepest);
    const mm = (value: number): string => (1000 * value).toFixed(0);
    if (depth !== null && depth < needed) found.push(finding("bed-too-small", "look", `Bed ${bed.id} is ${mm(depth)} mm deep where wheel ${wheel.id} needs ${mm(needed)} mm (the larger of ${bedDepthDiameters} wheel diameters and ${bedDepthSinkages} times its deepest sinkage): the bin's floor carries part of the load. Use a deeper bed`, { measured: depth, limit: needed }));
    if (clearance !== null && clearance < bedSideWidths * wheel.widthM) found.push(finding("bed-too-small", "look", `Bed ${bed.id} leaves ${mm(clearance)} mm between wheel ${wheel.id} and the wall where ${mm(bedSideWidths * wheel.widthM)} mm are needed: the wall holds the soil. Run further from the wall`, { measured: clearance, limit: bedSideWidths * wheel.widthM }));
  }
  return found;
}

function cone(bed: BedRecord, campaign: Campaign): Finding[] {
  const diameter = column(bed, "cone diameter", "m");
  const rate = column(bed, "cone rate", "m/s");
  const found: Finding[] = [];
  if (diameter !== null) {
    // A worn cone is smaller than the one it was, never larger.
    const nominal = coneDiametersM.reduce((a, b) => (Math.abs(diameter - a) < Math.abs(diameter - b) ? a : b));
    const off = Math.abs(diameter / nominal - 1);
    if (off > coneWear) found.push(finding("cone-worn", "look", `Bed ${bed.id}: the cone's base measures ${(1000 * diameter).toFixed(2)} mm, ${(100 * off).toFixed(1)} % off the ${(1000 * nominal).toFixed(2)} mm of a new one. Replace the cone; index and gradient are off by about twice that share`, { measured: off, limit: coneWear }));
  }
  if (rate !== null) {
    const off = Math.abs(rate / coneRate - 1);
    const limit = campaign.rig.tolerances.coneRate;
    if (off > limit) found.push(finding("cone-rate", "look", `Bed ${bed.id}: the cone was pushed at ${(1000 * rate).toFixed(1)} mm/s; 30 mm/s is usual, and the index grows with the rate. Push at the usual rate`, { measured: off, limit }));
  }
  return found;
}

function moistureSpread(campaign: Campaign): Finding[] {
  const wet = campaign.beds.flatMap((bed) => (bed.moisture === null ? [] : [{ id: bed.id, value: bed.moisture }]));
  if (wet.length < 2) return [];
  const low = wet.reduce((a, b) => (a.value <= b.value ? a : b));
  const high = wet.reduce((a, b) => (a.value >= b.value ? a : b));
  const share = (high.value - low.value) / mean(wet.map((bed) => bed.value));
  const limit = campaign.rig.tolerances.moistureSpread;
  if (!(share > limit)) return [];
  return [finding("moisture-spread", "look", `The beds' moisture differs: ${(100 * low.value).toFixed(2)} % in ${low.id}, ${(100 * high.value).toFixed(2)} % in ${high.id}. Moist soil coheres and carries more; dry the soil, or compare wheels within one bed only`, { measured: share, limit })];
}
