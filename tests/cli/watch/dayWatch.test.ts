import { describe, expect, test } from "vitest";
import { openJobs, presentResults } from "../../../src/cli/watch/dayWatch.ts";
import type { DayWatch, Outcome } from "../../../src/cli/watch/dayWatch.ts";
import { dayCards } from "../../../src/cli/watch/cards.ts";
import { newCards, nextLatest, saying, titleOf } from "../../../src/cli/watch/latest.ts";
import { message } from "../../../src/cli/watch/server.ts";
import { dayView } from "../../../src/cli/watch/view.ts";
import type { RunStage } from "../../../src/cli/watch/runStage.ts";
import type { RunPlan, WheelRecord } from "../../../src/campaign/campaign.ts";
import { undetermined } from "../../../src/core/estimate.ts";
import { finding } from "../../../src/core/finding.ts";
import type { RollingRadius, RunResult } from "../../../src/processing/dayResult.ts";
import { estimateFrom } from "../../../src/core/estimate.ts";
import { plan, rig } from "../../helpers/pressRun.ts";
import { ownRow, runResult } from "../../helpers/runResult.ts";

const none = { rollingRadii: [], drags: [], deflections: [] };
const hard = plan("hardFloor", { id: "H1", wheel: "W3", setLoadN: 40 });
const spin = plan("freeSpin", { id: "S1", wheel: "W3" });
const roll = plan("traction", { id: "T1", wheel: "W3", setLoadN: 40, setSlip: 0.2 });
const other = plan("traction", { id: "T2", wheel: "W1", setLoadN: 40, setSlip: 0.2 });
const wheel = (id: string): WheelRecord => ({ id, radiusM: 0.1, widthM: 0.08, massKg: 1, lugs: 0, lugHeightM: 0, flexible: false, description: "", bareFrame: null, factors: {}, line: 2 });
const ready = (id: string, files = `${id} files`): [string, RunStage] => [id, { kind: "ready", filesKey: files, openEnds: [] }];

/** A day with these runs on the sheet; those named in `results` have been read. */
function day(runs: readonly RunPlan[], results: readonly RunResult[] = [], stages: readonly [string, RunStage][] = runs.map(({ id }) => ready(id)), rest: Partial<DayWatch> = {}): DayWatch {
  const campaign = { rig: { ...rig(), slipRadius: { policy: "effective" as const, lugs: "with" as const } }, runs, wheels: [wheel("W1"), wheel("W3")], beds: [], cones: [], inspections: [], issues: [], files: [{ file: "rig.yaml", sha256: "a" }] };
  const outcomes = new Map(results.map((result): [string, Outcome] => [result.plan.id, { key: "", filesKey: `${result.plan.id} files`, result, readAtMs: 0 }]));
  return { campaign, campaignAtMs: 0, mistakes: [], mistakesAtMs: null, stages: new Map(stages), outcomes, open: new Set(), findings: [], unclaimed: [], ...rest };
}

const noRadius = undetermined("m", "no usable hard-floor run of wheel W3");
const lacking = runResult(roll, {}, {
  verdict: "repeat",
  findings: [finding("radius-unknown", "reject", "Slip cannot be given"), finding("drag-unknown", "look", "Torque cannot be given")],
  measures: [{ name: "slipRadius", label: "Radius for slip", estimate: noRadius, segment: null }],
});
const cardOf = (found: DayWatch, id: string) => dayCards(found).cards.find((card) => card.plan.id === id);

describe("what to read next", () => {
  test("runs that others rest on first, then the sheet's order; runs without all their files not at all", () => {
    const found = openJobs(day([roll, other, hard, spin], [], [ready("T1"), ready("H1"), ["T2", { kind: "waiting", waits: ["x"] }], ["S1", { kind: "toRun" }]]), none);
    expect(found.map((job) => job.plan.id)).toEqual(["H1", "T1"]);
  });

  test("a run is read again when its file, its row, the rig or its wheel's references change, and not otherwise", () => {
    const before = day([roll, other, hard]);
    const keys = new Map(openJobs(before, none).map((job) => [job.plan.id, job.key]));
    const read = { ...before, outcomes: new Map([...keys].map(([id, key]): [string, Outcome] => [id, { key, filesKey: `${id} files`, result: runResult(id === "T1" ? roll : other, {}), readAtMs: 0 }])) };
    const again = (changed: Partial<DayWatch>, references = none as Parameters<typeof openJobs>[1]) => openJobs({ ...read, ...changed }, references).map((job) => job.plan.id);
    expect(again({})).toEqual([]);
    const radius: RollingRadius = { wheel: "W3", loadN: 40, runs: ["H1"], estimate: estimateFrom(0.1, "m", "", [ownRow(1e-4)]) };
    expect(again({}, { ...none, rollingRadii: [radius] })).toEqual(["T1"]);
    const campaign = read.campaign as NonNullable<DayWatch["campaign"]>;
    expect(again({ campaign: { ...campaign, runs: [{ ...roll, setSlip: 0.3 }, { ...other, line: 9, remark: "moved down a line" }, hard] } })).toEqual(["T1"]);
    expect(again({ campaign: { ...campaign, files: [{ file: "rig.yaml", sha256: "b" }] } })).toEqual(["H1", "T1", "T2"]);
    expect(again({ stages: new Map([ready("T1"), ready("T2", "T2 has grown"), ready("H1")]) })).toEqual(["T2"]);
  });

  test("a result whose file has changed since no longer counts", () => {
    const result = runResult(hard, {});
    expect(presentResults(day([hard], [result])).length).toBe(1);
    expect(presentResults(day([hard], [result], [ready("H1", "other files")]))).toEqual([]);
  });

  test("the same bytes under two runs' names reject both, unless one of them is named in the file", () => {
    const source = { file: "logs/x", sha256: "same", format: "", bytes: 1, rowsRead: 1, rowsRefused: 0 };
    const labelled = { name: "label", version: "1", parameters: {} };
    const verdicts = (...steps: (typeof labelled)[][]) => presentResults(day([roll, other], [runResult(roll, {}, { sources: [source], steps: steps[0] ?? [] }), runResult(other, {}, { sources: [source] })])).map(({ verdict }) => verdict);
    expect(verdicts([])).toEqual(["repeat", "repeat"]);
    expect(verdicts([labelled])).toEqual(["go", "repeat"]);
  });
});

describe("a card", () => {
  test("waits for the hard-floor run on the sheet instead of asking to be repeated", () => {
    const card = cardOf(day([hard, spin, roll], [lacking], [["H1", { kind: "toRun" }], ["S1", { kind: "toRun" }], ready("T1")]), "T1");
    expect(card).toMatchObject({ state: "others", reasons: [], waits: ["Slip: waiting for the hard-floor run of W3 at 40 N (H1)", "Torque: waiting for the free-spin run of W3 (S1)"] });
  });

  test("says when the run it waits for must itself be repeated", () => {
    expect(cardOf(day([hard, roll], [lacking, runResult(hard, {}, { verdict: "repeat" })]), "T1")?.waits).toEqual(["Slip: waiting for the hard-floor run of W3 at 40 N (H1, to be repeated)"]);
  });

  test("asks to be repeated when no run on the sheet can help, or when it has a fault of its own", () => {
    expect(cardOf(day([roll], [lacking]), "T1")).toMatchObject({ state: "repeat", reasons: ["Slip cannot be given", "Torque cannot be given"] });
    const excluded = { ...hard, excluded: "wrong floor" };
    expect(cardOf(day([excluded, roll], [lacking]), "T1")?.state).toBe("repeat");
    const clipped = { ...lacking, findings: [...lacking.findings, finding("clipped", "reject", "The load cell ended")] };
    expect(cardOf(day([hard, spin, roll], [clipped], [["H1", { kind: "toRun" }], ["S1", { kind: "toRun" }], ready("T1")]), "T1")).toMatchObject({ state: "repeat", reasons: ["The load cell ended"] });
  });

  test("has no verdict while it is read again", () => {
    expect(cardOf(day([hard], [runResult(hard, {})], undefined, { open: new Set(["H1"]) }), "H1")?.state).toBe("files");
    expect(cardOf(day([hard], [runResult(hard, {})]), "H1")?.state).toBe("go");
  });

  test("still to run: in the sheet's order, without those excluded by a person", () => {
    const stages: [string, RunStage][] = ["T1", "T2", "H1"].map((id) => [id, { kind: "toRun" }]);
    expect(dayCards(day([roll, { ...other, excluded: "no time" }, hard], [], stages)).toRun.map(({ id }) => id)).toEqual(["T1", "H1"]);
  });
});

describe("the announcement", () => {
  const [card] = dayCards(day([hard], [runResult(hard, {})])).cards;
  if (card === undefined) throw new Error("no card");

  test("a run read again that says the same is no news; another verdict is", () => {
    const said = new Map([["H1", saying(card)]]);
    expect(newCards(said, [card])).toEqual([]);
    expect(newCards(said, [{ ...card, state: "look" }]).length).toBe(1);
    expect(newCards(new Map(), [{ ...card, state: "files" }])).toEqual([]);
  });

  test("the worst stands first, and the title counts what is to be repeated", () => {
    const bad = { ...card, plan: { ...hard, id: "H2" }, state: "repeat" as const, reasons: ["clipped"] };
    const latest = nextLatest({ n: 4, said: [] }, [card, bad]);
    expect(latest).toMatchObject({ n: 5, said: [{ run: "H2" }, { run: "H1" }] });
    expect(titleOf(latest, [card, bad], "Bench 2")).toBe("↻ H2 Repeat and 1 more · 1 to repeat · Bench 2");
    expect(nextLatest(latest, [])).toBe(latest);
  });
});

test("what only runs side by side show stands on the page; notes are folded", () => {
  const found = day([hard], [runResult(hard, {})], undefined, { findings: [finding("a", "look", "Two runs disagree"), finding("b", "note", "By the way")] });
  const part = dayView(found, dayCards(found), { n: 0, said: [] }, "day", String).parts["beside"] ?? "";
  expect(part).toMatch(/Two runs disagree.*<details><summary>1 note<\/summary>.*By the way/s);
});

test("only what changed is sent; what people typed is never markup", () => {
  const hostile = { ...hard, remark: "<img src=x onerror=alert(1)>" };
  const at = (found: DayWatch) => dayView(found, dayCards(found), { n: 0, said: [] }, "day", String);
  const before = at(day([hostile, spin], [], [["H1", { kind: "toRun" }], ["S1", { kind: "toRun" }]]));
  const after = at(day([hostile, spin], [runResult(hostile, {})], [ready("H1"), ["S1", { kind: "toRun" }]]));
  const sent = JSON.parse(message("i", after, before).slice("data: ".length)) as { parts: object; cards: Record<string, string>; order: string[] };
  expect(Object.keys(sent.parts)).toEqual(["next"]);
  expect(sent.order).toEqual(["H1"]);
  expect(sent.cards["H1"]).toContain("&lt;img");
  expect(JSON.stringify([sent, before])).not.toContain("<img");
  const same = JSON.parse(message("i", after, after).slice("data: ".length)) as { parts: object; cards: object };
  expect([same.parts, same.cards]).toEqual([{}, {}]);
});
