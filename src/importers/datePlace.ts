import type { ClockFormat } from "./contract.ts";

/** What a clock says of a date that stands apart from the time of day. */
export type DateApart = Pick<Extract<ClockFormat, { kind: "wall" }>, "dateColumn" | "dateLabel" | "startDate" | "dateFormat">;

export type DatePlace = "dateColumn" | "dateLabel" | "startDate";

/** How startDate is written. */
export const isoDate = "yyyy-MM-dd";

/** The places that a clock names for the date; none = the stamps hold it. */
export function datePlaces(clock: DateApart): DatePlace[] {
  return (["dateColumn", "dateLabel", "startDate"] as const).filter((key) => clock[key] !== undefined);
}

/** What is wrong with them; null = nothing. @param stored whether the file stores its dates as such, so that they have no layout */
export function datePlaceProblem(clock: DateApart, stored = false): { readonly message: string; readonly hint: string } | null {
  const told = datePlaces(clock);
  if (told.length > 1) return { message: `one place for the date, found ${told.join(" and ")}`, hint: "Keep one of them in clock: in rig.yaml" };
  if (stored && clock.dateFormat !== undefined) return { message: `no dateFormat:, since the column "${clock.dateColumn}" stores its dates as such, found "${clock.dateFormat}"`, hint: "Remove dateFormat: from clock: in rig.yaml" };
  const written = clock.dateLabel !== undefined || (clock.dateColumn !== undefined && !stored);
  if (written === (clock.dateFormat !== undefined)) return null;
  return { message: `dateFormat: beside dateColumn or dateLabel, found ${clock.dateFormat === undefined ? "none" : "it alone"}`, hint: "Correct clock: in rig.yaml" };
}
