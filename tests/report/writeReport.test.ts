import { spawn } from "node:child_process";
import { createHash } from "node:crypto";
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, it } from "vitest";
import { InputError } from "../../src/core/errors.ts";
import { writeReport } from "../../src/report/writeReport.ts";
import { explained, reportFiles, writeTogether } from "../../src/report/writeTogether.ts";
import { sampleDay } from "./sampleDay.ts";

const root = mkdtempSync(join(tmpdir(), "drawbar-write-"));
afterAll(() => rmSync(root, { recursive: true, force: true }));
const options = { madeAt: "2026-11-25T10:00:00Z" };
let folders = 0;
const fresh = (): string => join(root, `case ${folders++}`, "out");

/** What the four files say of themselves; throws when one is missing, torn or from another writing. */
function marksOf(folder: string): string {
  const [page, results, soil] = ["report.html", "results.json", "soil.json"].map((name) => readFileSync(join(folder, name), "utf8")) as [string, string, string];
  const table = readFileSync(join(folder, "runs.csv"), "utf8");
  const mark = (JSON.parse(results) as { drawbarVersion: string }).drawbarVersion;
  expect((JSON.parse(soil) as { drawbarVersion: string }).drawbarVersion).toBe(mark);
  expect(page).toContain(`drawbar ${mark}"`);
  expect(table.endsWith("\r\n")).toBe(true);
  if (page.length > 1000) {
    expect(page.trimEnd().endsWith("</html>")).toBe(true);
    for (const text of [results, soil, table]) expect(page).toContain(createHash("sha256").update(text, "utf8").digest("hex"));
  }
  return mark;
}

describe("writeReport", { timeout: 60_000 }, () => {
  it("writes four files that name each other by hash, and the same bytes again", () => {
    const out = fresh();
    writeReport(sampleDay(), out, options);
    expect(readdirSync(out).sort()).toEqual([...reportFiles].sort());
    marksOf(out);
    const before = reportFiles.map((name) => readFileSync(join(out, name)));
    writeReport(sampleDay(), out, options);
    expect(reportFiles.map((name) => readFileSync(join(out, name)))).toEqual(before);
    expect(readdirSync(dirname(out))).toEqual(["out"]);
  });
  it("keeps files that people put beside an earlier report, also through a symbolic link", () => {
    const out = fresh();
    writeReport(sampleDay(), out, options);
    writeFileSync(join(out, "notes.txt"), "mine");
    mkdirSync(join(out, "photos"));
    writeReport(sampleDay(), out, options);
    symlinkSync(out, `${out}-link`);
    writeReport(sampleDay(), `${out}-link`, options);
    expect(readFileSync(join(out, "notes.txt"), "utf8")).toBe("mine");
    expect(readdirSync(out).sort()).toEqual([...reportFiles, "notes.txt", "photos"].sort());
  });
  it("refuses a folder that holds something else, and a file, and says what to do", () => {
    const out = fresh();
    mkdirSync(out, { recursive: true });
    writeFileSync(join(out, "thesis.doc"), "precious");
    const code = (path: string): string => {
      try {
        writeReport(sampleDay(), path, options);
      } catch (error) {
        expect(error).toBeInstanceOf(InputError);
        const issue = (error as InputError).issues[0];
        expect(issue?.hint.length).toBeGreaterThan(10);
        return issue?.code ?? "";
      }
      return "written";
    };
    expect(code(out)).toBe("out-not-empty");
    expect(readdirSync(out)).toEqual(["thesis.doc"]);
    expect(code(join(out, "thesis.doc"))).toBe("out-not-a-folder");
    expect(code(join(out, "thesis.doc", "deeper"))).toBe("out-not-a-folder");
    expect(readdirSync(dirname(out))).toEqual(["out"]);
  });
  it("says what to do where it may not write; root may everywhere", () => {
    const out = fresh();
    mkdirSync(dirname(out), { recursive: true });
    chmodSync(dirname(out), 0o500);
    const write = (): void => writeReport(sampleDay(), out, options);
    if (process.getuid?.() === 0) expect(write).not.toThrow();
    else expect(write).toThrow(/read-only/);
    chmodSync(dirname(out), 0o700);
  });
  it("leaves the earlier report and no rest when a file cannot be written", () => {
    const out = fresh();
    writeReport(sampleDay(), out, options);
    const mark = marksOf(out);
    const twice = { name: "results.json", text: "{}" };
    expect(() => writeTogether(out, [twice, twice])).toThrow();
    expect(marksOf(out)).toBe(mark);
    expect(readdirSync(dirname(out))).toEqual(["out"]);
  });
  it("says what to do for a full disk, a read-only one and a mount point", () => {
    const said = (code: string): string => (explained(Object.assign(new Error(code), { code }), "out") as Error).message;
    expect(said("ENOSPC")).toMatch(/^out: expected room on the disk, found it full\. Free some space/);
    expect(said("EROFS")).toMatch(/read-only\. Give another folder/);
    expect(said("EBUSY")).toMatch(/mount point\. Give a folder inside it/);
    const unknown = new Error("a fault of our own");
    expect(explained(unknown, "out")).toBe(unknown);
  });
  it("takes up a writing that died between the two renames, or just after them", () => {
    const out = fresh();
    writeReport({ ...sampleDay(), drawbarVersion: "old" }, out, options);
    writeFileSync(join(out, "notes.txt"), "mine");
    // between: only the previous folder is there
    const previous = `${out}.drawbar-previous`;
    rmSync(previous, { recursive: true, force: true });
    renameForTest(out, previous);
    mkdirSync(`${out}.drawbar-new-999999999`);
    writeReport({ ...sampleDay(), drawbarVersion: "new" }, out, options);
    expect(marksOf(out)).toBe("new");
    // just after: both are there, the notes still in the old one
    renameForTest(out, previous);
    writeReport({ ...sampleDay(), drawbarVersion: "newer" }, join(dirname(out), "other"), options);
    renameForTest(join(dirname(out), "other"), out);
    writeReport({ ...sampleDay(), drawbarVersion: "newest" }, out, options);
    expect(marksOf(out)).toBe("newest");
    expect(readFileSync(join(out, "notes.txt"), "utf8")).toBe("mine");
    expect(readdirSync(dirname(out))).toEqual(["out"]);
  });
  it("killed at random moments, 12 times: the four files are whole and belong together, old or new", async () => {
    const moments = { during: 0 };
    for (const mode of ["report", "files"] as const) {
      const out = fresh();
      mkdirSync(dirname(out), { recursive: true });
      for (let round = 0; round < (mode === "report" ? 3 : 9); round++) {
        await killedWhileWriting(out, mode, 20 + ((round * 37) % 120));
        const whole = existsSync(out) ? out : `${out}.drawbar-previous`;
        expect(Number(marksOf(whole))).toBeGreaterThan(0);
        if (readdirSync(dirname(out)).length > 1 || whole !== out) moments.during++;
      }
      writeReport({ ...sampleDay(), drawbarVersion: "last" }, out, options);
      expect(marksOf(out)).toBe("last");
      expect(readdirSync(dirname(out))).toEqual(["out"]);
    }
    // A test in which no kill ever struck while something was being written would prove nothing.
    expect(moments.during).toBeGreaterThan(1);
  }, 180_000);
});

function renameForTest(from: string, to: string): void {
  rmSync(to, { recursive: true, force: true });
  mkdirSync(to);
  for (const name of readdirSync(from)) writeFileSync(join(to, name), readFileSync(join(from, name)));
  rmSync(from, { recursive: true });
}

/** Starts a child that writes over and over, waits for its first report, and kills it after so many milliseconds more. */
function killedWhileWriting(out: string, mode: string, afterMs: number): Promise<void> {
  const script = fileURLToPath(new URL("writeUntilKilled.ts", import.meta.url));
  const child = spawn(process.execPath, ["--import", "tsx", script, out, mode], { stdio: ["ignore", "pipe", "pipe"] });
  let complaint = "";
  child.stderr.on("data", (chunk: Buffer) => (complaint += chunk.toString()));
  return new Promise((done, fail) => {
    child.stdout.once("data", () => setTimeout(() => child.kill("SIGKILL"), afterMs));
    child.on("exit", (code, signal) => (signal === "SIGKILL" ? done() : fail(new Error(`the child ended by itself (${code}): ${complaint}`))));
  });
}
