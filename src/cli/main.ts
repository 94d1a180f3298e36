#!/usr/bin/env node
import { Command } from "commander";
import { version } from "../version.ts";
import { exitCodes, withExitCode } from "./exitCodes.ts";
import type { PredictOptions } from "./predictCommand.ts";

// Commands are loaded when called: a quick one does not wait for the libraries that draw the report.
const program = new Command("drawbar")
  .description("Turns a day of rover-wheel rig tests into slip, drawbar pull, sinkage, restitution, stiffness and soil constants,\neach with its uncertainty and its trail back to the raw file.")
  .version(version)
  .exitOverride((error) => {
    // Help and version end well; anything else that the argument parser refuses is a wrong call.
    process.exit(error.exitCode === 0 ? exitCodes.done : exitCodes.wrongUse);
  })
  .showHelpAfterError("(drawbar --help lists the commands)")
  .addHelpText("after", "\nExit codes: 0 done, 1 done but some runs are rejected or unread, 2 bad input, 3 wrong use.\n\nThis program reads files. It commands no rig and is no part of any safety chain.");

const cacheHelp = "where work is kept, so that it need not be done again; without it $XDG_CACHE_HOME/drawbar or ~/.cache/drawbar";
const noCacheHelp = "keep nothing, and use nothing that was kept";

program
  .command("reduce")
  .description("measure every run of a day folder and write the report, results.json, runs.csv and soil.json")
  .argument("<day>", "day folder: rig.yaml, runs.csv, wheels.csv, beds.csv, cones.csv, surfaces.csv, inspections.csv and the logs")
  .requiredOption("-o, --out <folder>", "folder for the results; made if it is missing")
  .option("-q, --quiet", "no progress")
  .option("--cache <folder>", cacheHelp)
  .option("--no-cache", noCacheHelp)
  .action((day: string, options: { out: string; quiet?: boolean; cache?: string | boolean }) => withExitCode(async () => (await import("./reduceCommand.ts")).reduceCommand(day, options)));

program
  .command("check")
  .description("read and check every run of a day folder; print what to look at and what to repeat; write no results")
  .argument("<day>", "day folder")
  .option("-q, --quiet", "no progress")
  .option("--questions", "print also what no recording can show, as questions for the people at the rig")
  .option("--cache <folder>", cacheHelp)
  .option("--no-cache", noCacheHelp)
  .action((day: string, options: { quiet?: boolean; questions?: boolean; cache?: string | boolean }) => withExitCode(async () => (await import("./checkCommand.ts")).checkCommand(day, options)));

program
  .command("watch")
  .description("read each run of a day folder as its files land, and keep a live page on this machine: go, look or repeat, and why; end with Ctrl-C")
  .argument("<day>", "day folder; nothing in it is written to")
  .option("-p, --port <number>", "port of the page on 127.0.0.1; 0 takes a free one", "0")
  .option("-s, --settle <seconds>", "a file counts as complete when it has not changed for this long", "1.5")
  .option("--cache <folder>", cacheHelp)
  .option("--no-cache", noCacheHelp)
  .addHelpText(
    "after",
    `
When a run is read: every logger that records its kind has written its file, and each file is complete. A file is complete
when its size and times have not changed for --settle seconds (or two and a half times the longest pause that it was seen to
make after a whole line, up to 10 s) and its last line has a line end. A file at rest whose last line stays open is read after 30 s
without that line, and its card says so. A run whose second file does not come waits and says for which. A file that changes
after it was read is waited for and read again. For a logger that writes more than 4 s apart, give a longer --settle.

rig.yaml and the sheets are read again when they change; while they hold a mistake, the last good reading stays in use.`,
  )
  .action((day: string, options: { port: string; settle: string; cache?: string | boolean }) => withExitCode(async () => (await import("./watchCommand.ts")).watchCommand(day, options)));

program
  .command("inspect")
  .description("say what a log is, with the evidence: a text log's encoding, delimiter, decimal mark, header, columns, rate; another file's sheets, groups or topics, columns and units")
  .argument("<file>", "a logger's file")
  .action((file: string) => withExitCode(async () => (await import("./inspectCommand.ts")).inspectCommand(file)));

program
  .command("export")
  .description("write the recordings of one run as they are measured (calibrated, decoupled, zeroed, on one clock), one file per logger")
  .argument("<day>", "day folder; nothing in it is written to")
  .argument("<run>", "the run's id on the run sheet")
  .requiredOption("--as <format>", "csv, arrow (IPC) or parquet; units and provenance stand in each")
  .requiredOption("-o, --out <folder>", "folder for the files; made if it is missing, no file in it is written over")
  .action((day: string, run: string, options: { as: string; out: string }) => withExitCode(async () => (await import("./exportCommand.ts")).exportCommand(day, run, options)));

program
  .command("predict")
  .description("foretell pull, torque, sinkage and efficiency of a wheel over slip on the soil of a reduced day, with 95 % bands; say what lies outside its runs")
  .argument("<soil>", "soil.json of a day whose rig.yaml asks for soil.wheelModel")
  .requiredOption("-w, --wheel <wheel>", "a wheel of that day, a YAML file of one wheel, or a wheel of --wheels")
  .option("--wheels <table>", "a table like wheels.csv in which the wheel stands; rigid wheels")
  .option("-l, --load <N>", "load on the wheel, or several: 40,80")
  .option("-m, --mass <kg>", "instead of a load: mass on the wheel, or several")
  .option("-g, --gravity <m/s2>", "with --mass: gravity there; without it that of the day. The soil's constants are taken not to change")
  .option("-s, --slip <slips>", "0.1,0.2 or from:to:step, as in --slip=-0.2:0.6:0.05; braked below zero; without it the slips of the runs")
  .option("--slope-at <slips>", "also say the slope climbed at these slips")
  .option("--json", "print JSON instead of the table")
  .option("--csv", "print CSV instead of the table")
  .option("--page <file>", "also write a page with figures; no file is written over")
  .addHelpText(
    "after",
    `
A wheel's YAML file:

  wheel: N1
  diameter: 240 mm        # unloaded, over the rim without lugs
  width: 90 mm
  lugs: 24
  lugHeight: 5 mm
  flexible: true
  loadDeflection:         # on a hard plate
    load: N
    deflection: mm
    points: [[20, 1.1], [40, 2.0], [80, 3.6]]`,
  )
  .action((soil: string, options: PredictOptions) => withExitCode(async () => (await import("./predictCommand.ts")).predictCommand(soil, options)));

program
  .command("schema")
  .description("write the JSON Schemas of rig.yaml and of the rows of the day's tables, for editors to complete and check them")
  .requiredOption("-o, --out <folder>", "folder for the schemas; made if it is missing")
  .action((options: { out: string }) => withExitCode(async () => (await import("./schemaCommand.ts")).schemaCommand(options.out)));

await program.parseAsync();
