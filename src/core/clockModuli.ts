/** Where the clocks and counters of loggers begin again [s], and what that is in words. */
export const clockModuli = [
  { lengthS: 3600, says: "the hour left out of its stamps" },
  { lengthS: 43_200, says: "a twelve-hour clock" },
  { lengthS: 86_400, says: "midnight" },
  { lengthS: 2 ** 16 / 1e6, says: "a 16-bit counter of microseconds" },
  { lengthS: 2 ** 16 / 1e3, says: "a 16-bit counter of milliseconds" },
  { lengthS: 2 ** 16, says: "a 16-bit counter of seconds" },
  { lengthS: 2 ** 31 / 1e6, says: "a 31-bit counter of microseconds" },
  { lengthS: 2 ** 32 / 1e6, says: "a 32-bit counter of microseconds" },
  { lengthS: 2 ** 32 / 1e3, says: "a 32-bit counter of milliseconds" },
] as const;

export const clockModuliS: readonly number[] = clockModuli.map(({ lengthS }) => lengthS);

/** What a step back of a clock looks like, e.g. midnight; "" when it is none of these. @param usualS the usual interval */
export function rolloverIn(stepS: number, usualS: number): string {
  return clockModuli.find(({ lengthS }) => stepS + lengthS > 0 && stepS + lengthS <= 10 * usualS)?.says ?? "";
}
