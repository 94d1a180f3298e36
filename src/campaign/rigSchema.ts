import { z } from "zod";
import { parseUnit, units } from "../core/units.ts";
import type { Unit } from "../core/units.ts";
import { enduranceSchema } from "./enduranceSchema.ts";
import { hangingPullSchema, inertiaSchema, offLoadSchema, tareSchema } from "./loadPathSchema.ts";
import { surfaceScanSchema } from "./surfaceSchema.ts";
import { tolerancesSchema } from "./tolerances.ts";

export const runKinds = ["traction", "hardFloor", "freeSpin", "plate", "shear", "drop", "loadDeflection", "sweep", "obstacle", "footprint", "endurance"] as const;
export type RunKind = (typeof runKinds)[number];

const unitNames = Object.keys(units) as [Unit, ...Unit[]];
/** Spellings are accepted on reading; the published schema lists the units' own names. */
export const unit = z.preprocess((value) => (typeof value === "string" ? (parseUnit(value) ?? value) : value), z.enum(unitNames)).describe("a unit drawbar knows, e.g. N, kN, mm, mV/V, count");

const isoDate = z.iso.date().describe("a date as yyyy-mm-dd");

const uncertainty = z.strictObject({
  relative: z.number().nonnegative().describe("standard uncertainty of the gain, as a share of the reading; shared by every run on this calibration"),
  offset: z.number().nonnegative().describe("standard uncertainty of the offset, in the unit after calibration; shared by the whole run, removed by zeroing"),
});

const supply = {
  excitation: z.number().positive().optional().describe("supply of the bridge [V]; only where the file holds volts instead of mV/V"),
  amplification: z.number().positive().optional().describe("output of the amplifier over output of the bridge, 1 if there is none; only where the file holds volts instead of mV/V"),
};

const calibration = z.strictObject({
  gives: unit.describe("unit after calibration"),
  gain: z.number().optional().describe("straight line: reading × gain + offset; gain in `gives` per file unit"),
  offset: z.number().optional().describe("straight line: added after the gain, in `gives`"),
  polynomial: z.array(z.number()).min(2).optional().describe("coefficients c0, c1, c2 …: c0 + c1·x + c2·x² …, x in the file's unit"),
  table: z.array(z.tuple([z.number(), z.number()])).min(2).optional().describe("pairs [reading, value], rising readings; straight lines between, nothing beyond"),
  sensitivity: z
    .strictObject({ output: z.number().describe("output of the bridge at the rated load [mV/V], sign as on the certificate"), load: z.number().positive().describe("the rated load, in `gives`"), ...supply })
    .optional()
    .describe("bridge by its rated output: load × reading / output; its output at no load is left to the zero"),
  strainGauge: z
    .strictObject({ gaugeFactor: z.number().positive().describe("k on the gauges' packet: relative change of resistance over strain"), bridge: z.enum(["quarter", "half", "full"]).describe("quarter: one gauge; half: two, one stretched as much as the other is shortened; full: four, two and two"), ...supply })
    .optional()
    .describe("strain from a bridge of gauges; gives um/m or m/m"),
  date: isoDate,
  certificate: z.string().min(1).describe("number of the calibration certificate or record; names what runs share"),
});

export const channelSchema = z.strictObject({
  column: z.string().min(1).describe("column heading in the logger's file, as written there (without a unit in brackets; a unit after a line, as in Fx_N, belongs to the name: column: Fx_N, unit: N); the path of a dataset or of a message's field, e.g. forces/Fx or wrench.force.x"),
  unit: unit.describe("unit of the numbers in the file"),
  sign: z.literal([1, -1]).optional().describe("1 = the column grows in drawbar's positive direction; needed for every quantity that has one"),
  calibration: calibration.optional(),
  massAsForce: z.enum(["standardGravity", "localGravity"]).optional().describe("a force read from a scale in kg, g, lb or oz. standardGravity: the scale means kgf, gf, lbf, ozf (× 9.80665 m/s²); localGravity: it was adjusted with masses in this laboratory (× gravity)"),
  uncertainty: uncertainty.optional(),
  range: z.tuple([z.number(), z.number()]).optional().describe("lowest and highest value the sensor can give, in the unit after calibration"),
  extra: z.literal(true).optional().describe("a channel drawbar does not compute with; carried to the report"),
});

const dateApart = {
  dateColumn: z.string().min(1).optional().describe("only if the stamps carry the time of day alone: the column that holds the date"),
  dateLabel: z.string().min(1).optional().describe("only if the stamps carry the time of day alone: name of the line before the header, or of the attribute or text beside the numbers, that holds the date of the first row"),
  startDate: isoDate.optional().describe("only if the stamps carry the time of day alone and no line or column tells the date: the date of the first row, as yyyy-mm-dd"),
  dateFormat: z.string().min(1).optional().describe("layout of dateColumn or dateLabel in luxon tokens, e.g. dd.MM.yyyy; left out where a column stores dates as such, as workbooks, Parquet and Arrow files do"),
};

const clock = z.discriminatedUnion("kind", [
  z.strictObject({ kind: z.literal("elapsed"), column: z.string().min(1), unit: z.enum(["s", "ms", "us", "min", "h", "d"]).describe("unit of elapsed time") }),
  z.strictObject({
    kind: z.literal("wall"),
    column: z.string().min(1),
    format: z.string().min(1).describe("the stamp's layout in luxon tokens, e.g. dd.MM.yyyy HH:mm:ss,SSS"),
    zone: z.string().min(1).describe("IANA zone, e.g. UTC or Europe/Oslo"),
    ...dateApart,
  }),
  z.strictObject({
    kind: z.literal("serial").describe("days as spreadsheets count them, the time of day being the fraction, e.g. 46296.3333"),
    column: z.string().min(1),
    epoch: z.literal([1900, 1904]).describe("1900: day 46296 is 1 October 2026; 1904: day 44834 is"),
    zone: z.string().min(1).describe("the zone the logger's clock was set to, e.g. UTC or Europe/Oslo"),
  }),
  z.strictObject({ kind: z.literal("iso"), column: z.string().min(1), zone: z.string().optional().describe("only if the stamps carry no offset themselves") }),
  z.strictObject({ kind: z.literal("rate"), rateHz: z.number().positive().describe("samples per second, when the file has no time column") }),
  z.strictObject({
    kind: z.literal("stamp").describe("time stamps that the file stores as such: a workbook's date cells, Parquet and Arrow time stamps; or their times of day, with the date apart"),
    column: z.string().min(1),
    zone: z.string().min(1).optional().describe("the zone the logger's clock was set to, e.g. Europe/Oslo; only if the stamps are not in UTC themselves"),
    ...dateApart,
  }),
  z.strictObject({
    kind: z.literal("message").describe("the stamps of recorded messages (MCAP)"),
    stamp: z.enum(["header", "log", "publish"]).describe("header: as the sensor's driver stamped the message; log: when it was recorded; publish: when it was sent"),
    epoch: z.enum(["unix", "boot"]).describe("unix: the clock counts from 1970; boot: it counts from a computer's start, so the date is unknown"),
  }),
]);

const logger = z.strictObject({
  files: z.string().min(1).describe("path inside the day folder; {run} stands for the run's id"),
  kinds: z.array(z.enum(runKinds)).min(1).describe("kinds of run this logger records"),
  encoding: z.enum(["utf-8", "utf-16le", "utf-16be", "latin1"]).optional(),
  delimiter: z.enum([",", ";", "\t", "|", " "]).optional(),
  decimal: z.enum([".", ","]).optional(),
  thousands: z.enum([",", ".", "'", " "]).optional().describe("mark between groups of three digits, as in 1,234.5; refused unless declared here"),
  headerLine: z.number().int().nonnegative().optional().describe("line of the column headings, counted from 1; 0 = the file has none: its columns are then called \"#1\", \"#2\" … from the left, in quotation marks since # begins a remark in YAML"),
  unitLine: z.number().int().positive().optional().describe("line of the units, counted from 1, if they have one of their own"),
  part: z.string().min(1).optional().describe("one part of a file that has several: a workbook's sheet, a group of an HDF5 or MAT file, a topic of an MCAP file; columns are then named within it"),
  storedGain: z.enum(["multiply", "divide", "ignore"]).optional().describe("what to do with a gain that an HDF5 file states beside a column: multiply = reading × gain + offset; divide = (reading − offset) / gain; ignore = take the bare number"),
  missing: z.array(z.string()).default([]).describe("marks that stand for a missing value, beside empty cells"),
  overload: z.array(z.string()).default([]).describe("marks that stand for an overloaded sensor"),
  runLabel: z.string().optional().describe("name of the line before the header that repeats the run's id"),
  clock,
  channels: z.record(z.string(), channelSchema).describe("one entry a column drawbar uses; the name says which quantity it is"),
});

const sixAxisOutputs = ["forceX", "forceY", "forceZ", "momentX", "momentY", "momentZ"] as const;

const sixAxis = z.strictObject({
  logger: z.string(),
  matrix: z.array(z.array(z.number()).length(6)).length(6).describe("rows forceX, forceY, forceZ [N], momentX, momentY, momentZ [N·m] per mV/V of bridge1 … bridge6"),
  relativeUncertainty: z.number().nonnegative(),
  offsetUncertainty: z.number().nonnegative().describe("[N] and [N·m]"),
  date: isoDate,
  certificate: z.string().min(1),
  range: z.array(z.number().positive()).length(6).describe("full scale of the six outputs [N, N, N, N·m, N·m, N·m]"),
  bridgeRange: z.number().positive().optional().describe("reading at which a bridge's amplifier ends, either side [mV/V]"),
  gives: z
    .partialRecord(z.enum(["drawbarPull", "sideForce", "verticalLoad", "wheelTorque"]), z.strictObject({ output: z.enum(sixAxisOutputs), sign: z.literal([1, -1]) }))
    .describe("which output is which quantity, and whether it grows in the same direction"),
});

const trigger = z.strictObject({
  channel: z.string().optional().describe("channel of this logger that carries the trigger"),
  level: z.number().optional().describe("a trigger is an edge through this level, in the channel's SI unit after calibration"),
  edge: z.enum(["rising", "falling"]).optional(),
  atS: z.array(z.number()).min(1).optional().describe("times of the trigger on this logger's own clock [s], in order, e.g. [0] for a logger that starts on it"),
  uncertaintyS: z.number().positive().optional().describe("standard uncertainty of atS [s], e.g. the logger's delay from trigger to first sample over √3"),
});

const gridFile = {
  files: z.string().min(1).describe("path inside the day folder; {run} stands for the run's id"),
  along: z.enum(["rows", "columns"]).describe("which way the wheel rolls: rows = along the lines of the grid, left to right or back; columns = up and down"),
};

const footprint = z
  .strictObject({
    pad: z
      .strictObject({
        ...gridFile,
        delimiter: z.enum([",", ";", "\t", "|", " "]).describe("between the numbers of the matrix"),
        decimal: z.enum([".", ","]),
        encoding: z.enum(["utf-8", "utf-16le", "utf-16be", "latin1"]).optional(),
        missing: z.array(z.string()).default([]).describe("marks of dead cells"),
        unit: unit.describe("unit of the numbers, a pressure"),
        cell: z.tuple([z.number().positive(), z.number().positive()]).describe("size of a cell along its row, and across the rows [m]"),
        cellUncertainty: z.number().nonnegative().describe("standard uncertainty of the cell's size, as a share"),
        contactAbove: z.number().positive().describe("a cell that reads more is in contact [Pa]; a reading's noise lies below"),
        relativeUncertainty: z.number().nonnegative().describe("standard uncertainty of the pad's calibration, as a share of the pressure"),
        date: isoDate,
        certificate: z.string().min(1).describe("number of the calibration record"),
      })
      .optional()
      .describe("a pressure pad that writes a matrix of pressures as text"),
    image: z
      .strictObject({
        ...gridFile,
        pixel: z.number().positive().describe("size of a pixel on the ground [m]"),
        pixelUncertainty: z.number().nonnegative().describe("standard uncertainty of that size, as a share"),
        contact: z.enum(["dark", "light"]).describe("whether contact is darker or lighter than the rest"),
        threshold: z.union([z.number().gt(0).lt(255), z.literal("otsu")]).describe("brightness, 0 to 255, that parts contact from the rest; otsu = the level that parts the brightnesses best (Otsu's method)"),
      })
      .optional()
      .describe("a photograph of a print, PNG or JPEG, seen at right angles"),
  })
  .describe("how footprints are recorded");

export const rigSchema = z.strictObject({
  rig: z.string().min(1).describe("name of the rig"),
  laboratory: z.string().optional(),
  gravity: z.number().positive().describe("gravity at the laboratory [m/s²]"),
  slipRadius: z
    .strictObject({
      policy: z.enum(["unloaded", "loaded", "effective"]).describe("unloaded: as measured on the wheel; loaded: less the deflection at that load; effective: from a hard-floor run at that load"),
      lugs: z.enum(["with", "without"]).describe("whether the radius reaches to the lugs' tips"),
      uncertainty: z.number().nonnegative().optional().describe("standard uncertainty of a radius taken from the wheel record [m]"),
    })
    .describe("which radius slip is counted from; there is no default"),
  zero: z
    .strictObject({
      state: z.enum(["wheelLifted", "sensorBare"]).describe("how the sensor hangs during the zero blocks: with wheel and hub, or with nothing below it"),
      beforeS: z.number().positive().describe("length of the zero block at the start of each log [s]"),
      afterS: z.number().positive().describe("length of the zero block at the end of each log [s]"),
    })
    .optional(),
  trials: z.boolean().optional().describe("true: what a run's results are worked out from others by a formula (slip, ratios, efficiency, restitution, energies, damping …) is also worked out by seeded trials (JCGM 101), and the method says where the linear interval does not hold; takes seconds a run"),
  massBelowSensor: z.number().nonnegative().optional().describe("hub, motor and whatever else hangs below the sensor, the wheel itself excepted [kg]"),
  loggers: z.record(z.string(), logger).describe("one entry a logger; the name is yours"),
  encoder: z
    .strictObject({
      countsPerRevolution: z.number().positive().describe("counts per revolution of the encoder shaft, edges included"),
      gear: z.number().positive().describe("revolutions of the encoder shaft per revolution of the wheel"),
      rollover: z.number().positive().nullable().describe("the counter's modulus, e.g. 65536; null if it never rolls over"),
    })
    .optional(),
  sixAxis: sixAxis.optional(),
  carriageFriction: z
    .array(z.strictObject({ speed: z.number().nonnegative().describe("[m/s]"), forward: z.number().describe("pull reading while the carriage is towed empty forwards [N]"), reverse: z.number().describe("the same backwards [N]"), uncertainty: z.number().nonnegative() }))
    .optional()
    .describe("only where the pull sensor sits on the carriage's side and so reads its friction; subtracted"),
  tare: tareSchema.optional(),
  inertia: inertiaSchema.optional(),
  offLoad: offLoadSchema.optional(),
  hangingPull: hangingPullSchema.optional(),
  surfaceScan: surfaceScanSchema.optional(),
  alignment: z
    .discriminatedUnion("method", [
      z.strictObject({ method: z.literal("sharedEvents"), reference: z.string(), channel: z.string(), level: z.number().describe("an event is a rise through this level, in the channel's unit after calibration") }),
      z.strictObject({ method: z.literal("commonChannel"), reference: z.string(), channel: z.string() }),
      z.strictObject({
        method: z.literal("trigger"),
        reference: z.string(),
        triggers: z
          .record(z.string(), trigger)
          .describe("one entry a logger: the edge on its trigger line, or the times of the trigger on its own clock where it is started by the trigger"),
        rateBoundPpm: z.number().positive().optional().describe("how far the clocks' rates may differ, either way [ppm], e.g. from their data sheets; needed where a run has one trigger, which says nothing of the rate"),
      }),
    ])
    .optional()
    .describe("how the clocks of two loggers are brought together; needed where a kind of run has two"),
  drop: z
    .strictObject({
      filterClass: z.literal([60, 180, 600, 1000]).describe("channel frequency class of the two-pass filter"),
      filterStandard: z.enum(["SAE J211", "ISO 6487"]).describe("the two differ in the corner frequency: 2.0775 or 25/12 times the class"),
      restS: z.number().positive().describe("length of the rest before release [s]"),
      carriageMass: z.number().nonnegative().describe("what falls beside the wheel [kg]"),
      massUncertainty: z.number().nonnegative().optional().describe("standard uncertainty of what falls, wheel included, as the contact feels it: weighing, and the part of the wheel that rests on the ground while the hub is braked [kg]; without it forces and energies of a drop have no uncertainty"),
      shockSpectrum: z
        .strictObject({
          dampingRatio: z.number().positive().lt(1).describe("damping ratio of the oscillators; 0.05 is Q = 10"),
          fromHz: z.number().positive().describe("lowest natural frequency [Hz]"),
          toHz: z.number().positive().describe("highest natural frequency [Hz]; the filter's class and a tenth of the sampling rate may cut it"),
        })
        .optional()
        .describe("shock response spectrum of the first contact; without it there is none"),
      predict: z
        .array(z.strictObject({ height: z.number().positive().describe("drop height [m]"), gravity: z.number().positive().describe("gravity there [m/s²]") }))
        .optional()
        .describe("drops that were not made, e.g. from another height or on another body; each wheel's fitted contact says what they would give, with its band"),
      heightUncertainty: z.number().nonnegative().optional().describe("standard uncertainty of a drop height as set on the run sheet [m]; without it nothing computed from the set height has an uncertainty"),
    })
    .optional(),
  footprint: footprint.optional(),
  endurance: enduranceSchema.optional(),
  soil: z
    .strictObject({
      circularPlateWidth: z.enum(["radius", "diameter"]).describe("what b means for a circular plate; k_c differs twofold"),
      wheelModel: z
        .strictObject({
          plateTransfer: z.number().positive().optional().describe("standard uncertainty of ln p when a plate's pressure is taken for a wheel's, e.g. 0.3; without it plates say nothing of the soil under wheels"),
          shearTransfer: z.number().positive().optional().describe("standard uncertainty of the friction angle when shear runs' is taken for a wheel's [deg]; without it shear runs say nothing of the soil under wheels"),
          robust: z.boolean().optional().describe("points far from the model count less, by Student's t of four degrees of freedom; each point's weight is listed. Without it all count as their uncertainty says"),
          bootstrap: z.number().int().min(20).max(10_000).optional().describe("refits to beds, or runs, drawn with replacement, for the intervals beside the covariance"),
          draws: z.number().int().min(50).max(100_000).optional().describe("draws of each of the four chains of the posterior"),
        })
        .optional()
        .describe("asks for wheel–soil models to be fitted to the traction runs; may stand empty: {}"),
    })
    .optional(),
  coneIndexDepth: z
    .tuple([z.number().nonnegative(), z.number().positive()])
    .refine(([from, to]) => from < to, "from must be above to")
    .default([0, 0.15])
    .describe("depths from and to over which the mean cone index of a bed is taken [m]. Default 0 to 0.15: common practice"),
  reportPullAtSlip: z.array(z.number().gt(0).lt(1)).default([0.2]).describe("slips at which the pull coefficient is reported. Default 0.2: common practice"),
  reportSlipAtPull: z.array(z.number().gt(-1).lt(1)).default([0.1, 0.2]).describe("pull coefficients at which the slip is reported. Default 0.1 and 0.2: common practice"),
  tolerances: tolerancesSchema.prefault({}),
});

export type Rig = z.infer<typeof rigSchema>;
export type Logger = Rig["loggers"][string];
export type RigChannel = Logger["channels"][string];
export type SixAxis = NonNullable<Rig["sixAxis"]>;
