import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";
import { tolerancesSchema } from "../../src/campaign/tolerances.ts";
import { renderReport } from "../../src/report/renderReport.ts";
import { formulaName, hostileName, sampleDay } from "./sampleDay.ts";
import { sampleRun } from "./sampleEndurance.ts";

const madeAt = "2026-11-25T10:00:00Z";
const page = renderReport(sampleDay(), { madeAt });
const { document } = parseHTML(page);
const text = (selector: string): string => [...document.querySelectorAll(selector)].map((node) => node.textContent ?? "").join(" ");

describe("report.html", { timeout: 60_000 }, () => {
  it("is the same for the same day, the moment aside", () => {
    expect(renderReport(sampleDay(), { madeAt })).toBe(page);
    const later = renderReport(sampleDay(), { madeAt: "2030-01-01T00:00:00Z" });
    expect(later).not.toBe(page);
    expect(later.replaceAll("2030-01-01T00:00:00Z", madeAt)).toBe(page);
  });
  it("asks for nothing outside itself", () => {
    expect(page).not.toMatch(/\s(src|href)\s*=\s*["'](?!#|data:)/i);
    expect(page).not.toMatch(/@import|url\((?!data:)/i);
    expect(page.match(/https?:\/\/[^"' )]+/g)?.every((address) => address === "http://www.w3.org/2000/svg" || address.startsWith("https://github.com/")) ?? true).toBe(true);
    expect(document.querySelector("meta[http-equiv]")?.getAttribute("content")).toMatch(/^default-src 'none'; .*script-src 'sha256-[^']+' 'sha256-[^']+'$/);
  });
  it("says first what to repeat, with the reason, then what could not be read", () => {
    const sections = [...document.querySelectorAll("section")].map((section) => section.id);
    expect(sections.slice(0, 2)).toEqual(["repeat", "glance"]);
    expect(text("#repeat h2")).toBe("Repeat now: 1 run");
    expect(text("#repeat")).toContain("the zero of the drawbar pull drifted by 1.4 % of range");
    expect(text("#repeat")).toContain('runs.csv line 19: expected a wheel of wheels.csv, found "W9". Correct the cell');
  });
  it("gives every run a chip that says its verdict in a word, and a part to go to", () => {
    const chips = [...document.querySelectorAll(".chip")];
    expect(chips).toHaveLength(sampleDay().runs.length);
    for (const chip of chips) {
      expect(chip.querySelector(".sr")?.textContent).toMatch(/^(Go|Look|Repeat|Excluded|Unread) $/);
      expect(document.getElementById((chip.getAttribute("href") as string).slice(1))?.tagName).toBe("DETAILS");
    }
  });
  it("shows what people typed as text, never as code", () => {
    expect(document.querySelectorAll("script:not([type])")).toHaveLength(2);
    expect(page).not.toContain(hostileName);
    expect(page).not.toContain("</td>`");
    expect(page).not.toContain("squeaked </script>");
    expect(text("#wheels")).toContain(hostileName);
    expect(text("#excluded")).toContain(formulaName);
    for (const data of document.querySelectorAll("script.tracedata")) expect(() => JSON.parse(data.textContent ?? "")).not.toThrow();
  });
  it("never shows a bare number where nothing was determined, and says why", () => {
    expect(text("#wheels")).toContain("not determined Fewer than four slips stand apart.");
    const efficiency = [...document.querySelectorAll("#run-T1 td")].map((cell) => cell.textContent ?? "");
    expect(efficiency.some((cell) => cell.startsWith("not determined") && cell.includes("torque and pull are too close to zero"))).toBe(true);
    expect(text("main")).not.toMatch(/NaN|undefined|Infinity|\[object/);
  });
  it("holds every finding, every excluded run with its reason, every hash and every tolerance with its origin", () => {
    const day = sampleDay();
    const findings = day.runs.flatMap((run) => run.findings).length + day.findings.length + day.cones.flatMap((cone) => cone.findings).length + (day.endurance?.wheels ?? []).flatMap((one) => [...one.findings, ...one.trends.flatMap((trend) => trend.fit.findings)]).length;
    expect(document.querySelectorAll("#findingtable tbody tr")).toHaveLength(findings);
    expect(text("#excluded")).toContain("+the belt tore");
    expect(text("#files")).toContain("d".repeat(64));
    expect(text("#files")).toContain("a".repeat(64));
    expect((text("#method").match(/default: common practice/g) ?? []).length).toBe(Object.keys(tolerancesSchema.shape).length - 1);
    expect(text("#method")).toContain("0.05 / 0.1this rig’s own default 0.03 / 0.08");
    expect(text("#findings")).toContain("logs/<stray>.csv");
    expect(text("#cautions")).toMatch(/carriage.*Drop rig.*silica.*not a safety device/s);
  });
  it("lists a finding once where a run and its fit both carry it", () => {
    const day = sampleDay();
    const [first, ...others] = day.runs as [(typeof day.runs)[number], ...(typeof day.runs)[number][]];
    const twice = { code: "twice-said", severity: "note", channel: null, fromS: null, toS: null, message: "said twice", measured: null, limit: null } as const;
    const fit = { ...(day.pullCurves[0] as (typeof day.pullCurves)[number]).fit, findings: [twice, { ...twice, message: "said by the fit alone" }] };
    const table = parseHTML(renderReport({ ...day, runs: [{ ...first, findings: [twice], fits: [fit] }, ...others] }, { madeAt })).document.getElementById("findingtable")?.textContent ?? "";
    expect(table.split("said twice")).toHaveLength(2);
    expect(table.split("said by the fit alone")).toHaveLength(2);
  });
  it("labels both axes of every figure with a unit, and draws a point for every kept observation", () => {
    const figures = [...document.querySelectorAll("figure")];
    expect(figures.length).toBeGreaterThan(12);
    for (const figure of figures) {
      const labels = [...figure.querySelectorAll("[aria-label$='axis label'] text")].map((node) => node.textContent ?? "");
      const named = figure.querySelector("figcaption")?.textContent?.startsWith("Pull coefficient at") === true ? 1 : 2;
      expect(labels, figure.textContent ?? "").toHaveLength(named);
      for (const label of labels) expect(label).toMatch(/\[.+\]/);
    }
    const curve = figures.find((figure) => figure.querySelector("figcaption")?.textContent === "Wheel W1" && (figure.textContent ?? "").includes("pull coefficient"));
    // 2 loads × 5 points, of which one each is refused and drawn as a cross
    expect(curve?.querySelectorAll("[aria-label='dot'] path, [aria-label='dot'] circle")).toHaveLength(10);
  });
  it("shows drops as loops, energies, filters, damping by way, fits, scores and predictions, and how to ask for what is not there", () => {
    const part = /<section id="drops">[\s\S]*?<\/section>/.exec(renderReport(sampleDay(), { madeAt }))?.[0] ?? "";
    for (const text of ["compression [mm]", "energy of the motion [J]", "over that of class 1000 [1]", "ζ by area of the loop", "the wheel stayed down", "shockSpectrum: {", "predict: [{", "Held out, measured less predicted [%]", "Fewer than four slips stand apart."]) expect(part, text).toContain(text);
    const asked = sampleDay();
    const rig = { ...asked.campaign.rig, drop: { ...(asked.campaign.rig.drop as NonNullable<typeof asked.campaign.rig.drop>), predict: [{ height: 0.3, gravity: 1.62 }] } };
    const predicted = renderReport({ ...asked, campaign: { ...asked.campaign, rig } }, { madeAt });
    expect(predicted).toContain("300 mm at 1.62 m/s²");
    expect(predicted).toContain("extrapolated &lt;beyond&gt;");
    expect(predicted).toContain("No prediction: the contact is not determined.");
  });
  it("shows the soil under the wheels: three intervals, open ends, weights, coverage by share, and forecasts of loads not seen", () => {
    const part = /<section id="wheelsoil">[\s\S]*?<\/section>/.exec(renderReport(sampleDay(), { madeAt }))?.[0] ?? "";
    for (const text of ["8.5 … 9.7 kPa", "8.3 … 9.7 kPa", "0.5 … open", "92 %, 92 %, –", "From bed to bed, alike in all runs on a bed: pull 0.4 %, torque 0.0 %, sinkage 0.6 %.", "Student", "T2, torque: 6.5 standard uncertainties from the model: counts as 0.11 of a point", "T1, pull: measured 0.210, fitted 0.200, weight 1.20", "+ 0.99 p₁₀", "T1, load not seen"]) expect(part.replaceAll("&#39;", "'"), text).toContain(text);
    const { document: own } = parseHTML(part);
    const rings = [...own.querySelectorAll("figure")].filter((figure) => figure.querySelector("figcaption")?.textContent?.endsWith(": pull")).flatMap((figure) => [...figure.querySelectorAll("g[stroke='var(--ink)'] circle, g[stroke='var(--ink)'] path")].filter((mark) => (mark.textContent ?? "").includes("not seen")));
    expect(rings.length).toBeGreaterThan(0);
    const day = sampleDay();
    const apart = renderReport({ ...day, wheelSoil: { ...(day.wheelSoil as NonNullable<typeof day.wheelSoil>), bedSpread: { pull: 0, torque: 0, sinkage: 0 }, wheelSpread: { pull: 0, torque: 0, sinkage: 0 } } }, { madeAt });
    expect(apart).toContain("no difference from bed to bed");
    expect(apart).toContain("a band for a wheel that was not tested does not contain it");
  });
  it("prints k_c and k_φ in other units with their own n, and says why they cannot be compared", () => {
    const part = /<section id="soil">[\s\S]*?<\/section>/.exec(renderReport(sampleDay(), { madeAt }))?.[0] ?? "";
    // 812 345 N/m^2.95: 4.4482 N and 0.0254 m, by hand: 812345/4.4482216 · 0.0254^2.95 = 3.596
    expect(part.replaceAll(/<[^>]+>/g, "")).toContain("3.596 lbf/in2.95");
    expect(part).toContain("a k<sub>φ</sub> 1.58 times as large");
    expect(part).toContain("cannot be compared, averaged or interpolated");
  });
  it("shows endurance: trends to the mission with both bands, inspections, cycles, lives, plans; and no such section on another day", () => {
    const day = sampleDay();
    const page = renderReport({ ...day, runs: [...day.runs, sampleRun] }, { madeAt });
    const part = /<section id="endurance">[\s\S]*?<\/section>/.exec(page)?.[0] ?? "";
    for (const text of ["mission of 40 km", "At 40 km", "100 % beyond the last inspection", "one more inspection", "range of the vertical load [n]", "left out: its distance", "seen &lt;b&gt;", "stuck to it, and neither the soil's mass", "2 km comes after 4 km", "0 of 2 wheels failed", "not demonstrated yet", "4.67", "mm³/(N·m)"]) expect(part.replaceAll("&#39;", "'").toLowerCase(), text).toContain(text.toLowerCase());
    expect(parseHTML(page).document.getElementById("findingtable")?.textContent).toContain("distance-backwards");
    const bare = renderReport({ ...day, endurance: null }, { madeAt });
    expect(bare).not.toContain('id="endurance"');
    expect(bare).not.toContain("#endurance");
  });
  it("says so where a kind of test was not made", () => {
    const day = sampleDay();
    const bare = renderReport({ ...day, runs: [], dropFits: [], pullCurves: [], repeatability: [], deflections: [], rollingRadii: [], cones: [], soil: { pressureSinkage: null, plateWidths: [], shearStrength: null, jointRegion: [], shearCurves: [] }, campaign: { ...day.campaign, cones: [], beds: [], runs: [] } }, { madeAt });
    expect(bare).toContain("Nothing to repeat");
    expect(bare).toContain("No traction runs gave a pull–slip curve.");
    expect(bare).toContain("No plate runs that could be used.");
    expect(bare).not.toMatch(/NaN/);
  });
});
