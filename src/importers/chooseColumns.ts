import { InputError } from "../core/errors.ts";
import type { Issue } from "../core/errors.ts";
import type { ColumnLog, LogColumn, LogPart } from "./columnLog.ts";
import type { ReadOptions } from "./contract.ts";
import { heading } from "./headings.ts";
import { shown, shownNames } from "./shown.ts";

export interface ChosenColumn {
  /** as rig.yaml names it */
  readonly name: string;
  readonly column: LogColumn;
  readonly part: LogPart;
}

export interface ChosenColumns {
  readonly wanted: readonly ChosenColumn[];
  /** null = the clock reads no column */
  readonly time: ChosenColumn | null;
  /** null = no column holds the date apart from the time of day */
  readonly date: ChosenColumn | null;
}

/** The columns that the description names, and the clock's. @throws InputError where a name means no column, or more than one */
export function chooseColumns(log: ColumnLog, fileName: string, options: ReadOptions): ChosenColumns {
  const parts = options.part === undefined ? log.parts : log.parts.filter((part) => isPart(log, part, options.part as string));
  if (parts.length === 0) throw new InputError([noPart(log, fileName, options.part)]);
  const { clock } = options;
  const timeName = "column" in clock ? clock.column : null;
  const dateName = "dateColumn" in clock ? (clock.dateColumn ?? null) : null;
  const names = [...new Set([...options.columns, ...[timeName, dateName].filter((name) => name !== null)])];
  const among = log.joined ? parts : [onePart(log, parts, names, fileName, options)];
  const found = new Map(names.map((name) => [name, matches(log, among, name, options.part)]));
  const issues = [...found].flatMap(([name, all]) => nameIssues(log, among, fileName, name, all));
  if (issues.length > 0) throw new InputError(issues);
  const chosen = (name: string): ChosenColumn => ({ name, ...(found.get(name)?.[0] as { column: LogColumn; part: LogPart }) });
  const wanted = [...new Set(options.columns)].map(chosen);
  const time = timeName !== null ? chosen(timeName) : clock.kind === "message" ? messageClock(among, fileName, clock.stamp) : null;
  const date = dateName === null ? null : chosen(dateName);
  const blocked = [...wanted, ...[time, date].filter((one) => one !== null)].filter(({ column }) => column.obstacle !== null);
  if (blocked.length > 0) throw new InputError(blocked.map(({ name, column }) => ({ code: "unreadable-column", at: `${fileName}, column "${name}"`, message: `expected a column that can be read, found ${column.obstacle}`, hint: "Export it in a plain form, or remove the channel from rig.yaml" })));
  return { wanted, time, date };
}

/** Without slashes at either end. */
function bare(path: string): string {
  let [from, to] = [0, path.length];
  while (path[from] === "/") from++;
  while (to > from && path[to - 1] === "/") to--;
  return path.slice(from, to);
}

function isPart(log: ColumnLog, part: LogPart, asked: string): boolean {
  return bare(part.name) === bare(asked) || (log.joined && bare(part.name).startsWith(`${bare(asked)}${log.partMark}`));
}

/** How a column is called from outside its part. */
export function fullName(log: Pick<ColumnLog, "partMark">, part: LogPart, column: LogColumn): string {
  return part.name === "" ? column.name : `${part.name}${log.partMark}${column.name}`;
}

interface Match {
  readonly column: LogColumn;
  readonly part: LogPart;
}

/** By the whole path first, then within the part, then by the name without its unit, then by the path's last steps. */
function matches(log: ColumnLog, parts: readonly LogPart[], name: string, asked: string | undefined): readonly Match[] {
  const wanted = bare(name.trim());
  const all = parts.flatMap((part) => part.columns.map((column): Match => ({ column, part })));
  const full = ({ part, column }: Match): string => bare(fullName(log, part, column));
  const within = (one: Match): string => (asked !== undefined && full(one).startsWith(`${bare(asked)}${log.partMark}`) ? full(one).slice(bare(asked).length + 1) : one.column.name);
  const tails = [`/${wanted}`, `.${wanted}`];
  const ways: ((one: Match) => boolean)[] = [
    (one) => full(one) === wanted,
    (one) => within(one) === wanted,
    (one) => one.column.name === wanted,
    (one) => heading(one.column.name).name === wanted,
    (one) => tails.some((tail) => full(one).endsWith(tail)),
  ];
  for (const way of ways) {
    const found = all.filter(way);
    if (found.length > 0) return found;
  }
  return [];
}

/** The one sheet or topic that holds every column wanted. */
function onePart(log: ColumnLog, parts: readonly LogPart[], names: readonly string[], fileName: string, options: ReadOptions): LogPart {
  const fit = parts.filter((part) => names.every((name) => matches(log, [part], name, options.part).length > 0));
  if (fit.length === 1 || parts.length === 1) return (fit[0] ?? parts[0]) as LogPart;
  const word = log.partWord;
  if (fit.length > 1) throw new InputError([{ code: "ambiguous-part", at: fileName, message: `expected one ${word} with ${names.length === 0 ? "columns" : `the columns ${shownNames(names)}`}, found ${shownNames(fit.map((part) => part.name))}`, hint: `Declare part: with the ${word}'s name for this logger in rig.yaml` }]);
  const nearest = parts.map((part) => ({ part, missing: names.filter((name) => matches(log, [part], name, options.part).length === 0) })).sort((a, b) => a.missing.length - b.missing.length)[0] as { part: LogPart; missing: string[] };
  const elsewhere = nearest.missing.every((name) => matches(log, parts, name, options.part).length > 0);
  if (elsewhere) throw new InputError([{ code: "columns-of-two-parts", at: fileName, message: `expected all columns in one ${word}, found ${shownNames(nearest.missing)} in another than ${shown(nearest.part.name)}; each ${word} has rows of its own`, hint: `Describe a logger for each ${word}, with part: and its own clock, in rig.yaml` }]);
  return nearest.part;
}

function nameIssues(log: ColumnLog, parts: readonly LogPart[], fileName: string, name: string, found: readonly Match[]): Issue[] {
  const many = log.parts.length > 1;
  const place = !log.joined && many ? `${fileName}, ${log.partWord} ${shown(parts[0]?.name ?? "")}` : fileName;
  const nameOf = ({ part, column }: Match): string => (log.joined ? fullName(log, part, column) : column.name);
  if (found.length === 0) {
    const all = parts.flatMap((part) => part.columns.map((column) => nameOf({ part, column })));
    return [{ code: "missing-column", at: place, message: `expected a column "${name}", found ${shownNames(all)}`, hint: "Correct column: in rig.yaml, or check that this is the right log" }];
  }
  if (found.length === 1) return [];
  const alike = found.map(nameOf);
  const different = new Set(alike).size > 1;
  return [{ code: different ? "ambiguous-column" : "duplicate-column", at: place, message: `expected one column "${name}", found ${different ? shownNames(alike) : found.length}`, hint: different ? `Write the whole path in column:, or declare part: in rig.yaml` : "Give the columns different names in the logger" }];
}

function noPart(log: ColumnLog, fileName: string, asked: string | undefined): Issue {
  if (asked === undefined) return { code: "no-columns", at: fileName, message: "expected columns of numbers, found none", hint: "Check that this is the right log" };
  return { code: "missing-part", at: fileName, message: `expected a ${log.partWord} ${shown(asked)}, found ${shownNames(log.parts.map((part) => part.name).filter((name) => name !== ""))}`, hint: "Correct part: in rig.yaml, or check that this is the right log" };
}

function messageClock(parts: readonly LogPart[], fileName: string, stamp: "header" | "log" | "publish"): ChosenColumn {
  const part = parts[0] as LogPart;
  const column = part.clocks[stamp];
  if (column !== undefined) return { name: `${stamp} stamp`, column, part };
  const there = Object.keys(part.clocks);
  const message = there.length === 0 ? "expected recorded messages, since the clock is of kind: message, found a file without messages" : `expected a ${stamp} stamp in every message of ${shown(part.name)}, found only ${there.join(" and ")} stamps`;
  throw new InputError([{ code: "no-such-stamp", at: fileName, message, hint: `Correct clock: in rig.yaml${there.length === 0 ? ": kind stamp, elapsed or rate" : ""}` }]);
}
