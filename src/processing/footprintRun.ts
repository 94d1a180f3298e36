import type { RunPlan, WheelRecord } from "../campaign/campaign.ts";
import type { Rig } from "../campaign/rigSchema.ts";
import { logPath } from "../campaign/logPath.ts";
import { combine, estimateFrom, undetermined } from "../core/estimate.ts";
import type { BudgetRow, Estimate } from "../core/estimate.ts";
import { InputError } from "../core/errors.ts";
import { finding } from "../core/finding.ts";
import type { Finding } from "../core/finding.ts";
import type { Measure } from "../core/measure.ts";
import type { Source } from "../core/provenance.ts";
import { contactChord } from "./measures/contactChord.ts";
import { contactAt, footprintLogger, padGrid, photoGrid } from "./footprintGrid.ts";
import type { FootprintGrid, PadDescription } from "./footprintGrid.ts";
import { footprintPicture } from "./footprintPicture.ts";
import type { FootprintPicture } from "./footprintPicture.ts";
import { contactPatch } from "./measures/contactPatch.ts";
import type { ContactMask, ContactPatch } from "./measures/contactPatch.ts";
import { countedArea, innerCorners } from "./measures/countedArea.ts";
import { fromDetermined } from "./measures/fromDetermined.ts";
import { recordedRadius } from "./measures/loadedRadius.ts";
import type { ReadTable } from "./prepareRun.ts";
import { deflectionOf } from "./references.ts";
import type { References } from "./references.ts";

/** What one footprint gives. */
export interface ReducedFootprint {
  readonly measures: readonly Measure[];
  readonly findings: readonly Finding[];
  readonly picture: FootprintPicture;
  readonly source: Source;
}

/** A footprint from a pad's matrix or a photograph: area, pressures, length, and how much of its box bears. @throws InputError */
export async function reduceFootprintRun(plan: RunPlan, wheel: WheelRecord | null, rig: Rig, references: References, read: ReadTable): Promise<ReducedFootprint> {
  const from = plan.footprint?.from;
  const logger = footprintLogger(rig, plan);
  if (from === undefined || logger === null || wheel === null || plan.setLoadN === null) throw new InputError([{ code: "footprint-not-described", at: `run ${plan.id}`, message: `expected footprint: { ${from ?? "pad or image"}: … } in rig.yaml, and wheel and load on the sheet, found one of them missing`, hint: "Describe how the footprint was recorded" }]);
  const { kinds: _, ...options } = logger;
  const table = await read(logPath(logger, plan.sheetId), { ...options, grid: from === "pad" ? "text" : "image", columns: [] });
  const pad = from === "pad" ? (rig.footprint?.pad as PadDescription) : null;
  const image = rig.footprint?.image;
  const grid = pad !== null ? padGrid(table, pad) : photoGrid(table, image as NonNullable<typeof image>);
  const along = (pad ?? image)?.along ?? "rows";
  const mask = contactAt(grid);
  const patch = contactPatch(mask);
  const of = { plan, wheel, grid, mask, patch, along, loadN: plan.setLoadN };
  const area = contactArea(of);
  const force = pad === null ? null : padForce(of, pad);
  const length = contactLength(of);
  const measure = (name: string, label: string, estimate: Estimate): Measure => ({ name, label, estimate, segment: null });
  const setLoad = estimateFrom(plan.setLoadN, "N", "set load, taken as exact", []);
  const ratio = force === null ? null : fromDetermined([force], (sum = Number.NaN) => sum / (plan.setLoadN as number), "1", "pressure summed over the contact, over the set load");
  const photograph = "a photograph shows where a wheel touches, not how hard";
  const peak = pad === null ? undetermined("Pa", photograph) : peakPressure(of, pad);
  const meanPressure = fromDetermined([force ?? setLoad, area], (total = Number.NaN, a = Number.NaN) => total / a, "Pa", force === null ? "set load over contact area; the load is taken as exact" : "pressure summed over the contact, over its area");
  const measures = [
    measure("contactArea", "Contact area", area),
    measure("contactLength", "Contact length", length),
    measure("meanPressure", "Mean contact pressure", meanPressure),
    measure("peakPressure", "Peak contact pressure", peak),
    measure("peakOverMean", "Peak over mean pressure", pad === null ? undetermined("1", photograph) : fromDetermined([peak, meanPressure], (most = Number.NaN, usual = Number.NaN) => most / usual, "1", "ratio")),
    ...(force === null || ratio === null ? [] : [measure("footprintForce", "Force summed over the pad", force), measure("footprintForceRatio", "Force on the pad over set load", ratio)]),
    measure("conformityIndex", "Conformity index", fromDetermined([area, length], (a = Number.NaN, l = Number.NaN) => a / (l * wheel.widthM), "1", "contact area over contact length times width of the rim: the share of the footprint's box that bears")),
    ...(plan.footprint?.ground === "flat" ? [measure("contactLengthByDeflection", "Contact length by the deflection", chord(of, rig, references))] : []),
  ];
  return { measures, findings: [...findingsOf(of), ...loadFindings(ratio, rig, plan)], picture: footprintPicture(grid, mask, pad === null ? "1" : "Pa", along), source: table.source };
}

interface Footprint {
  readonly plan: RunPlan;
  readonly wheel: WheelRecord;
  readonly grid: FootprintGrid;
  readonly mask: ContactMask;
  readonly patch: ContactPatch;
  readonly along: "rows" | "columns";
  readonly loadN: number;
}

const cellArea = ({ cellM }: FootprintGrid): number => cellM[0] * cellM[1];
const row = (cause: string, effect: number, sharedBy: string | null = null): BudgetRow => ({ cause, effect, sharedBy, degreesOfFreedom: Infinity });
const noContact = "no cell is in contact at the declared threshold";

/** Area by the pad's corners or the photograph's pixels in contact; in doubt along the edge, by what the threshold hides, and twice by the cell's size. */
function contactArea({ plan, grid, mask, patch }: Footprint): Estimate<"m2"> {
  if (patch.cells === 0) return undetermined("m2", noContact);
  const a = cellArea(grid);
  const [higher, lower] = [grid.thresholdStep, -grid.thresholdStep].map((step) => contactAt(grid, step)) as [ContactMask, ContactMask];
  const counted = grid.fromFirstTouch ? countedArea(innerCorners(mask), innerCorners(higher)) : countedArea(mask, null);
  const value = (counted.points + counted.hidden) * a;
  if (value === 0) return undetermined("m2", "the contact is nowhere two cells wide; take a finer pad");
  const threshold = grid.fromFirstTouch ? counted.hiddenDoubt * a : ((contactPatch(higher).cells - contactPatch(lower).cells) * a) / 2 / Math.sqrt(3);
  const how = grid.fromFirstTouch ? `${counted.points} corners between cells in contact all round, about ${counted.hidden.toFixed(0)} more that the threshold hides,` : `${counted.points}`;
  return estimateFrom(value, "m2", `${grid.thresholdWords}, ${how} of ${(a * 1e6).toPrecision(3)} mm² each`, [
    row(`edge of the footprint within its cells, ${plan.id}`, counted.edgeDoubt * a),
    { ...row(`longest straight side of the footprint within its cells, ${plan.id}`, counted.longestSideDoubt * a), shape: "rectangular" },
    { ...row(`threshold of contact, ${plan.id}`, threshold), shape: "rectangular" },
    row("size of a cell of the footprint", 2 * grid.cellUncertainty * value, "size of a cell of the footprint"),
  ]);
}

/** A rim presses at least this share of the mean pressure where it covers the last cell of a pad. */
const rimPressure = 1 / 4;

/**
 * Extent along the travel; each end lies somewhere in its cell, in a pad's on average in the middle. A pad's cell that the rim only just
 * reaches stays below the threshold: anything from nothing up to threshold over rim pressure of a cell is hidden at either end.
 */
function contactLength({ plan, grid, mask, patch, along }: Footprint): Estimate<"m"> {
  if (patch.cells === 0) return undetermined("m", noContact);
  const cell = along === "rows" ? grid.cellM[0] : grid.cellM[1];
  const hidden = grid.fromFirstTouch ? Math.min(1, grid.threshold / (rimPressure * meanInContact(grid, mask))) : 0;
  // half of what may be hidden, at two ends
  const value = cell * ((along === "rows" ? patch.acrossColumns : patch.acrossRows) - (grid.fromFirstTouch ? 1 - hidden : 0));
  return estimateFrom(value, "m", `from the first to the last contact along the travel${grid.fromFirstTouch ? `, half a cell taken off at either end, ${(500 * cell * hidden).toFixed(2)} mm added there that a cell just reached may hide` : ""}${patch.specks === 0 ? "" : `, ${patch.specks} specks left out`}`, [
    row(`ends of the footprint within their cells, ${plan.id}`, cell / Math.sqrt(6)),
    { ...row(`ends hidden below the threshold, ${plan.id}`, (cell * hidden) / Math.sqrt(3)), shape: "rectangular" },
    row("size of a cell of the footprint", grid.cellUncertainty * value, "size of a cell of the footprint"),
  ]);
}

function meanInContact({ values }: FootprintGrid, { contact }: ContactMask): number {
  const touched = values.filter((_, i) => contact[i] === 1);
  return touched.reduce((sum, value) => sum + value, 0) / touched.length;
}

const padCause = (pad: PadDescription): string => `calibration ${pad.certificate}`;

function padForce({ grid, mask, patch }: Footprint, pad: PadDescription): Estimate<"N"> {
  if (patch.cells === 0) return undetermined("N", noContact);
  let sum = 0;
  for (let i = 0; i < mask.contact.length; i++) if (mask.contact[i] === 1) sum += (grid.values[i] as number) * cellArea(grid);
  return estimateFrom(sum, "N", "∫ p dA over the cells in contact", [row(padCause(pad), pad.relativeUncertainty * sum, padCause(pad)), row("size of a cell of the footprint", 2 * grid.cellUncertainty * sum, "size of a cell of the footprint")]);
}

function peakPressure({ grid, mask, patch }: Footprint, pad: PadDescription): Estimate<"Pa"> {
  if (patch.cells === 0) return undetermined("Pa", noContact);
  const most = grid.values.reduce((peak, value, i) => (mask.contact[i] === 1 && value > peak ? value : peak), 0);
  return estimateFrom(most, "Pa", `greatest cell, mean over its ${(cellArea(grid) * 1e6).toPrecision(3)} mm²: a finer pad reads higher`, [row(padCause(pad), pad.relativeUncertainty * most, padCause(pad))]);
}

function chord({ wheel, loadN }: Footprint, rig: Rig, references: References): Estimate<"m"> {
  const deflection = deflectionOf(wheel, loadN, references);
  if (deflection.standardUncertainty === null) return undetermined("m", deflection.method);
  return combine([recordedRadius(wheel, rig), deflection], (r = Number.NaN, d = Number.NaN) => contactChord(r, d), "m", "L = 2√(2Rδ − δ²) with the deflection from the press");
}

function findingsOf(of: Footprint): Finding[] {
  const { grid, patch } = of;
  const dead = grid.values.reduce((count, value) => count + (Number.isNaN(value) ? 1 : 0), 0);
  return [
    ...(patch.cells === 0 ? [finding("footprint-empty", "reject", `No contact was found (${grid.thresholdWords}). Look at the threshold, and whether contact is declared dark or light`)] : []),
    ...(patch.touchesEdge ? [finding("footprint-cut", "look", "The contact reaches the edge of the grid: part of the footprint may lie outside. Area and length are lower bounds; place the wheel in the middle")] : []),
    ...(dead > 0 ? [finding("dead-cells", "look", `${dead} cells give no reading and count as no contact. Look whether they lie in the footprint; mend the pad`, { measured: dead, limit: 0 })] : []),
    ...(grid.fromFirstTouch ? cutOff(of) : []),
  ];
}

/** so many cells at one greatest value, and so many times as many as at the next value, are no chance */
const alike = 5;

/** A pad that ends below the pressure: many cells show one greatest value, while of the next values hardly any shows twice. A coarse pad has as many at the next. */
function cutOff({ grid, mask }: Footprint): Finding[] {
  const touched = Array.from(grid.values).filter((_, i) => mask.contact[i] === 1);
  const greatest = touched.reduce((most, value) => Math.max(most, value), 0);
  const next = touched.reduce((most, value) => (value < greatest && value > most ? value : most), -Infinity);
  const count = (of: number): number => touched.filter((value) => value === of).length;
  const held = count(greatest);
  if (held < alike || count(next) === 0 || held < alike * count(next)) return [];
  return [finding("pad-cut-off", "reject", `${held} cells of the pad all read ${(greatest / 1000).toPrecision(3)} kPa, its greatest value, though hardly two of the others are alike: the pressure there was beyond the pad's range. Use a pad of a larger range or its lower gain, and repeat`, { measured: held, limit: alike })];
}

function loadFindings(ratio: Estimate<"1"> | null, rig: Rig, plan: RunPlan): Finding[] {
  if (ratio === null || !Number.isFinite(ratio.value)) return [];
  const off = ratio.value - 1;
  const { look, reject } = rig.tolerances.footprintLoad;
  // three times what the pad's certificate leaves open of a pad that reads right
  if (!(Math.abs(off) > Math.max(look, (3 * (ratio.standardUncertainty ?? 0)) / ratio.value))) return [];
  const severity = Math.abs(off) > reject ? "reject" : "look";
  return [finding("footprint-load", severity, `The pad's pressures add up to ${(100 * ratio.value).toFixed(0)} % of the set load of ${plan.setLoadN} N. Look at the load, calibrate the pad anew, and see that the whole footprint lies on it`, { measured: off, limit: severity === "reject" ? reject : look })];
}
