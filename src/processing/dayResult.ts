import type { Campaign, Obstacle, RunPlan } from "../campaign/campaign.ts";
import type { Issue } from "../core/errors.ts";
import type { Estimate } from "../core/estimate.ts";
import type { Finding } from "../core/finding.ts";
import type { Fit } from "../core/fit.ts";
import type { Measure } from "../core/measure.ts";
import type { Source, Step } from "../core/provenance.ts";
import type { Segment } from "../core/segment.ts";
import type { Unit } from "../core/units.ts";
import type { Ranking } from "./ranking.ts";
import type { FootprintPicture } from "./footprintPicture.ts";
import type { DropFits } from "./dropFitsResult.ts";
import type { EnduranceResult } from "./enduranceResult.ts";
import type { ConeProfile } from "./measures/coneMeanIndex.ts";
import type { LogSampling } from "./logSampling.ts";
import type { WheelSoilResult } from "./wheelSoilResult.ts";
import type { RepeatScatter } from "./repeatScatter.ts";
import type { ScatterShare } from "./scatterShare.ts";

/** go: use it. look: a person should look. repeat: run it again while the bed is there. excluded: by a person. unread: the input is wrong. */
export type RunVerdict = "go" | "look" | "repeat" | "excluded" | "unread";

/** What is left of a channel for drawing: thinned so that no peak is lost. */
export interface Trace {
  readonly channel: string;
  readonly label: string;
  readonly unit: Unit;
  readonly timesS: readonly number[];
  readonly values: readonly (number | null)[];
}

/** One logger's clock against the run's common clock: common = offset + (1 + ratePpm·1e-6)·own. */
export interface ClockAlignment {
  readonly logger: string;
  readonly method: string;
  readonly offset: Estimate<"s">;
  readonly ratePpm: { readonly value: number; readonly standardUncertainty: number | null };
}

/** The pull coefficient under other choices of window, to show what the choice matters. */
export interface WindowChoice {
  readonly label: string;
  readonly fromS: number;
  readonly toS: number;
  readonly pullCoefficient: number;
}

/** One side of a drawn curve. */
export interface CurveSide {
  readonly label: string;
  readonly unit: Unit;
  readonly values: readonly (number | null)[];
}

/** A result of one run that is a curve and no number: a loop, a spectrum, energies bounce by bounce. Thinned for drawing. */
export interface Curve {
  /** camelCase, stable: the key in results.json */
  readonly name: string;
  readonly x: CurveSide;
  readonly y: CurveSide;
  /** standard uncertainty of each y; null = not determined for the curve */
  readonly yUncertainty: readonly number[] | null;
  /** how it came about */
  readonly method: string;
}

export interface RunResult {
  readonly plan: RunPlan;
  readonly verdict: RunVerdict;
  /** why, in plain words; the worst first */
  readonly reasons: readonly string[];
  readonly measures: readonly Measure[];
  readonly curves: readonly Curve[];
  /** fits of this run alone: a plate curve, a shear curve, a free decay */
  readonly fits: readonly Fit[];
  readonly findings: readonly Finding[];
  readonly issues: readonly Issue[];
  readonly segments: readonly Segment[];
  readonly traces: readonly Trace[];
  readonly sampling: readonly LogSampling[];
  readonly alignments: readonly ClockAlignment[];
  readonly windowChoices: readonly WindowChoice[];
  /** only of a footprint */
  readonly picture: FootprintPicture | null;
  readonly sources: readonly Source[];
  readonly steps: readonly Step[];
}

/** A fitted curve drawn for people: value and 95 % band at chosen abscissae. */
export interface Band {
  readonly x: readonly number[];
  readonly value: readonly number[];
  readonly low: readonly number[];
  readonly high: readonly number[];
}

/** Forms a curve over slip may take; see `slipShape`. */
export type SlipShapeName = "saturating" | "saturatingFall" | "monotone";

/** A fitted curve over slip, and the form that reads it. Slip positive when driven, minus the skid when braked. */
export interface SlipCurve {
  readonly shape: SlipShapeName;
  /** slips of the monotone form's knots; the other forms have none */
  readonly knots: readonly number[];
  readonly fit: Fit;
}

/** A form that was tried on the same runs. */
export interface CurveCandidate extends SlipCurve {
  /** root mean square error at the inner slips, each left out in turn and read from the rest; null = could not be worked out */
  readonly heldOutError: number | null;
  /** foretells as well as the best form, as far as these runs can tell, or could not be tried: its readings count in the doubt of the form */
  readonly comparable: boolean;
  readonly chosen: boolean;
}

/** Pull coefficient against driven slip of one wheel at one load in one pass, and what is read from it. */
export interface PullCurve extends SlipCurve {
  readonly wheel: string;
  readonly setLoadN: number;
  /** how often this ground had been driven over, this time included */
  readonly pass: number;
  /** every form that was tried */
  readonly candidates: readonly CurveCandidate[];
  /** why this form */
  readonly choice: string;
  /** null when nothing could be fitted */
  readonly scatter: ScatterShare | null;
  /** at any one slip the curve lies inside with 95 %; null when the fit is undetermined */
  readonly band: Band | null;
  /** the whole curve at once lies inside with 95 % */
  readonly simultaneousBand: Band | null;
  readonly atSlip: readonly { readonly slip: number; readonly estimate: Estimate<"1"> }[];
  /** slip at which the pull coefficient is reached */
  readonly atPull: readonly { readonly pull: number; readonly estimate: Estimate<"1"> }[];
  /** gross traction ratio against driven slip */
  readonly grossTraction: SlipCurve & { readonly band: Band | null };
  readonly bestEfficiency: { readonly efficiency: Estimate<"1">; readonly slip: Estimate<"1"> };
  /** driven and braked runs on one curve each; null when no braked run counts */
  readonly bothSigns: { readonly pull: SlipCurve & { readonly band: Band | null }; readonly grossTraction: SlipCurve & { readonly band: Band | null } } | null;
  /** slip at no pull */
  readonly selfPropelled: Estimate<"1">;
  /** slip and pull coefficient at no torque */
  readonly towed: { readonly slip: Estimate<"1">; readonly pull: Estimate<"1"> };
}

/** What the bed's firmness or the speed does to the pull coefficient of one wheel, beside slip and load. */
export interface CovariateEffect {
  readonly wheel: string;
  readonly covariate: "coneGradient" | "speed";
  /** change of the pull coefficient per 10 % of cone index gradient, or per doubling of the speed */
  readonly estimate: Estimate<"1">;
  readonly runs: readonly string[];
  /** mean gradient [Pa/m], or geometric mean speed [m/s], of those runs */
  readonly middle: number;
}

/** Scatter between repeats of the same condition, pooled over all conditions that have repeats. */
export interface Repeatability {
  readonly measure: string;
  readonly unit: Unit;
  readonly pooledSd: number | null;
  readonly degreesOfFreedom: number;
  readonly conditions: readonly { readonly wheel: string; readonly condition: string; readonly runs: readonly string[]; readonly mean: number; readonly sd: number | null; /** as conditions of this size scatter on the day; null = nothing was repeated */ readonly scatter: RepeatScatter | null; /** the mean with its uncertainty: scatter between repeats, and what the runs share */ readonly estimate: Estimate }[];
}

/** Rolling radius of one wheel at one load, from its hard-floor runs. */
export interface RollingRadius {
  readonly wheel: string;
  readonly loadN: number;
  readonly runs: readonly string[];
  readonly estimate: Estimate<"m">;
}

/** Load against deflection of one wheel on a hard plate. */
export interface DeflectionCurve {
  readonly wheel: string;
  readonly runs: readonly string[];
  readonly loadN: readonly number[];
  readonly deflectionM: readonly number[];
  /** standard uncertainty of each deflection */
  readonly uncertaintyM: readonly number[];
}

/** A bed's cone gradient against its target. */
export type Acceptance = "accepted" | "look" | "rejected" | "no target" | "not determined";

/** What the cone says of one bed. */
export interface ConeBed {
  readonly bed: string;
  readonly acceptance: Acceptance;
  readonly gradient: Estimate<"Pa/m">;
  /** mean over the stated range of depths */
  readonly index: Estimate<"Pa">;
  /** those that reach that range */
  readonly profiles: readonly ConeProfile[];
  readonly findings: readonly Finding[];
}

/** A measure round one wheel, from load–deflection runs at several contact angles. */
export interface Circumference {
  readonly wheel: string;
  readonly setLoadN: number | null;
  readonly measure: string;
  readonly runs: readonly string[];
  readonly mean: Estimate;
  /** greatest less least */
  readonly range: Estimate;
  /** of one wave a turn */
  readonly amplitude: Estimate;
  readonly fit: Fit;
  /** the fitted wave over a turn, for drawing; empty without a fit */
  readonly wave: readonly { readonly angleRad: number; readonly value: number }[];
}

/** What a core adds: a wheel with it less its bare frame, at one set load. */
export interface CoreDifference {
  readonly wheel: string;
  readonly frame: string;
  /** null = the two have no set load in common */
  readonly setLoadN: number | null;
  readonly runs: readonly string[];
  readonly differences: readonly { readonly measure: string; readonly label: string; readonly withCore: Estimate; readonly bare: Estimate; readonly core: Estimate }[];
}

/** A wheel's footprint on uneven ground against its own on flat ground. */
export interface Conformity {
  readonly wheel: string;
  readonly setLoadN: number;
  readonly from: "pad" | "image";
  readonly ground: "step" | "rock";
  readonly runs: readonly string[];
  /** of the conformity indices, and of the contact areas */
  readonly index: Estimate<"1">;
  readonly area: Estimate<"1">;
}

/** Chance of getting over an obstacle against its height, of one wheel at one kind of edge. */
export interface ClimbCurve {
  readonly wheel: string;
  readonly edge: Obstacle["edge"];
  readonly runs: readonly string[];
  readonly climbed: number;
  readonly failed: number;
  readonly fit: Fit;
  /** low and high: 95 % interval of the profile likelihood; null = the trials set no bound there */
  readonly heights: readonly { readonly chance: number; readonly estimate: Estimate<"m">; readonly low: number | null; readonly high: number | null }[];
  /** friction a lone rigid wheel would need at the height for 50 % */
  readonly frictionAtHalf: Estimate<"1">;
  /** height that a lone rigid wheel climbs with the stated friction */
  readonly heightByFriction: Estimate<"m">;
  readonly band: Band | null;
}

export interface SoilResult {
  /** k_c, k_φ, n over all plates; undetermined when the plates do not allow the split */
  readonly pressureSinkage: Fit | null;
  /** one power-law fit per plate width (all its repeats) */
  readonly plateWidths: readonly { readonly widthM: number; readonly runs: readonly string[]; readonly fit: Fit; readonly band: Band | null }[];
  /** cohesion and friction angle */
  readonly shearStrength: Fit | null;
  /** 95 % joint region of cohesion [Pa] and friction angle [rad], as a closed outline */
  readonly jointRegion: readonly (readonly [number, number])[];
  /** shear modulus K by normal stress */
  readonly shearCurves: readonly { readonly normalStressPa: number; readonly runs: readonly string[]; readonly fit: Fit }[];
}

/** Everything that a day gave. */
export interface DayResult {
  readonly campaign: Campaign;
  readonly runs: readonly RunResult[];
  readonly rollingRadii: readonly RollingRadius[];
  readonly deflections: readonly DeflectionCurve[];
  readonly circumferences: readonly Circumference[];
  readonly coreDifferences: readonly CoreDifference[];
  readonly conformity: readonly Conformity[];
  readonly climbCurves: readonly ClimbCurve[];
  readonly pullCurves: readonly PullCurve[];
  readonly dropFits: readonly DropFits[];
  /** null = neither inspections nor endurance runs */
  readonly endurance: EnduranceResult | null;
  readonly covariateEffects: readonly CovariateEffect[];
  readonly repeatability: readonly Repeatability[];
  /** which wheel, and how sure */
  readonly rankings: readonly Ranking[];
  readonly soil: SoilResult;
  /** the soil as the wheels felt it; null = not asked for */
  readonly wheelSoil: WheelSoilResult | null;
  readonly cones: readonly ConeBed[];
  /** whether beds became firmer or softer through the day, by their gradient and by their mean index; null with fewer than two */
  readonly coneTrend: Fit | null;
  readonly coneIndexTrend: Fit | null;
  /** findings that concern the day, not one run */
  readonly findings: readonly Finding[];
  /** log files in the day folder that no run on the sheet claims */
  readonly unclaimedFiles: readonly string[];
  readonly drawbarVersion: string;
}
