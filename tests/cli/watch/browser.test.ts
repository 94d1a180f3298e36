import { createHash } from "node:crypto";
import { appendFileSync, cpSync, readFileSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { chromium } from "playwright-core";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { emptyDay, excerpt, startWatch } from "./watching.ts";
import type { Watching } from "./watching.ts";

const executablePath = process.env["DRAWBAR_CHROMIUM"] ?? "/usr/bin/chromium";
const flags = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];
const shots = process.env["DRAWBAR_SHOTS"];
const log = (name: string): string => join(excerpt, "logs", name);

// One day at the rig from morning to evening: the tests are its moments, in order.
describe("drawbar watch in a browser", () => {
  const day = emptyDay();
  let browser: Browser;
  let page: Page;
  let watching: Watching;
  const complaints: string[] = [];
  const card = (run: string) => page.locator(`#run-${run}`);
  const land = (name: string, as = name): void => cpSync(log(name), join(day, "logs", as));
  const shoot = async (name: string): Promise<void> => void (shots !== undefined && (await page.screenshot({ path: join(shots, `watch-${name}.png`), fullPage: true })));

  beforeAll(async () => {
    browser = await chromium.launch({ executablePath, args: flags });
    watching = await startWatch(day);
    page = await browser.newPage({ viewport: { width: 1360, height: 900 }, colorScheme: "light" });
    page.on("console", (message) => complaints.push(`console ${message.type()}: ${message.text()}`));
    page.on("pageerror", (error) => complaints.push(`error: ${error.message}`));
    page.on("request", (request) => {
      if (!request.url().startsWith(watching.address) && !request.url().startsWith("data:")) complaints.push(`request: ${request.url()}`);
    });
    await page.goto(watching.address);
    await page.waitForSelector("html[data-ready=yes]");
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    watching?.process.kill("SIGKILL");
    rmSync(dirname(day), { recursive: true, force: true });
  });

  test("it is bound to this machine and answers to its own name only", async () => {
    expect(watching.address).toMatch(/^http:\/\/127\.0\.0\.1:\d+\/$/);
    expect((await fetch(`${watching.address}runs.csv`)).status).toBe(404);
    expect((await fetch(watching.address, { method: "POST" })).status).toBe(405);
  });

  test("before the first file: what is to run, in the sheet's order", async () => {
    expect(await page.locator("#next").innerText()).toMatch(/Next: R001\s+Load–deflection · wheel W3[\s\S]*R002[\s\S]*R011/);
    expect(await page.locator(".card").count()).toBe(0);
    expect(await page.title()).toBe("Live: Bench 2");
  });

  test("half a file gets no verdict; the card is there within 5 s of the other half", async () => {
    const whole = readFileSync(log("R005_press.csv"));
    const half = whole.subarray(0, Math.floor(whole.length / 2) + 5);
    expect([10, 13]).not.toContain(half.at(-1));
    writeFileSync(join(day, "logs", "R005_press.csv"), half);
    await card("R005").waitFor();
    await page.locator("#run-R005", { hasText: "no end yet" }).waitFor();
    await page.waitForTimeout(2500);
    expect(await card("R005").innerText()).toMatch(/Waits[\s\S]*The last line of logs\/R005_press\.csv has no end yet/);
    expect(await page.locator(".card.s-go, .card.s-look, .card.s-repeat, .card.s-unread").count()).toBe(0);
    appendFileSync(join(day, "logs", "R005_press.csv"), whole.subarray(half.length));
    const from = performance.now();
    await page.locator("#run-R005.s-go").waitFor();
    expect(performance.now() - from).toBeLessThan(5000);
    expect(await page.title()).toBe("✓ R005 Go · Bench 2");
    expect(await page.locator("#spoken").textContent()).toBe("R005: Go, use it.");
    expect(await page.locator("#latest .big").innerText()).toMatch(/R005 Go/);
    expect(await card("R005").innerText()).toMatch(/±/);
    expect(await page.locator("#next").innerText()).not.toMatch(/R005/);
  });

  test("a run whose second file does not come says what it waits for", async () => {
    land("R009_frame.txt");
    await page.locator("#run-R009", { hasText: "complete since" }).waitFor();
    expect(await card("R009").innerText()).toMatch(/Waiting for logs\/R009_drive\.csv of the logger “drive”; logs\/R009_frame\.txt, complete since \d\d:\d\d:\d\d/);
  });

  test("a traction run waits for the hard-floor run it needs, and is judged when that is there", async () => {
    land("R009_drive.csv");
    await page.locator("#run-R009.s-others").waitFor();
    expect(await card("R009").innerText()).toContain("Slip: waiting for the hard-floor run of W3 at 70 N (R002)");
    expect(await card("R009").innerText()).toContain("Torque: waiting for the free-spin runs of W3 (R003, R004)");
    // A long reason must not squeeze the name beside it.
    expect((await card("R009").locator("dt", { hasText: "Slip" }).boundingBox())?.height).toBeLessThan(40);
    await shoot("waits");
    for (const name of ["R002_frame.txt", "R002_drive.csv", "R003_frame.txt", "R003_drive.csv", "R004_frame.txt", "R004_drive.csv"]) land(name);
    await page.locator("#run-R009.s-go").waitFor();
    expect(await card("R009").innerText()).toContain("Sinkage: waiting for the load–deflection run of W3 (R001)");
    land("R001_press.csv");
    await page.locator("#run-R009.s-go", { hasNotText: "waiting" }).waitFor();
    expect(await card("R009").innerText()).toMatch(/Sinkage, running\s+\d+\.\d+ ± \d+\.\d+ mm/);
    // It was never called a run to repeat on the way.
    expect(watching.printed()).not.toMatch(/R009 {2}repeat/);
  });

  test("a mistake in the sheet is shown with its place, and the last good sheet stays in use", async () => {
    const sheet = readFileSync(join(day, "runs.csv"), "utf8");
    writeFileSync(join(day, "runs.csv"), sheet.replace("load [N]", "load [furlong]"));
    await page.locator("#mistakes section.urgent").waitFor();
    expect(await page.locator("#mistakes").innerText()).toMatch(/stay in use until then[\s\S]*runs\.csv, column "load \[furlong\]"/);
    expect(await page.locator("#run-R009.s-go").count()).toBe(1);
    const cells = (sheet.split("\n")[0] as string).split(";").length;
    const row = (run: string, repeat: number): string => [run, "traction", "W3", "B02", "70", "20", "250", String(repeat), "A"].concat(new Array<string>(cells - 9).fill("")).join(";");
    writeFileSync(join(day, "runs.csv"), `${sheet.trimEnd()}\n${row("R112", 2)}\n${row("R113", 3)}\n`);
    await page.locator("#next", { hasText: "R112" }).waitFor();
    expect((await page.locator("#mistakes").innerText()).trim()).toBe("");
    expect(await page.locator("#next").innerText()).toMatch(/R011[\s\S]*R112 Traction · wheel W3 · bed B02 · 70 N, slip 20 %, 250 mm\/s, repeat 2/);
  });

  test("a broken file is called so, with its reason", async () => {
    const lines = readFileSync(log("R007_shear.csv"), "latin1").split("\n");
    const middle = Math.floor(lines.length / 2);
    lines[middle] = (lines[middle] ?? "").replace(/\d/, "x?");
    writeFileSync(join(day, "logs", "R007_shear.csv"), lines.join("\n"), "latin1");
    await page.locator("#run-R007.s-unread").waitFor();
    expect(await card("R007").innerText()).toContain(`logs/R007_shear.csv line ${middle + 1}`);
    expect(await page.title()).toMatch(/^× R007 Unread/);
    expect(await page.locator("#act").innerText()).toMatch(/Not read: mend the input\s+R007/);
    // The logger's file is put in place: the card follows by itself.
    land("R007_shear.csv");
    await page.locator("#run-R007.s-go").waitFor();
  });

  test("a file under a wrong name is to be repeated, and stays named until it is put right", async () => {
    for (const logger of ["frame.txt", "drive.csv"]) {
      land(`R010_${logger}`);
      land(`R010_${logger}`, `R112_${logger}`);
    }
    await page.locator("#run-R112.s-repeat").waitFor();
    expect(await card("R112").innerText()).toMatch(/belongs to run R010, not to R112/);
    expect(await page.locator("#act").innerText()).toMatch(/Repeat now\s+R112/);
    await shoot("repeat-light-1360");
    await page.emulateMedia({ colorScheme: "dark" });
    await shoot("repeat-dark-1360");
    await page.setViewportSize({ width: 390, height: 860 });
    expect(await page.evaluate(`document.documentElement.scrollWidth <= innerWidth`)).toBe(true);
    await shoot("repeat-dark-390");
    await page.emulateMedia({ colorScheme: "light" });
    await page.setViewportSize({ width: 1360, height: 900 });
  });

  test("a repeat stands beside its repeats", async () => {
    // Not the very same numbers, which no two runs can give: the logs begin a few rows later.
    const later = (name: string, header: number, rows: number): string => readFileSync(log(name), "latin1").split("\n").filter((_, line) => line < header || line >= header + rows).join("\n");
    for (const [i, run] of ["R112", "R113"].entries()) {
      writeFileSync(join(day, "logs", `${run}_frame.txt`), later("R010_frame.txt", 8, 3 + 4 * i).replace("Run\tR010", `Run\t${run}`), "latin1");
      writeFileSync(join(day, "logs", `${run}_drive.csv`), later("R010_drive.csv", 1, 2 + 3 * i), "latin1");
    }
    await page.locator("#run-R112:not(.s-repeat):not(.s-files)").waitFor();
    await page.locator("#run-R113:not(.s-files)").waitFor();
    await page.locator("#run-R113", { hasText: "2 other repeats" }).waitFor();
    expect(await card("R113").innerText()).toMatch(/2 other repeats: 0\.15\d+ \(R010\), 0\.15\d+ \(R112\)\. This one less their mean/);
    await shoot("repeats-light-1360");
  });

  test("it ends with Ctrl-C; the page says that it is no longer live; the day folder holds what people put there", async () => {
    const files = (): string => [day, join(day, "logs")].flatMap((folder) => readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isFile()).map((entry) => `${entry.name} ${createHash("sha256").update(readFileSync(join(folder, entry.name))).digest("hex")}`)).join("\n");
    const before = files();
    expect(complaints).toEqual([]);
    expect(await watching.end()).toBe(0);
    expect(watching.printed()).toMatch(/Ended\./);
    await page.locator("#line.lost").waitFor();
    expect(await page.locator("#line").innerText()).toMatch(/^Connection lost: this page is as of \d\d:\d\d:\d\d/);
    expect(files()).toBe(before);
    // Files that the program did not put beside the logs.
    expect(readdirSync(day).sort()).toEqual(["beds.csv", "cones.csv", "logs", "rig.yaml", "runs.csv", "surfaces.csv", "wheels.csv"]);
  });
});
