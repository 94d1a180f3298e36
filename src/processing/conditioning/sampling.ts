import type { Logger } from "../../campaign/rigSchema.ts";
import { clockModuliS } from "../../core/clockModuli.ts";
import type { RawTable } from "../../importers/contract.ts";
import { intervalsOf } from "../../numerics/intervals.ts";
import type { LogSampling } from "../logSampling.ts";

/** How evenly a log was sampled, by its own time column; a log without one has only the rate that its description states. */
export function sampling(table: RawTable, logger: string, { clock }: Logger): LogSampling {
  const { file } = table.source;
  if (clock.kind === "rate") return { logger, file, statedRateHz: clock.rateHz, intervals: null };
  return { logger, file, statedRateHz: null, intervals: intervalsOf(table.timesS, clockModuliS) };
}
