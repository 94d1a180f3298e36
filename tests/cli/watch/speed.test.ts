import { appendFileSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { seededRandom } from "../../../src/numerics/random.ts";
import { removeDays, tinyFiles, writeDay } from "../../helpers/tinyDay.ts";
import { startWatch } from "./watching.ts";

const rateHz = 1000;
const lengthS = 60;
const extras = Array.from({ length: 12 }, (_, i) => `E${i + 1}`);

/** The tiny day's run made long: 60 s, 16 channels, 1 kHz. */
function longLog(): string {
  const lines = [`t [s],W [N],P [N],A [rad],X [mm],${extras.map((name) => `${name} [N]`).join(",")}`];
  const random = seededRandom(3);
  const noise = (): number => 0.03 * random.normal();
  for (let i = 0; i < lengthS * rateHz; i++) {
    const t = i / rateHz;
    const onGround = Math.min(1, Math.max(0, t < 30 ? t - 3 : 57 - t));
    const driven = Math.min(Math.max(t - 5, 0), 49);
    const angle = (0.25 * driven) / 0.09;
    const row = [t.toFixed(3), (-10.79 + 70 * onGround + noise()).toFixed(3), ((driven > 0 && t < 54 ? 6 : 0) + noise()).toFixed(3), angle.toFixed(5), (250 * driven + noise()).toFixed(3)];
    lines.push(`${[...row, ...extras.map(() => noise().toFixed(4))].join(",")}`);
  }
  return `${lines.join("\n")}\n`;
}

afterAll(removeDays);

test("a 60 s log of 16 channels at 1 kHz has its card within 5 s of being complete", async () => {
  const files = tinyFiles();
  const rig = String(files["rig.yaml"]).trimEnd();
  const day = writeDay({ ...files, "rig.yaml": `${rig}\n${extras.map((name) => `      ${name.toLowerCase()}: { column: ${name}, unit: N, extra: true }`).join("\n")}\n` });
  const text = longLog();
  for (const path of Object.keys(files)) if (path.startsWith("logs/")) rmSync(join(day, path));
  const watching = await startWatch(day);
  const path = join(day, "logs", "T1.csv");
  mkdirSync(join(day, "logs"), { recursive: true });
  // A logger writes as it goes; the last piece ends the file.
  const piece = Math.ceil(text.length / 5);
  writeFileSync(path, "");
  for (let from = 0; from < text.length; from += piece) {
    if (from > 0) await new Promise((done) => setTimeout(done, 300));
    appendFileSync(path, text.slice(from, from + piece));
  }
  const completeMs = performance.now();
  while (!/T1 {2}\w+/.test(watching.printed())) {
    if (performance.now() - completeMs > 60_000) throw new Error(`no card: ${watching.printed()}`);
    await new Promise((done) => setTimeout(done, 20));
  }
  const tookS = (performance.now() - completeMs) / 1000;
  expect(await watching.end()).toBe(0);
  console.info(`card of a 60 s, 16-channel, 1 kHz log (${(text.length / 1e6).toFixed(1)} MB): ${tookS.toFixed(2)} s after its last byte`);
  expect(watching.printed()).toContain("T1  waits: Slip: waiting for the hard-floor run of W1 at 70 N (H1)");
  expect(readFileSync(path, "utf8")).toBe(text);
  expect(tookS).toBeLessThan(5);
}, 120_000);
