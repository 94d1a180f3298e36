import { finding } from "../../core/finding.ts";
import type { Finding } from "../../core/finding.ts";
import type { Recording } from "../../core/recording.ts";
import { timeAt } from "../../core/recording.ts";

/** Rows more than chance allows before it is said (common practice). */
const fewest = 5;
/** Times the number that chance allows. */
const beyondChance = 10;
/** So many repeated rows on end may be a rig at rest. */
const restingRows = 10;
/** A channel carries noise when it keeps its value in fewer rows than this share. */
const livelyShare = 0.2;

/**
 * Rows that hold every channel's value of the row before: a logger that writes a row twice when none has come, and gives it
 * a new time. How many chance would make follows from how often each channel by itself keeps its value.
 */
export function repeatedRows(recording: Recording, logger: string): Finding[] {
  const channels = recording.channels.filter((channel) => channel.unit !== "V").map((channel) => channel.samples);
  const count = channels[0]?.length ?? 0;
  if (channels.length === 0 || count < 50) return [];
  const kept = channels.map(() => 0);
  let repeated = 0;
  let row = 0;
  let longest = 0;
  let first = -1;
  for (let i = 1; i < count; i++) {
    let all = true;
    channels.forEach((samples, k) => {
      if (samples[i] === samples[i - 1]) kept[k] = (kept[k] as number) + 1;
      else all = false;
    });
    row = all ? row + 1 : 0;
    longest = Math.max(longest, row);
    if (!all) continue;
    repeated++;
    if (first < 0) first = i;
  }
  const byChance = kept.reduce((product, n) => (product * n) / count, count);
  // Channels that rest together keep their values together, for long; then only one with noise in every sample can tell.
  const resting = longest > restingRows && !kept.some((n) => n < livelyShare * count);
  // Channels that keep their values only together were not left to chance, however often it happens.
  const together = kept.length > 1 && kept.every((n) => n < 1.3 * repeated);
  if (repeated < fewest || resting || (repeated < beyondChance * byChance && !together)) return [];
  return [finding("rows-repeated", "look", `Logger ${logger} wrote ${repeated} rows with every value of the row before under a new time: it repeats rows where none has come. Means are weighted wrongly there. Look at the logger's buffer and rate`, { fromS: timeAt(recording.time, first), measured: repeated, limit: Math.max(fewest, together ? 0 : beyondChance * byChance) })];
}
