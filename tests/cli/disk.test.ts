import { spawn, spawnSync } from "node:child_process";
import { closeSync, existsSync, mkdirSync, mkdtempSync, openSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { removeDays, tinyFiles, writeDay } from "../helpers/tinyDay.ts";

const main = fileURLToPath(new URL("../../src/cli/main.ts", import.meta.url));
const root = mkdtempSync(join(tmpdir(), "drawbar-disk-"));
const [full, readOnly] = [join(root, "full"), join(root, "read-only")];
const mount = (options: string, folder: string): boolean => {
  mkdirSync(folder, { recursive: true });
  return process.platform === "linux" && spawnSync("mount", ["-t", "tmpfs", "-o", options, "tmpfs", folder]).status === 0;
};
const mounted = [mount("size=16k", full), mount("size=16k,ro", readOnly)];
const mayMount = mounted.every((is) => is);
let day = "";

beforeAll(() => {
  day = writeDay(tinyFiles());
  // 16 kB are four pages: one is left.
  if (mayMount) writeFileSync(join(full, "filler"), new Uint8Array(8192));
});
afterAll(() => {
  [full, readOnly].forEach((folder, index) => mounted[index] === true && spawnSync("umount", [folder]));
  rmSync(root, { recursive: true, force: true });
  removeDays();
});

/** What the program prints as errors, and how it ends. */
function drawbar(...args: string[]): Promise<{ readonly code: number | null; readonly said: string }> {
  const child = spawn(process.execPath, ["--import", "tsx", main, ...args], { stdio: ["ignore", "ignore", "pipe"] });
  let said = "";
  child.stderr.on("data", (chunk: Buffer) => (said += chunk.toString()));
  return new Promise((done) => child.on("close", (code) => done({ code, said })));
}

describe("a disk that takes no files", () => {
  const cases = [["reduce", full, "found it full"], ["export", full, "found it full"], ["reduce", readOnly, "found it read-only"], ["export", readOnly, "found it read-only"]] as const;
  for (const [command, disk, words] of cases) it(`${command}: one plain line "${words}" and exit code 2, nothing half-written`, async ({ skip }) => {
    skip(!mayMount, "this user may not mount a disk");
    const out = join(disk, "out");
    const { code, said } = await drawbar(...(command === "reduce" ? ["reduce", day, "--quiet", "--no-cache", "--out", out] : ["export", day, "T1", "--as", "csv", "--out", out]));
    expect(said).toContain(words);
    expect(said).not.toMatch(/\n\s+at |Error:/);
    expect(code).toBe(2);
    if (existsSync(out)) expect(readdirSync(out)).toEqual([]);
    expect(readdirSync(disk).filter((name) => name.includes("drawbar-"))).toEqual([]);
  }, 240_000);
});

describe("a watch over a day goes on", () => {
  /** Watches until a text comes, on output or among the errors, then ends it as a person would. */
  async function watched(until: RegExp, output: number | "pipe", ...args: string[]): Promise<{ readonly code: number | null; readonly said: string; readonly printed: string }> {
    const child = spawn(process.execPath, ["--import", "tsx", main, "watch", day, "--settle", "0.2", ...args], { stdio: ["ignore", output, "pipe"] });
    let [said, printed] = ["", ""];
    let ended = false;
    const look = (): void => {
      // A second one would end it at once.
      if (until.test(said + printed) && !ended) ended = child.kill("SIGINT");
    };
    child.stdout?.on("data", (chunk: Buffer) => ((printed += chunk.toString()), look()));
    child.stderr?.on("data", (chunk: Buffer) => ((said += chunk.toString()), look()));
    return new Promise((done) => child.on("close", (code) => done({ code, said, printed })));
  }

  for (const [disk, code] of [[full, "ENOSPC"], [readOnly, "EROFS"]] as const) it(`with every run read, though its cache meets ${code}`, async ({ skip }) => {
    skip(!mayMount, "this user may not mount a disk");
    const { code: ended, said, printed } = await watched(/ T2 {2}\w/, "pipe", "--cache", disk);
    expect(said.match(/cannot be written \(\w+\)/g)).toEqual([`cannot be written (${code})`]);
    expect(said).not.toMatch(/\n\s+at |Error:/);
    expect(["H1", "T1", "T2"].filter((run) => printed.includes(`  ${run}  `))).toEqual(["H1", "T1", "T2"]);
    expect(ended).toBe(0);
  }, 240_000);

  it("though what it prints meets a full disk", async ({ skip }) => {
    skip(!existsSync("/dev/full"), "no /dev/full here");
    const output = openSync("/dev/full", "w");
    const { code, said } = await watched(/cannot be written/, output, "--no-cache");
    closeSync(output);
    expect(said).toBe("What the watch prints cannot be written (ENOSPC); the live page goes on.\n");
    expect(code).toBe(0);
  }, 240_000);
});
