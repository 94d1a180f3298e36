import { parseWall } from "../core/instants.ts";

const dates = ["dd.MM.yyyy", "d.M.yyyy", "dd.MM.yy", "yyyy-MM-dd", "yyyy/MM/dd", "yyyy.MM.dd", "dd/MM/yyyy", "MM/dd/yyyy", "d/M/yyyy", "M/d/yyyy", "dd-MM-yyyy", "MM-dd-yyyy", "yyyyMMdd"];
const between = [" ", "'T'", ", ", "_"];
const times = ["HH:mm:ss", "H:mm:ss", "hh:mm:ss a", "h:mm:ss a", "HHmmss"];

/** Of `1.2.2026 3:04:05`, which has the fewest. */
const fewestDigits = 10;
const longest = 60;

/** Layouts that fit every stamp of a sample. More than one means that day and month cannot be told apart. */
export function layoutsOf(stamps: readonly string[]): string[] {
  const first = stamps[0] ?? "";
  if (first.length > longest || first.replace(/\D/g, "").length < fewestDigits) return [];
  const fraction = /\d([.,])(\d+)(?: *[AaPp][Mm])?$/.exec(first.replace(/^\d{1,4}[.,]\d{1,2}[.,]\d{2,4}/, ""));
  const tail = fraction === null ? "" : `${fraction[1]}${(fraction[2] as string).length === 3 ? "SSS" : "u"}`;
  const fitting: string[] = [];
  for (const date of dates) {
    const layouts = between.flatMap((gap) => times.map((time) => `${date}${gap}${time.replace(/s(?= a|$)/, `s${tail}`)}`));
    const layout = layouts.find((one) => stamps.every((stamp) => !("problem" in parseWall(stamp, one, "UTC"))));
    // 03.04.2026 fits dd.MM and d.M alike: the stricter comes first and says the same.
    if (layout !== undefined && !fitting.some((known) => same(known, layout, stamps))) fitting.push(layout);
  }
  return fitting;
}

function same(a: string, b: string, stamps: readonly string[]): boolean {
  const moment = (stamp: string, layout: string): number => {
    const read = parseWall(stamp, layout, "UTC");
    return "problem" in read ? Number.NaN : read.ms;
  };
  return stamps.every((stamp) => moment(stamp, a) === moment(stamp, b));
}
