import { readFileSync } from "node:fs";
import { basename, dirname, extname, resolve } from "node:path";
import { nearest } from "../campaign/nearest.ts";
import { readSoilCard } from "../campaign/readSoilCard.ts";
import { readWheelFile } from "../campaign/readWheelFile.ts";
import { readWheelOfTable } from "../campaign/readWheelOfTable.ts";
import type { CardWheel, SoilCard } from "../campaign/soilFileSchema.ts";
import { InputError, UsageError } from "../core/errors.ts";
import { slipForecast } from "../fitting/slipForecast.ts";
import { predictionCsv } from "../report/prediction/predictionCsv.ts";
import { predictionJson } from "../report/prediction/predictionJson.ts";
import { predictionPage } from "../report/prediction/predictionPage.ts";
import type { Prediction } from "../report/prediction/prediction.ts";
import { exitCodes } from "./exitCodes.ts";
import { askedLoads, askedSlips } from "./predictNumbers.ts";
import type { LoadWords } from "./predictNumbers.ts";
import { showPrediction } from "./showPrediction.ts";
import { writeNew } from "./writeNew.ts";

export interface PredictOptions extends LoadWords {
  /** of the card, of --wheels, or a YAML file */
  readonly wheel: string;
  readonly wheels?: string;
  readonly slip?: string;
  readonly slopeAt?: string;
  readonly json?: boolean;
  readonly csv?: boolean;
  readonly page?: string;
}

const drawnSlips = 41;

/** What a wheel will do on the soil of a reduced day: a table, JSON or CSV, and a page where one is asked for. */
export function predictCommand(soilFile: string, options: PredictOptions): number {
  const loads = askedLoads(options);
  if (options.json === true && options.csv === true) throw new UsageError("expected --json or --csv, found both");
  const card = readSoilCard(bytesOf(soilFile), soilFile);
  const slips = askedSlips("--slip", options.slip ?? runsSlips(card));
  const slopesAt = options.slopeAt === undefined ? [] : askedSlips("--slope-at", options.slopeAt);
  const wheel = wheelOf(card, soilFile, options);
  const massesKg = loads.massesKg;
  const gravityMps2 = loads.gravityMps2 ?? card.gravityMps2;
  const loadsN = massesKg?.map((mass) => mass * gravityMps2) ?? loads.loadsN;
  const close = options.page === undefined ? [] : closeSlips(slips);
  const prediction: Prediction = { soil: soilFile, card, wheel, forecasts: loadsN.map((loadN) => slipForecast(card, wheel, loadN, slips, slopesAt)), drawn: close.length === 0 ? [] : loadsN.map((loadN) => slipForecast(card, wheel, loadN, close)), ...(massesKg === null ? {} : { masses: { massesKg, gravityMps2 } }) };
  process.stdout.write(options.json === true ? predictionJson(prediction) : options.csv === true ? predictionCsv(prediction) : showPrediction(prediction));
  if (options.page !== undefined) process.stderr.write(`Page: ${writeNew(dirname(resolve(options.page)), basename(options.page), new TextEncoder().encode(predictionPage(prediction)))}\n`);
  return exitCodes.done;
}

/** Slips close enough for a curve, from the least to the greatest asked for. */
function closeSlips(slips: readonly number[]): number[] {
  const [from, to] = [Math.min(...slips), Math.max(...slips)];
  return Array.from({ length: drawnSlips }, (_, i) => from + ((to - from) * i) / (drawnSlips - 1));
}

/** Up to fifteen slips over those of the runs, as round as they can be. */
function runsSlips({ validity }: SoilCard): string {
  const [low, high] = validity.slip;
  const step = [0.01, 0.02, 0.05, 0.1, 0.2].find((one) => (high - low) / one <= 14) ?? 0.2;
  return `${Math.round(Math.ceil(low / step - 1e-9) * step * 100) / 100}:${Math.round(Math.floor(high / step + 1e-9) * step * 100) / 100}:${step}`;
}

function wheelOf(card: SoilCard, soilFile: string, { wheel, wheels }: PredictOptions): CardWheel {
  if (wheels !== undefined) return readWheelOfTable(bytesOf(wheels), wheels, wheel);
  if ([".yaml", ".yml"].includes(extname(wheel).toLowerCase())) return readWheelFile(bytesOf(wheel), wheel);
  const tested = card.wheels.find(({ id }) => id === wheel);
  if (tested !== undefined) return tested;
  const known = card.wheels.map(({ id }) => id);
  const guess = nearest(wheel, known);
  throw new InputError([{ code: "unknown-wheel", at: `${soilFile}, underWheels.wheels`, message: `expected a wheel of this soil file (${known.join(", ")}), found "${wheel}"`, hint: `${guess === null ? "" : `Did you mean ${guess}? `}For another wheel give a YAML file, or its table with --wheels.` }]);
}

function bytesOf(path: string): Uint8Array {
  try {
    return readFileSync(path);
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    throw new InputError([{ code: "unreadable", at: path, message: `expected a file that can be read, found ${code === "ENOENT" ? "none of that name" : code === "EISDIR" ? "a folder" : String(code)}`, hint: "Check the path." }]);
  }
}
