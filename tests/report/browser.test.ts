import { mkdtempSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { chromium } from "playwright-core";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { writeReport } from "../../src/report/writeReport.ts";
import { anchor } from "../../src/report/html.ts";
import { plan } from "../helpers/pressRun.ts";
import { ownRow, runResult } from "../helpers/runResult.ts";
import { hostileName, sampleDay } from "./sampleDay.ts";

const executablePath = process.env["DRAWBAR_CHROMIUM"] ?? "/usr/bin/chromium";
const flags = ["--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update", "--disable-sync"];
const folder = mkdtempSync(join(tmpdir(), "drawbar-page-"));
/** A4 between the page's margins: 210 mm less twice 12 mm, at 96 px to the inch. */
const paperPx = Math.floor(((210 - 2 * 12) / 25.4) * 96);
const shots = process.env["DRAWBAR_SHOTS"] ?? folder;

/** More of them than stand beside each other, with as many measures as such runs have. */
const measured = ["contactArea", "contactLength", "contactLengthByDeflection", "conformityIndex", "meanPressure", "peakPressure", "peakOverMean", "footprintForce", "footprintForceRatio"];
const footprints = ["F1", "F2", "F3", "F4"].map((id) => runResult(plan("footprint", { id, wheel: "W1", setLoadN: 110, footprint: { from: "pad", ground: "step" } }), Object.fromEntries(measured.map((name) => [name, { value: 103.3, unit: "N" as const, rows: [ownRow(3.6)] }]))));

describe("report.html in a browser", () => {
  let browser: Browser;
  beforeAll(async () => {
    writeReport({ ...sampleDay(), runs: [...sampleDay().runs, ...footprints] }, join(folder, "out"), { madeAt: "2026-11-25T10:00:00Z" });
    browser = await chromium.launch({ executablePath, args: flags });
  }, 60_000);
  afterAll(async () => {
    await browser?.close();
    rmSync(folder, { recursive: true, force: true });
  });

  /** The page, with everything it complains about or asks for beyond itself. */
  async function open(width: number, colorScheme: "light" | "dark"): Promise<{ page: Page; complaints: string[] }> {
    const page = await browser.newPage({ viewport: { width, height: 860 }, colorScheme });
    const complaints: string[] = [];
    const address = pathToFileURL(join(folder, "out", "report.html")).href;
    page.on("console", (message) => complaints.push(`console ${message.type()}: ${message.text()}`));
    page.on("pageerror", (error) => complaints.push(`error: ${error.message}`));
    page.on("dialog", (dialog) => {
      complaints.push(`dialog: ${dialog.message()}`);
      void dialog.dismiss();
    });
    page.on("request", (request) => {
      if (request.url() !== address && !request.url().startsWith("data:")) complaints.push(`request: ${request.url()}`);
    });
    await page.goto(address);
    await page.waitForSelector("html[data-ready=yes]");
    return { page, complaints };
  }

  it.each([
    ["light", 1360],
    ["dark", 1360],
    ["light", 390],
    ["dark", 390],
  ] as const)("opens without a complaint, a request or sideways scrolling: %s, %i px", async (scheme, width) => {
    const { page, complaints } = await open(width, scheme);
    await page.evaluate(`document.querySelectorAll("details.day").forEach((part) => { part.open = true; }); [...document.querySelectorAll("details.run")].filter((part, place, all) => place < 3 || place > all.length - 6).forEach((part) => { part.open = true; }); document.getElementById("run-T1").scrollIntoView()`);
    await until(page, `document.querySelectorAll(".u-wrap canvas").length > 0`);
    expect(await page.evaluate(`document.documentElement.scrollWidth <= innerWidth`)).toBe(true);
    const wider = `[...document.querySelectorAll("${width > 1000 ? "main" : "#footprints"} .scroll")].filter((part) => part.scrollWidth > part.clientWidth + 1).map((part) => part.closest("section").id + ": " + part.textContent.slice(0, 60))`;
    expect(await page.evaluate(wider), "tables that scroll inside themselves").toEqual([]);
    const ground = await page.evaluate(`getComputedStyle(document.body).backgroundColor`);
    expect(ground).toBe(scheme === "light" ? "rgb(251, 250, 247)" : "rgb(20, 25, 29)");
    expect(complaints).toEqual([]);
    const shot = join(shots, `report-${scheme}-${width}.png`);
    await page.screenshot({ path: shot, fullPage: true });
    expect(statSync(shot).size).toBeGreaterThan(20_000);
    await page.close();
  }, 60_000);

  it("has text and axes that stand out from their ground in light and dark (contrast ≥ 4.5, WCAG 2.1, 1.4.3)", async () => {
    for (const scheme of ["light", "dark"] as const) {
      const { page } = await open(1360, scheme);
      const worst = (await page.evaluate(contrastScript)) as { ratio: number; what: string };
      expect(worst.ratio, `${scheme}: ${worst.what}`).toBeGreaterThanOrEqual(4.5);
      await page.close();
    }
  }, 60_000);

  it("draws a run's traces when its part opens, not before, and again in the other colours", async () => {
    const { page, complaints } = await open(1000, "light");
    expect(await page.locator(".u-wrap canvas").count()).toBe(0);
    await page.locator(`#${anchor("run", "T1")} > summary`).click();
    await until(page, `document.querySelectorAll("#run-T1 .u-wrap canvas").length === 2`);
    expect(await page.evaluate(inkOfFirstTrace)).toContain("29,92,148");
    await page.emulateMedia({ colorScheme: "dark" });
    await until(page, `${inkOfFirstTrace}.includes("122,184,234")`);
    await page.locator(`#${anchor("run", "T1")} > summary`).click();
    await until(page, `document.querySelectorAll("#run-T1 canvas").length === 0`);
    expect(complaints).toEqual([]);
    await page.close();
  }, 60_000);

  it("opens every run at once without drawing what nobody sees, and draws it when it comes into sight", async () => {
    const { page, complaints } = await open(1000, "light");
    await page.locator("button[data-do=open]").click();
    await until(page, `document.querySelectorAll("#run-T1 canvas").length === 2`);
    expect(await page.locator("#run-T24 canvas").count()).toBe(0);
    await page.locator("#run-T24").scrollIntoViewIfNeeded();
    await until(page, `document.querySelectorAll("#run-T24 canvas").length === 2`);
    expect(complaints).toEqual([]);
    await page.close();
  }, 60_000);

  it("opens the part a chip points to, narrows the findings, and shows one verdict alone", async () => {
    const { page, complaints } = await open(1000, "light");
    await page.locator(".chip", { hasText: "T3" }).first().click();
    await until(page, `document.getElementById("run-T3").open`);
    const rows = await page.locator("#findingtable tbody tr").count();
    await page.locator("form.filter input").fill("zero-drift t3");
    expect(await page.locator("#findingtable tbody tr:visible").count()).toBe(1);
    expect(await page.locator("form.filter output").textContent()).toBe(`1 of ${rows}`);
    await page.locator("form.filter input").fill("");
    await page.locator("form.filter select").selectOption("note");
    expect(await page.locator("#findingtable tbody tr:visible").count()).toBe(1);
    await page.locator(".count.v-repeat").click();
    expect(await page.locator("details.run:visible").count()).toBe(1);
    expect(complaints).toEqual([]);
    await page.close();
  }, 60_000);

  it("prints on white with the day's parts open, but for those that would fill hundreds of pages", async () => {
    const { page, complaints } = await open(1000, "dark");
    expect(await page.evaluate(`document.querySelector("details.day").open`)).toBe(false);
    await page.emulateMedia({ media: "print", colorScheme: "dark" });
    expect(await page.evaluate(`getComputedStyle(document.body).backgroundColor`)).toBe("rgb(255, 255, 255)");
    expect(await page.evaluate(`getComputedStyle(document.body).color`)).toBe("rgb(28, 37, 44)");
    await page.evaluate(`document.getElementById("run-T1").open = true`);
    await page.evaluate(`dispatchEvent(new Event("beforeprint"))`);
    expect(await page.evaluate(inkOfFirstTrace)).toContain("29,92,148");
    expect(await page.evaluate(`[...document.querySelectorAll("details.day")].every((part) => part.open !== part.matches(".long"))`)).toBe(true);
    await page.evaluate(`dispatchEvent(new Event("afterprint"))`);
    expect(await page.evaluate(`document.querySelector("details.day").open`)).toBe(false);
    expect((await page.pdf({ format: "A4" })).length).toBeGreaterThan(20_000);
    expect(complaints).toEqual([]);
    await page.close();
  }, 60_000);

  it("has nothing wider than the sheet when printed on A4", async () => {
    const { page } = await open(paperPx, "light");
    await page.emulateMedia({ media: "print" });
    await page.evaluate(`dispatchEvent(new Event("beforeprint"))`);
    expect(await page.locator("table.wide:visible").count()).toBeGreaterThan(0);
    expect(await page.evaluate(`[...document.querySelectorAll("main :not(svg *), header *")].filter((part) => part.checkVisibility() && part.getBoundingClientRect().right > innerWidth + 0.5).map((part) => part.closest("section")?.id + ": " + part.tagName + "." + part.className)`)).toEqual([]);
    await page.close();
  }, 60_000);

  it("shows hostile names as they were typed", async () => {
    const { page } = await open(1000, "light");
    expect(await page.locator("#wheels figcaption", { hasText: hostileName }).count()).toBe(1);
    await page.close();
  }, 60_000);
});

/** Asks until it is so. The page's own policy forbids the polling that the browser library would put into it. */
async function until(page: Page, condition: string): Promise<void> {
  await expect.poll(() => page.evaluate(condition), { timeout: 20_000 }).toBe(true);
}

/** The opaque colours of the first trace of run T1. */
// Read from a copy made for reading: reading the page's own canvas again and again makes the browser complain of the test, not of the page.
const inkOfFirstTrace = `(() => { const c = document.querySelector("#run-T1 canvas"); const copy = document.createElement("canvas"); copy.width = c.width; copy.height = c.height; const ink = copy.getContext("2d", { willReadFrequently: true }); ink.drawImage(c, 0, 0); const d = ink.getImageData(0, 0, c.width, c.height).data; const seen = new Set(); for (let i = 0; i < d.length; i += 4) if (d[i + 3] > 250) seen.add(d[i] + "," + d[i + 1] + "," + d[i + 2]); return [...seen]; })()`;

/** The worst contrast between visible text and the ground it stands on. */
const contrastScript = `(() => {
  const rgba = (text) => { const n = text.match(/[\\d.]+/g).map(Number); return n.length < 4 ? [...n, 1] : n; };
  const luminance = ([r, g, b]) => { const f = [r, g, b].map((c) => { c /= 255; return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4; }); return 0.2126 * f[0] + 0.7152 * f[1] + 0.0722 * f[2]; };
  const ground = (node) => { for (let n = node; n; n = n.parentElement) { const c = rgba(getComputedStyle(n).backgroundColor); if (c[3] > 0.99) return c; } return [255, 255, 255, 1]; };
  let worst = { ratio: 99, what: "" };
  for (const node of document.querySelectorAll("main *, header *, nav *")) {
    if (![...node.childNodes].some((child) => child.nodeType === 3 && child.textContent.trim() !== "")) continue;
    if (!node.checkVisibility() || node.closest(":disabled") || node.closest("script, style, noscript, title")) continue;
    const style = getComputedStyle(node), ink = rgba(node.ownerSVGElement ? style.fill : style.color), paper = ground(node);
    const a = luminance(ink), b = luminance(paper), ratio = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    if (ratio < worst.ratio) worst = { ratio, what: node.tagName + "." + node.className + " " + node.textContent.slice(0, 40) + " " + style.color };
  }
  return worst;
})()`;
