import { z } from "zod";

/** How the scans of surfaces.csv were made; without it they correct nothing. */
export const surfaceScanSchema = z
  .strictObject({
    relative: z.number().nonnegative().describe("standard uncertainty of a difference of heights, as a share of it"),
    offset: z.number().nonnegative().describe("standard uncertainty of the height of a whole scan, which the scans before and after a run do not share, e.g. from setting the scanner up again [m]"),
    slope: z.number().nonnegative().describe("standard uncertainty of the slope of a scan against the rails, as rise over length [1]; shared by every run"),
    date: z.iso.date().describe("a date as yyyy-mm-dd"),
    certificate: z.string().min(1).describe("number of the scanner's calibration record"),
  })
  .describe("the scanner behind surfaces.csv. Heights count upwards from the plane of the rails, positions on the scale of carriagePosition. With it pull and load are turned into the slope of the bed, and sinkage counts from the scanned surface");
