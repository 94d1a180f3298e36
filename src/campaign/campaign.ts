import type { Issue } from "../core/errors.ts";
import type { Unit } from "../core/units.ts";
import type { Rig, RunKind } from "./rigSchema.ts";
import type { Edge, Ground } from "./rowSchemas.ts";

/** A free column of a record: a construction factor, a note. Numbers keep the unit their heading gave. */
export type FreeColumns = Readonly<Record<string, { readonly value: number; readonly unit: Unit } | { readonly text: string }>>;

/** What a wheel was driven against. */
export interface Obstacle {
  readonly heightM: number;
  readonly edge: Edge;
  /** between wheel and edge; null = not stated */
  readonly friction: number | null;
  /** as a person saw it; null = nobody wrote it down */
  readonly climbed: boolean | null;
}

/** A point of a scanned surface; across = from the middle of the lane, null = in it. */
export interface SurfacePoint {
  readonly positionM: number;
  readonly acrossM: number | null;
  readonly heightM: number;
}

/** The surface of the lane before and after a run, points in order of their position; none = not scanned. */
export interface SurfaceScan {
  readonly before: readonly SurfacePoint[];
  readonly after: readonly SurfacePoint[];
}

/**
 * One row of the run sheet, in SI units. null = the cell was left empty, or could not be understood;
 * then an issue names the run. A run named by an issue is listed and never reduced.
 */
export interface RunPlan {
  /** unique within the day: the sheet's id; with the line added where that is empty, not allowed or used twice */
  readonly id: string;
  /** as typed; what log files are named after */
  readonly sheetId: string;
  /** null = not understood */
  readonly kind: RunKind | null;
  readonly wheel: string | null;
  readonly bed: string | null;
  readonly setLoadN: number | null;
  /** driven slip positive, skid negative */
  readonly setSlip: number | null;
  readonly setSpeedMps: number | null;
  readonly repeat: string | null;
  /** how often this ground has been driven over, this time included; null = not stated, taken for the first time */
  readonly pass: number | null;
  readonly block: string | null;
  readonly dropHeightM: number | null;
  readonly plate: { readonly shape: "circle" | "rectangle"; readonly widthM: number; readonly lengthM: number } | null;
  readonly shearAreaM2: number | null;
  readonly normalStressPa: number | null;
  /** which part of the wheel touched, as an angle round it from the wheel's mark; load–deflection runs */
  readonly contactAngleRad: number | null;
  readonly obstacle: Obstacle | null;
  readonly footprint: { readonly from: "pad" | "image"; readonly ground: Ground } | null;
  /** from surfaces.csv; absent = the lane was not scanned */
  readonly surface?: SurfaceScan;
  readonly remark: string;
  /** why a person excluded the run; null = not excluded */
  readonly excluded: string | null;
  /** line of the run sheet, counted from 1 */
  readonly line: number;
  readonly more: FreeColumns;
}

export interface WheelRecord {
  readonly id: string;
  /** unloaded, to the rim, without lugs */
  readonly radiusM: number;
  readonly widthM: number;
  readonly massKg: number;
  readonly lugs: number;
  readonly lugHeightM: number;
  readonly flexible: boolean;
  readonly description: string;
  /** the wheel that is this one without its core; null = none was named */
  readonly bareFrame: string | null;
  /** construction factors */
  readonly factors: FreeColumns;
  readonly line: number;
}

export interface BedRecord {
  readonly id: string;
  readonly densityKgM3: number | null;
  /** mass of water over mass of dry soil */
  readonly moisture: number | null;
  readonly targetGradientPaM: number | null;
  readonly remark: string;
  readonly more: FreeColumns;
  readonly line: number;
}

/** One cone reading of one profile. */
export interface ConeReading {
  readonly bed: string;
  readonly position: string;
  /** along the bed and across it; absent = not stated */
  readonly place?: { readonly xM: number; readonly yM: number };
  readonly depthM: number;
  readonly indexPa: number;
  readonly line: number;
}

/** A wheel as it was found during an endurance test; null = not written down. */
export interface InspectionRecord {
  readonly wheel: string;
  readonly distanceM: number;
  /** as weighed, with what stuck to it */
  readonly massKg: number | null;
  readonly soilMassKg: number | null;
  readonly cleanedMassKg: number | null;
  readonly radiusM: number | null;
  readonly stiffnessNm: number | null;
  readonly pullCoefficient: number | null;
  /** the run that measured the pull */
  readonly run: string | null;
  readonly brokenElements: number | null;
  readonly failed: boolean;
  readonly remark: string;
  readonly line: number;
}

/** A mistake in what people wrote; `run` names the one run it stops, null = it stops none by itself. */
export interface CampaignIssue extends Issue {
  readonly run: string | null;
}

/** Everything people wrote about the day, checked. */
export interface Campaign {
  readonly rig: Rig;
  readonly runs: readonly RunPlan[];
  readonly wheels: readonly WheelRecord[];
  readonly beds: readonly BedRecord[];
  readonly cones: readonly ConeReading[];
  readonly inspections: readonly InspectionRecord[];
  readonly issues: readonly CampaignIssue[];
  /** the written files themselves: name and sha256 */
  readonly files: readonly { readonly file: string; readonly sha256: string }[];
}
