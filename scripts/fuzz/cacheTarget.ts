import { isDeepStrictEqual } from "node:util";
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { readCampaign } from "../../src/campaign/readCampaign.ts";
import type { RunPlan } from "../../src/campaign/campaign.ts";
import { keptRun } from "../../src/cli/cache/keptRun.ts";
import { openStore } from "../../src/cli/cache/store.ts";
import type { RunResult } from "../../src/processing/dayResult.ts";
import { tinyFiles } from "../../tests/helpers/tinyDay.ts";
import { spoilBytes } from "./spoilBytes.ts";
import type { FuzzSample, Target } from "./target.ts";

const program = { readers: "these readers", whole: "this program" };
const references = { rollingRadii: [], drags: [], deflections: [] };

/** The first run of a day in a folder, with a cache beside it. */
async function reduced(root: string, notes: string[]): Promise<RunResult> {
  const day = join(root, "day");
  const campaign = readCampaign(day);
  const [plan] = campaign.runs as readonly [RunPlan];
  return keptRun({ folder: day, plan, wheel: campaign.wheels.find(({ id }) => id === plan.wheel) ?? null, rig: campaign.rig, references }, openStore(join(root, "cache"), (note) => notes.push(note)), program);
}

async function inFolder<T>(use: (root: string) => Promise<T>): Promise<T> {
  const root = mkdtempSync(join(tmpdir(), "drawbar-fuzz-"));
  try {
    for (const [path, content] of Object.entries(tinyFiles())) {
      mkdirSync(join(root, "day", dirname(path)), { recursive: true });
      writeFileSync(join(root, "day", path), content);
    }
    return await use(root);
  } finally {
    rmSync(root, { recursive: true, force: true });
  }
}

const whole = await inFolder(async (root) => {
  const result = await reduced(root, []);
  const entries = readdirSync(join(root, "cache")).map((name) => [name, new Uint8Array(readFileSync(join(root, "cache", name)))] as const);
  return { result, entries };
});

/** A spoilt entry is said to be spoilt, changes no result, and is whole again afterwards. @throws Error where one of these fails */
function entrySample([name, good]: readonly [string, Uint8Array]): FuzzSample {
  const read = (bytes: Uint8Array): Promise<void> =>
    inFolder(async (root) => {
      mkdirSync(join(root, "cache"));
      writeFileSync(join(root, "cache", name), bytes);
      const notes: string[] = [];
      const result = await reduced(root, notes);
      if (!isDeepStrictEqual(result, whole.result)) throw new Error("another result than without a spoilt entry");
      const spoilt = !Buffer.from(bytes).equals(good);
      if (spoilt !== notes.some((note) => /is damaged/.test(note))) throw new Error(`${spoilt ? "a spoilt" : "a whole"} entry, and the notes: ${notes.join("; ") || "none"}`);
      // Not the bytes: what is kept tells a whole number that was computed as a fraction from one that was not.
      const again: string[] = [];
      if (!isDeepStrictEqual(await reduced(root, again), whole.result) || again.length > 0) throw new Error(`the entry was not made anew: ${again.join("; ") || "another result"}`);
    });
  return { name: name.replace(/-.*/, ""), bytes: good, read };
}

/** What is kept between runs: one log's table and one run's result, each asked for alone. */
export const cacheTarget: Target = {
  name: "cache",
  samples: whole.entries.map(entrySample),
  spoils: { ...spoilBytes, "another entry's bytes": (bytes) => (whole.entries.find(([, other]) => !Buffer.from(other).equals(bytes)) as readonly [string, Uint8Array])[1], "nothing": () => new Uint8Array(0), "left alone": (bytes) => bytes },
};
