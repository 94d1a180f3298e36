import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
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
