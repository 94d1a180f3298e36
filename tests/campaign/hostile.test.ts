import { describe, expect, it } from "vitest";
import { readRig } from "../../src/campaign/readRig.ts";
import { readSheet } from "../../src/campaign/sheet.ts";
import { exampleDay } from "./exampleDay.ts";
import { reading, stopping } from "./issuesOf.ts";

const codes = (issues: readonly { readonly code: string }[]): string[] => [...new Set(issues.map(({ code }) => code))];
const rigCodes = (text: string): string[] => codes(readRig(new TextEncoder().encode(text), "rig.yaml").issues);

describe("a rig description nobody wrote", () => {
  it.each([["brackets", `a: ${"[".repeat(3000)}${"]".repeat(3000)}`], ["groups", `a: ${"{a: ".repeat(200)}1${"}".repeat(200)}`], ["steps", Array.from({ length: 300 }, (_, level) => `${" ".repeat(level)}k:`).join("\n")]])("is refused where %s go too deep", (_, text) => {
    const issues = readRig(new TextEncoder().encode(text), "rig.yaml").issues;
    expect(issues.length).toBeGreaterThan(0);
    for (const issue of issues) expect(issue).toMatchObject({ at: expect.stringMatching(/^rig\.yaml line \d+/), message: expect.stringContaining("at most 50 deep") });
  });

  it("names some of very many unknown keys, and finds one that stands twice", () => {
    const many = Array.from({ length: 20_000 }, (_, index) => `k${index}: 1`).join("\n");
    const issues = readRig(new TextEncoder().encode(many), "rig.yaml").issues;
    expect(issues.length).toBeLessThan(40);
    expect(issues.some(({ message }) => message.includes("19980 more"))).toBe(true);
    expect(rigCodes(`${many}\nk7: 2`)).toEqual(["bad-yaml"]);
  });

  it("gets no hold on the objects of the language", () => {
    expect(rigCodes(`${exampleDay["rig.yaml"]}__proto__: { polluted: yes }\nconstructor: { prototype: { polluted: yes } }\n`)).toContain("unknown-key");
    expect(({} as Record<string, unknown>)["polluted"]).toBeUndefined();
  });

  it("is refused where it is no text of a person's size", () => expect(rigCodes(`rig: ${"x".repeat(300_000)}`)).toEqual(["file-too-large"]));
});

describe("a table nobody wrote", () => {
  const sheet = (text: string) => readSheet(new TextEncoder().encode(text), "runs.csv", ["run", "kind"]);

  it("of 100,000 columns or rows is refused as too large", () => {
    expect(sheet(`run,kind${",x".repeat(100_000)}\n`).issues).toMatchObject([{ code: "table-too-large", at: "runs.csv" }]);
    expect(sheet(`run,kind\n${"R1,drop\n".repeat(100_000)}`).issues).toMatchObject([{ code: "table-too-large", at: "runs.csv" }]);
    expect(codes(stopping({ "runs.csv": `run,kind\n${"R1,drop\n".repeat(20_000)}` }))).toContain("too-many-runs");
  });

  it("loses the row of a huge cell, and a huge heading does not fill the message", () => {
    expect(sheet(`run,kind\nR1,${"x".repeat(1_000_000)}\n`).sheet?.rows[0]?.issue).toMatchObject({ code: "cell-too-long", at: "runs.csv line 2" });
    const issues = stopping({ "runs.csv": `run,${`${"[".repeat(50_000)}${" ".repeat(500_000)}x`}\nR1,drop\n` });
    for (const { at, message, hint } of issues) expect(`${at}${message}${hint}`.length).toBeLessThan(2000);
  });

  it("of 5000 doubled runs says so at once", () => {
    const issues = reading({ "runs.csv": `run,kind,wheel,height [mm]\n${"D01,drop,Alm,250\n".repeat(5000)}` }).issues;
    expect(issues.filter(({ code }) => code === "duplicate-run").length).toBe(5000);
  });

  it("with names that act on a terminal has them made harmless in every message", () => {
    const issues = stopping({ "runs.csv": "run,kind,\u001b[2J\u202egnp,\u001b[2J\u202egnp\nR1,drop,1,2\n" });
    for (const { at, message } of issues) expect(at + message).not.toMatch(/[\u0000-\u001f\u202e]/);
    expect(issues.length).toBeGreaterThan(0);
  });
});
