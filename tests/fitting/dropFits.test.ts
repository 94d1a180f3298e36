import { expect, test } from "vitest";
import type { Campaign } from "../../src/campaign/campaign.ts";
import { dropFitsFrom } from "../../src/fitting/dropFits.ts";
import { wheelBlow } from "../../src/models/wheelBlow.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { agrees } from "../helpers/agrees.ts";
import { madeContact, madeDrops, madeEstimate, madeGravity } from "../helpers/madeContact.ts";
import { runResult } from "../helpers/runResult.ts";
import { madeDrop, plan, usual, wheel } from "../processing/madeDrop.ts";

const { rig } = madeDrop({ ...usual, durationS: 0.01 }).run;
const predict = [{ height: 0.15, gravity: madeGravity }, { height: 0.5, gravity: madeGravity }, { height: 0.2, gravity: 1.62 }];
const campaign: Pick<Campaign, "rig" | "wheels"> = { rig: { ...rig, drop: { ...(rig.drop as NonNullable<typeof rig.drop>), predict } }, wheels: [wheel] };
const names = ["peakAcceleration", "largestCompression", "contactDuration", "restitution"];

function runs(noise: number, change: (name: string, heightM: number) => number = () => 1): RunResult[] {
  return madeDrops(1, noise).map((drop) => {
    const run = runResult({ ...plan, id: drop.run, dropHeightM: drop.heightM }, {});
    const measure = (name: string, estimate: RunResult["measures"][number]["estimate"]) => ({ name, label: name, estimate: { ...estimate, value: estimate.value * change(name, drop.heightM ?? 0) }, segment: null });
    return { ...run, measures: [measure("impactSpeed", drop.speed), ...drop.observed.map((one, i) => measure(names[i] as string, one))] };
  });
}

test("predictions at asked heights and gravities: between, beyond, elsewhere", () => {
  const [fits] = dropFitsFrom(runs(0.002), campaign);
  expect(fits?.wheel).toBe("W1");
  expect(fits?.contact.verdict).toBe("determined");
  expect(fits?.restitution.verdict).toBe("determined");
  expect(fits?.predicted.map((one) => one.extrapolated)).toEqual([false, true, false]);
  expect(fits?.predicted.map((one) => one.cautions.length)).toEqual([0, 1, 1]);
  const [between, , moon] = fits?.predicted ?? [];
  const truth = wheelBlow(madeContact, Math.sqrt(2 * 1.62 * 0.2), 1.62);
  agrees(moon?.force?.value ?? Number.NaN, { expected: 4.5 * (truth.peakAcceleration + 1.62), relative: 0.01, source: "the made contact, m = 4.5 kg, F = m (a + g)" });
  expect(between?.force?.budget.some((row) => row.cause.includes("mass"))).toBe(true);
  expect(fits?.heldOut.length).toBe(48);
});

test("what a held-out height missed widens what is predicted as far out, and is looked at", () => {
  const stiffer = runs(0.002, (name, heightM) => (name === "peakAcceleration" && heightM === 0.2 ? 1.25 : 1));
  const [fits] = dropFitsFrom(stiffer, campaign);
  const [plain] = dropFitsFrom(runs(0.002), campaign);
  expect(fits?.contact.findings.map((one) => one.code)).toContain("contact-misses-held-out");
  const width = (one: typeof fits, at: number): number => (one?.predicted[at]?.acceleration.standardUncertainty ?? 0) / (one?.predicted[at]?.acceleration.value ?? 1);
  expect(width(fits, 1)).toBeGreaterThan(0.1);
  expect(width(fits, 1)).toBeGreaterThan(5 * width(plain, 1));
});

test("nothing asked, nothing predicted; too few heights say so", () => {
  expect(dropFitsFrom(runs(0), { ...campaign, rig })[0]?.predicted).toEqual([]);
  const [few] = dropFitsFrom(runs(0).filter((run) => (run.plan.dropHeightM ?? 0) > 0.06), campaign);
  expect(few?.contact.verdict).toBe("undetermined");
  expect(few?.predicted).toEqual([]);
  expect(few?.misfit).toBeNaN();
  expect(dropFitsFrom([], campaign)).toEqual([]);
});

test("a drop without a restitution is left out with its reason", () => {
  const all = runs(0);
  const first = all[0] as RunResult;
  const without = [{ ...first, measures: first.measures.filter((one) => one.name !== "restitution") }, ...all.slice(1)];
  const [fits] = dropFitsFrom(without, campaign);
  expect(fits?.restitution.points.find((point) => !point.kept)?.reason).toContain("no restitution");
  const blind = [{ ...first, measures: first.measures.map((one) => (one.name === "restitution" ? { ...one, estimate: { ...madeEstimate(0.5, "1", "x", 0.1), standardUncertainty: null, method: "it stayed down" } } : one)) }, ...all.slice(1)];
  expect(dropFitsFrom(blind, campaign)[0]?.restitution.points.find((point) => !point.kept)?.reason).toContain("it stayed down");
});
