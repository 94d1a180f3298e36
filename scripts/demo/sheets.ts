import type { RunKind } from "../../src/campaign/rigSchema.ts";
import type { PlannedRun } from "./dayPlan.ts";
import { shearAreaCm2 } from "./rigTruth.ts";
import { coneReadings, targetGradient } from "./soilTruth.ts";
import type { BedTruth } from "./soilTruth.ts";
import { pressedWheels } from "./wheelTruth.ts";
import type { WheelTruth } from "./wheelTruth.ts";

const kindNames: Record<RunKind, string> = { traction: "traction", hardFloor: "hard floor", freeSpin: "free spin", plate: "plate", shear: "shear", drop: "drop", loadDeflection: "load deflection", sweep: "sweep", obstacle: "obstacle", footprint: "footprint", endurance: "endurance" };

/** A cell as a spreadsheet set to a decimal comma writes it. */
function cell(value: string | number | null): string {
  if (value === null) return "";
  if (typeof value === "number") return String(Number(value.toPrecision(6))).replace(".", ",");
  return /[;"\n]/.test(value) ? `"${value.replaceAll('"', '""')}"` : value;
}

function sheet(headings: readonly string[], rows: readonly (readonly (string | number | null)[])[]): string {
  return `\ufeff${[headings, ...rows].map((row) => row.map(cell).join(";")).join("\r\n")}\r\n`;
}

/** The run sheet. `excluded` maps a run to the reason a person gave, `climbed` a trial at a step to what a person saw; every ninth trial nobody wrote it down. */
export function runSheet(runs: readonly PlannedRun[], excluded: ReadonlyMap<string, string>, climbed: ReadonlyMap<string, boolean> = new Map()): string {
  const trials = [...climbed.keys()];
  const seen = (run: PlannedRun): string | null => (climbed.has(run.id) && trials.indexOf(run.id) % 9 !== 8 ? (climbed.get(run.id) === true ? "yes" : "no") : null);
  const percent = (share: number | null): number | null => (share === null ? null : Math.round(share * 1000) / 10);
  const mm = (metres: number | null): number | null => (metres === null ? null : Math.round(metres * 1e5) / 100);
  return sheet(
    ["run", "kind", "wheel", "bed", "load [N]", "slip [%]", "speed [mm/s]", "repeat", "block", "height [mm]", "plate", "plate width [mm]", "plate length [mm]", "shear area [cm2]", "normal stress [kPa]", "contact angle [deg]", "obstacle height [mm]", "edge", "climbed", "footprint from", "ground", "remark", "excluded", "reason"],
    runs.map((run) => [
      run.id, kindNames[run.kind], run.wheel, run.bed, run.loadN, percent(run.slip), mm(run.speedMps), run.repeat, run.block, mm(run.dropHeightM),
      run.plateM === null ? null : "rectangle", run.plateM === null ? null : mm(run.plateM[0]), run.plateM === null ? null : mm(run.plateM[1]),
      run.kind === "shear" ? shearAreaCm2 : null, run.normalStressPa === null ? null : run.normalStressPa / 1000,
      run.contactAngleRad === null ? null : Math.round((run.contactAngleRad * 180) / Math.PI), mm(run.obstacle?.heightM ?? null), run.obstacle?.edge ?? null, seen(run), run.footprint?.from ?? null, run.footprint?.ground ?? null,
      run.remark, excluded.has(run.id) ? "yes" : null, excluded.get(run.id) ?? null,
    ]),
  );
}

/** wheels.csv; `broken` are further wheels of the make of W3. */
export function wheelSheet(broken: readonly string[] = []): string {
  const make = pressedWheels.find((wheel) => wheel.id === "W3") as WheelTruth;
  const listed = [...pressedWheels, ...broken.map((id): WheelTruth => ({ ...make, id, description: "as W3, run until it broke" }))];
  return sheet(
    ["wheel", "radius [mm]", "width [mm]", "mass [kg]", "lugs", "lug height [mm]", "flexible", "description", "spoke thickness [mm]", "core fraction [%]", "core material", "bare frame"],
    listed.map((wheel) => [wheel.id, wheel.radiusM * 1000, wheel.widthM * 1000, wheel.massKg, wheel.lugs, wheel.lugHeightM * 1000, wheel.flexible ? "yes" : "no", wheel.description, wheel.spokeThicknessMm, wheel.coreFractionPercent, wheel.coreMaterial, wheel.bareFrame]),
  );
}

export function bedSheet(beds: readonly BedTruth[]): string {
  return sheet(
    ["bed", "density [kg/m3]", "moisture [%]", "target gradient [kPa/mm]", "remark"],
    beds.map((bed) => [bed.id, Math.round(bed.densityKgM3), Math.round(bed.moisturePercent * 100) / 100, targetGradient, "SK-2 (invented), loosened, levelled, twelve strokes"]),
  );
}

export function coneSheet(seed: number, beds: readonly BedTruth[]): string {
  const readings = beds.flatMap((bed) => coneReadings(seed, bed));
  return sheet(["bed", "position", "x [mm]", "y [mm]", "depth [mm]", "index [kPa]"], readings.map((reading) => [reading.bed, reading.position, reading.xMm, reading.yMm, reading.depthMm, Math.round(reading.indexKpa)]));
}

/** The scanned lanes, as `laneRows` gives them. */
export function surfaceSheet(rows: readonly (readonly [run: string, scan: string, positionMm: number, heightMm: number])[]): string {
  return sheet(["run", "scan", "position [mm]", "height [mm]"], rows);
}
