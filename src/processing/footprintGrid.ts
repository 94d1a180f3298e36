import type { RunPlan } from "../campaign/campaign.ts";
import type { Logger, Rig } from "../campaign/rigSchema.ts";
import { convert } from "../core/units.ts";
import { significant } from "../core/significant.ts";
import { otsuThreshold } from "../numerics/otsuThreshold.ts";
import { mean } from "../numerics/statistics.ts";
import type { RawTable } from "../importers/contract.ts";
import type { ContactMask } from "./measures/contactPatch.ts";

export type PadDescription = NonNullable<NonNullable<Rig["footprint"]>["pad"]>;
export type ImageDescription = NonNullable<NonNullable<Rig["footprint"]>["image"]>;

/** A footprint as read: values row by row, pressures in Pa or brightness, and the size of a cell along and across its row. */
export interface FootprintGrid {
  readonly rows: number;
  readonly columns: number;
  readonly values: Float64Array;
  readonly cellM: readonly [alongRow: number, acrossRows: number];
  readonly cellUncertainty: number;
  /** lowest or highest value in contact, and how far it is moved to see what hangs on it */
  readonly threshold: number;
  readonly thresholdStep: number;
  readonly thresholdWords: string;
  readonly above: boolean;
  /** a cell counts as soon as a part of it is touched, as a pad's do; a pixel counts when half of it is */
  readonly fromFirstTouch: boolean;
}

/** How the file of a footprint is read: a logger without a clock. */
export function footprintLogger(rig: Rig, plan: RunPlan): Logger | null {
  const from = plan.footprint?.from;
  const described = from === undefined ? undefined : rig.footprint?.[from];
  if (described === undefined) return null;
  const text = "delimiter" in described ? { delimiter: described.delimiter, decimal: described.decimal, missing: described.missing, ...(described.encoding === undefined ? {} : { encoding: described.encoding }) } : { missing: [] };
  return { files: described.files, kinds: ["footprint"], clock: { kind: "rate", rateHz: 1 }, channels: {}, overload: [], ...text };
}

function valuesOf(table: RawTable, change: (value: number) => number): Pick<FootprintGrid, "rows" | "columns" | "values"> {
  const columns = table.columns.length;
  const rows = table.timesS.length;
  const values = new Float64Array(rows * columns);
  table.columns.forEach(({ samples }, column) => {
    for (let row = 0; row < rows; row++) values[row * columns + column] = change(samples[row] as number);
  });
  return { rows, columns, values };
}

/** A pad's matrix in Pa; contact is what reads more than declared, and four times that level shows what lies hidden below it. */
export function padGrid(table: RawTable, pad: PadDescription): FootprintGrid {
  return {
    ...valuesOf(table, (value) => convert(value, pad.unit, "Pa")),
    cellM: pad.cell,
    cellUncertainty: pad.cellUncertainty,
    threshold: pad.contactAbove,
    thresholdStep: 3 * pad.contactAbove,
    thresholdWords: `cells above ${significant(pad.contactAbove, 3)} Pa`,
    above: true,
    fromFirstTouch: true,
  };
}

/** A photograph's brightness; a tenth of the contrast between contact and the rest shows what hangs on the threshold. */
export function photoGrid(table: RawTable, image: ImageDescription): FootprintGrid {
  const read = valuesOf(table, (value) => value);
  const threshold = image.threshold === "otsu" ? otsuThreshold(read.values) : image.threshold;
  const darker = read.values.filter((value) => value <= threshold);
  const lighter = read.values.filter((value) => value > threshold);
  const contrast = darker.length === 0 || lighter.length === 0 ? 0 : mean(lighter) - mean(darker);
  return {
    ...read,
    cellM: [image.pixel, image.pixel],
    cellUncertainty: image.pixelUncertainty,
    threshold,
    thresholdStep: 0.1 * contrast,
    thresholdWords: `pixels ${image.contact === "dark" ? "darker" : "lighter"} than ${threshold.toPrecision(4)} of 255${image.threshold === "otsu" ? ", found by Otsu's method" : ""}`,
    above: image.contact === "light",
    fromFirstTouch: false,
  };
}

/** Which cells are in contact, with the threshold moved by so much; dead cells are not. */
export function contactAt(grid: FootprintGrid, moved = 0): ContactMask {
  const level = grid.threshold + moved;
  const contact = Uint8Array.from(grid.values, (value) => (!Number.isNaN(value) && value > level === grid.above ? 1 : 0));
  return { rows: grid.rows, columns: grid.columns, contact };
}
