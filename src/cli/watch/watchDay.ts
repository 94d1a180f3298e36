import { basename, resolve } from "node:path";
import type { Campaign } from "../../campaign/campaign.ts";
import { readCampaign } from "../../campaign/readCampaign.ts";
import { sheetFiles } from "../../campaign/sheetFiles.ts";
import { InputError, showIssue } from "../../core/errors.ts";
import type { Issue } from "../../core/errors.ts";
import { finding } from "../../core/finding.ts";
import { reduceOne } from "../../day.ts";
import type { Hands } from "../../day.ts";
import { unclaimedFiles } from "../../processing/dayFiles.ts";
import type { RunResult } from "../../processing/dayResult.ts";
import { referencesFrom } from "../../processing/references.ts";
import type { References } from "../../processing/references.ts";
import { unreadRun } from "../../processing/reduceRun.ts";
import { sideBySide } from "../../processing/sideBySide.ts";
import type { SideBySide } from "../../processing/sideBySide.ts";
import { dayCards } from "./cards.ts";
import type { Card } from "./cards.ts";
import { openJobs, presentResults } from "./dayWatch.ts";
import type { DayWatch, Job } from "./dayWatch.ts";
import { newCards, nextLatest, saying } from "./latest.ts";
import type { Latest } from "./latest.ts";
import { lookAtFiles } from "./lookAtFiles.ts";
import { runStage, wantedFiles } from "./runStage.ts";
import { fileStage, fingerprint } from "./settle.ts";
import type { FileWatch, SettleRule } from "./settle.ts";
import { dayView } from "./view.ts";
import type { View } from "./view.ts";

/** Between two looks at the files. */
const restMs = 250;

export interface WatchOptions {
  readonly rule: SettleRule;
  readonly nowMs: () => number;
  /** a moment of that clock as people read it */
  readonly clockText: (ms: number) => string;
  /** who reduces a run; default: anew from its files */
  readonly reduce?: Hands["reduce"];
  /** the page as it is now, and the cards that say something new */
  readonly onView: (view: View, news: readonly Card[]) => void;
}

/** Looks at the day folder again and again until told to end; reads each run when its files are complete, one at a time. */
export async function watchDay(folder: string, signal: AbortSignal, options: WatchOptions): Promise<void> {
  const { rule, nowMs } = options;
  let day: DayWatch = { campaign: null, campaignAtMs: null, mistakes: [], mistakesAtMs: null, stages: new Map(), outcomes: new Map(), open: new Set(), findings: [], unclaimed: [] };
  let sheets: ReadonlyMap<string, FileWatch> = new Map();
  let sheetsRead: string | null = null;
  let logs: ReadonlyMap<string, FileWatch> = new Map();
  const beside = besideEachOther();
  const publish = publisher(folder, options);
  while (!signal.aborted) {
    sheets = await lookAtFiles(folder, sheetFiles, sheets, nowMs, rule);
    const key = [...sheets].map(([file, watch]) => `${file} ${fingerprint(watch)}`).join("\n");
    // People write the sheets: neither their last line nor their pauses say whether they are done. What stands there at the start is read at once.
    const atRest = sheetsRead === null || [...sheets.values()].every((watch) => fileStage({ ...watch, whole: true, longestPauseMs: 0 }, nowMs(), rule).kind !== "growing");
    if (key !== sheetsRead && atRest) {
      day = readSheets(folder, day, nowMs());
      sheetsRead = key;
    }
    const { campaign } = day;
    if (campaign !== null) {
      const wanted = new Map(campaign.runs.map((plan) => [plan.id, wantedFiles(campaign.rig, plan)]));
      logs = await lookAtFiles(folder, [...new Set([...wanted.values()].flat().map(({ path }) => path))], logs, nowMs, rule);
      const stages = new Map([...wanted].map(([run, files]) => [run, runStage(files, logs, nowMs(), rule, options.clockText)]));
      day = { ...day, stages, unclaimed: unclaimedFiles(folder, campaign) };
    }
    const { references, findings } = beside(day);
    const jobs = openJobs(day, references);
    day = { ...day, open: new Set(jobs.map(({ plan }) => plan.id)), findings };
    publish(day);
    const [job] = jobs;
    if (job === undefined) {
      await rest(restMs, signal);
      continue;
    }
    const result = await readRun(folder, day, job, references, options.reduce);
    const after = await lookAtFiles(folder, [...logs.keys()], logs, nowMs, rule);
    const untouched = result.sources.every(({ file }) => same(logs.get(file), after.get(file)));
    logs = after;
    // A file that changed under the reader is waited for again; what was read of it is dropped.
    if (!untouched) continue;
    const known = day.outcomes.get(job.plan.id);
    const readAtMs = known?.filesKey === job.filesKey ? known.readAtMs : nowMs();
    day = { ...day, outcomes: new Map(day.outcomes).set(job.plan.id, { key: job.key, filesKey: job.filesKey, result, readAtMs }) };
    // Lets the server answer between two runs.
    await rest(0, signal);
  }
}

function readSheets(folder: string, day: DayWatch, nowMs: number): DayWatch {
  try {
    return { ...day, campaign: readCampaign(folder), campaignAtMs: nowMs, mistakes: [], mistakesAtMs: null };
  } catch (error) {
    return { ...day, mistakes: issuesOf(error, "the sheets"), mistakesAtMs: nowMs };
  }
}

async function readRun(folder: string, day: DayWatch, job: Job, references: References, reduce: Hands["reduce"] | undefined): Promise<RunResult> {
  if (day.campaign === null) throw new Error("a run cannot be read before the sheets");
  try {
    return await reduceOne(folder, day.campaign, job.plan, references, reduce);
  } catch (error) {
    return unreadRun(job.plan, issuesOf(error, `run ${job.plan.id}`));
  }
}

/** A fault of our own must not end the watch over the other runs; it is shown like a mistake in the input, under its own name. */
function issuesOf(error: unknown, at: string): readonly Issue[] {
  if (error instanceof InputError) return error.issues;
  return [{ code: "fault-of-drawbar", at, message: `drawbar itself failed here: ${error instanceof Error ? error.message : String(error)}`, hint: "Please report it, with the files of this run" }];
}

/** What the runs read so far give to others, and what only they side by side show; worked out again only when one of them changes. */
function besideEachOther(): (day: DayWatch) => Omit<SideBySide, "runs"> {
  let known: (Omit<SideBySide, "runs"> & { readonly of: readonly unknown[] }) | null = null;
  return (day) => {
    const { campaign } = day;
    if (campaign === null) return { references: { rollingRadii: [], drags: [], deflections: [] }, findings: [] };
    const results = presentResults(day);
    const of = [campaign, ...results.flatMap((result) => [result.plan.id, result.verdict, result.measures])];
    if (known === null || known.of.length !== of.length || known.of.some((part, place) => part !== of[place])) known = { of, ...compared(results, campaign) };
    return known;
  };
}

function compared(results: readonly RunResult[], campaign: Campaign): Omit<SideBySide, "runs"> {
  try {
    return sideBySide(results, campaign);
  } catch (error) {
    return { references: referencesFrom(results, campaign), findings: issuesOf(error, "the checks of the day").map((issue) => finding(issue.code, "look", showIssue(issue))) };
  }
}

/** Makes the page when something on it has changed. */
function publisher(folder: string, { clockText, onView }: WatchOptions): (day: DayWatch) => void {
  let shown: readonly unknown[] = [];
  let latest: Latest = { n: 0, said: [] };
  let before: ReadonlyMap<string, string> = new Map();
  return (day) => {
    const now = [day.campaign, day.mistakes, day.outcomes, day.findings, [...day.open].join("\n"), JSON.stringify([...day.stages]), day.unclaimed.join("\n")];
    if (now.every((part, place) => part === shown[place])) return;
    shown = now;
    const cards = dayCards(day);
    const news = newCards(before, cards.cards);
    latest = nextLatest(latest, news);
    before = new Map([...before, ...cards.cards.filter((card) => card.state !== "files").map((card): [string, string] => [card.plan.id, saying(card)])]);
    onView(dayView(day, cards, latest, basename(resolve(folder)), clockText), news);
  };
}

function same(a: FileWatch | undefined, b: FileWatch | undefined): boolean {
  return a !== undefined && b !== undefined && fingerprint(a) === fingerprint(b);
}

function rest(ms: number, signal: AbortSignal): Promise<void> {
  return new Promise((done) => {
    const end = (): void => {
      clearTimeout(timer);
      signal.removeEventListener("abort", end);
      done();
    };
    const timer = setTimeout(end, ms);
    signal.addEventListener("abort", end);
  });
}
