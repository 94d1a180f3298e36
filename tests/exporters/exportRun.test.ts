import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { exportRun } from "../../src/exporters/exportRun.ts";
import { readLog } from "../../src/importers/readLog.ts";
import { prepareRun } from "../../src/processing/prepareRun.ts";
import { readCampaign } from "../../src/campaign/readCampaign.ts";
import { removeDays, tinyFiles, writeDay } from "../helpers/tinyDay.ts";

const root = mkdtempSync(join(tmpdir(), "drawbar-export-"));
const day = writeDay(tinyFiles());
afterAll(() => (rmSync(root, { recursive: true }), removeDays()));

const drawbar = (...args: string[]): { status: number | null; out: string; err: string } => {
  const { status, stdout, stderr } = spawnSync(process.execPath, ["--import", "tsx", join("src", "cli", "main.ts"), ...args], { encoding: "utf8" });
  return { status, out: stdout, err: stderr };
};

describe("a run of a day", () => {
  it("is written as it is measured, with its trail", async () => {
    const { files } = await exportRun(day, "T1", "csv");
    expect(files.map(({ name }) => name)).toEqual(["T1_box.csv"]);
    const text = new TextDecoder().decode(files[0]?.bytes);
    for (const line of ["# rig: Tiny rig\n", "# run: T1\n", "# logger: box\n", "# source 1: logs/T1.csv\n", "# step 1: calibrate 1 "]) expect(text).toContain(line);
    const campaign = readCampaign(day);
    const { run } = await prepareRun(campaign.runs[1] as (typeof campaign.runs)[0], campaign.wheels[0] ?? null, campaign.rig, (path, options) => readLog(day, path, options));
    const rows = text.split("\n").filter((line) => line !== "" && !line.startsWith("#")).slice(1);
    const second = rows[1]?.split(",").map(Number);
    expect(rows).toHaveLength(1001);
    expect(second?.slice(1)).toEqual(run.recordings[0]?.channels.map(({ samples }) => samples[1]));
  });

  it("that is not on the sheet is refused by name", async () => {
    await expect(exportRun(day, "T9", "csv")).rejects.toThrow('runs.csv: expected a run "T9", found H1, T1, T2');
  });
});

describe("drawbar export", () => {
  it.each(["csv", "arrow", "parquet"])("writes %s and never over a file that is there", (format) => {
    const out = join(root, format);
    const done = drawbar("export", day, "T1", "--as", format, "--out", out);
    expect([done.status, done.out]).toEqual([0, `${join(out, `T1_box.${format}`)}\n`]);
    expect(readdirSync(out)).toEqual([`T1_box.${format}`]);
    const before = readFileSync(join(out, `T1_box.${format}`));
    const again = drawbar("export", day, "T1", "--as", format, "--out", out);
    expect([again.status, again.err]).toEqual([2, expect.stringContaining("expected no file of that name, found one")]);
    expect(readFileSync(join(out, `T1_box.${format}`)).equals(before)).toBe(true);
  }, 60_000);

  it("knows its formats", () => {
    const refused = drawbar("export", day, "T1", "--as", "xls", "--out", join(root, "none"));
    expect([refused.status, refused.err]).toEqual([3, 'expected --as csv, arrow, parquet, found "xls"\n']);
    expect(existsSync(join(root, "none"))).toBe(false);
  }, 30_000);
});
