import { createHash } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import type { ReadOptions } from "../../src/importers/contract.ts";
import { logInPieces } from "../../src/importers/logInPieces.ts";
import type { LogPiece } from "../../src/importers/logInPieces.ts";
import { readLog } from "../../src/importers/readLog.ts";
import { plain } from "./sample.ts";

const folder = mkdtempSync(join(tmpdir(), "drawbar-pieces-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const rows = (count: number, row = (i: number): string => `${i / 10},${i % 7}.5\n`): string => Array.from({ length: count }, (_, i) => row(i)).join("");

async function inPieces(text: string, options: Partial<ReadOptions> = {}, pieceBytes = 50): Promise<{ end: Awaited<ReturnType<typeof logInPieces>>; pieces: LogPiece[] }> {
  writeFileSync(join(folder, "log.csv"), text);
  const pieces: LogPiece[] = [];
  const end = await logInPieces(folder, "log.csv", { ...plain, ...options }, (piece) => pieces.push(piece), { leastBytes: 0, pieceBytes });
  return { end, pieces };
}

/** The pieces as one table, each overlap found to be the row before. */
function joined(pieces: readonly LogPiece[]): { timesS: number[]; samples: number[]; overloaded: number[] } {
  const all = { timesS: [] as number[], samples: [] as number[], overloaded: [] as number[] };
  pieces.forEach(({ timesS, columns: [column] }, index) => {
    const samples = [...(column?.samples ?? [])];
    const skip = index === 0 ? 0 : 1;
    if (skip === 1) expect([timesS[0], samples[0]]).toEqual([all.timesS.at(-1), all.samples.at(-1)]);
    all.overloaded.push(...(column?.overloaded ?? []).map((row) => row - skip + all.timesS.length));
    all.timesS.push(...[...timesS].slice(skip));
    all.samples.push(...samples.slice(skip));
  });
  return all;
}

const cases: readonly (readonly [name: string, text: string, options?: Partial<ReadOptions>])[] = [
  ["elapsed", `t,F\n${rows(60)}`],
  ["elapsed, milliseconds, cut end, zero bytes", `t,F\n${rows(60)}6,1\0\0\0`, { clock: { kind: "elapsed", column: "t", unit: "ms" } }],
  ["rate", `F\n${rows(99, (i) => `${i}\n`)}`, { clock: { kind: "rate", rateHz: 30 } }],
  ["serial days", `t,F\n${rows(40, (i) => `${46_296 + i / 1000},${i}\n`)}`, { clock: { kind: "serial", column: "t", epoch: 1900, zone: "Europe/Oslo" } }],
  ["stamps", `t,F\n${rows(40, (i) => `2026-10-01T08:00:${String(i + 10)}.125Z,${i}\n`)}`, { clock: { kind: "iso", column: "t" } }],
  ["stamps over midnight, restarted", `t,F\n${rows(20, (i) => `23:59:${String(20 + i)},${i}\n`)}t,F\n${rows(20, (i) => `00:00:${String(20 + i)},${i}\n`)}`, { clock: { kind: "wall", column: "t", format: "HH:mm:ss", zone: "UTC", startDate: "2026-10-01" } }],
  ["overloads", `t,F\n${rows(60, (i) => `${i},${i % 9 === 0 ? "OVR" : "2.5"}\n`)}`, { overload: ["OVR"] }],
];

describe("a log handed out in pieces", () => {
  it.each(cases.map(([name, text, options = {}]) => ({ name, text, options })))("joins to what it is whole: $name", async ({ text, options }) => {
    const { end, pieces } = await inPieces(text, options);
    const { timesS, columns, ...whole } = await readLog(folder, "log.csv", { ...plain, ...options });
    expect(pieces.length).toBeGreaterThan(5);
    expect(joined(pieces)).toEqual({ timesS: [...timesS], samples: [...(columns[0]?.samples ?? [])], overloaded: columns[0]?.overloaded });
    expect(end).toEqual(whole);
    expect(end.source.sha256).toBe(createHash("sha256").update(text).digest("hex"));
  });

  it("is handed out no further once something is wrong, and refused with all mistakes", async () => {
    const text = `t,F\n${rows(30)}3.0,bad\n${rows(30)}6.1,worse\n`;
    writeFileSync(join(folder, "log.csv"), text);
    const pieces: LogPiece[] = [];
    const read = logInPieces(folder, "log.csv", plain, (piece) => pieces.push(piece), { leastBytes: 0, pieceBytes: 50 });
    await expect(read).rejects.toMatchObject({ issues: [{ code: "text-in-number", at: 'log.csv line 32, column "F"' }, { code: "text-in-number", at: 'log.csv line 63, column "F"' }] });
    expect(joined(pieces).timesS.length).toBeLessThanOrEqual(30);
  });

  it("comes as one piece where it is small", async () => {
    writeFileSync(join(folder, "log.csv"), `t,F\n${rows(60)}`);
    const pieces: LogPiece[] = [];
    await logInPieces(folder, "log.csv", plain, (piece) => pieces.push(piece));
    expect(pieces.map(({ timesS }) => timesS.length)).toEqual([60]);
  });

  it("asks for the encoding where a late byte is no UTF-8", async () => {
    const text = Buffer.concat([Buffer.from(`t,F,note\n${rows(9000, (i) => `${i},1,ok\n`)}`), Buffer.from("9000,1,\xb0\n", "latin1")]);
    writeFileSync(join(folder, "late.csv"), text);
    await expect(logInPieces(folder, "late.csv", plain, () => undefined, { leastBytes: 0, pieceBytes: 5000 })).rejects.toThrow("expected UTF-8 throughout");
    expect((await logInPieces(folder, "late.csv", { ...plain, encoding: "latin1" }, () => undefined, { leastBytes: 0, pieceBytes: 5000 })).source.rowsRead).toBe(9001);
  });
});
