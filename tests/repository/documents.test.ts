import { spawnSync } from "node:child_process";
import { existsSync, readFileSync, readdirSync } from "node:fs";
import { afterAll, describe, expect, test } from "vitest";
import { readCampaign } from "../../src/campaign/readCampaign.ts";
import { removeDays, writeDay } from "../helpers/tinyDay.ts";
import { commandsIn, commandViolations, linkViolations } from "./documents.ts";
import type { Existing } from "./documents.ts";
import { expectNone, readFiles } from "./projectFiles.ts";

afterAll(removeDays);

const documents = readFiles(["README.md", "DEVELOPERS.md", "CHANGELOG.md"]);
const manifest = JSON.parse(readFileSync("package.json", "utf8")) as { scripts: Record<string, string> };

const helps = new Map<string, string | null>();
/** drawbar's own help, asked once a command; a wide terminal keeps each option on its line. */
function help(command: string | null): string | null {
  const key = command ?? "";
  if (!helps.has(key)) {
    const { status, stdout } = spawnSync("node_modules/.bin/tsx", ["src/cli/main.ts", ...(command === null ? [] : [command]), "--help"], { encoding: "utf8" });
    const known = command === null || new RegExp(`^Usage: drawbar ${command}\\b`).test(stdout);
    helps.set(key, status === 0 && known ? stdout : null);
  }
  return helps.get(key) ?? null;
}

const real: Existing = { scripts: Object.keys(manifest.scripts), programs: readdirSync("node_modules/.bin"), exists: existsSync, help };
const pretended: Existing = { scripts: ["start"], programs: ["tsx"], exists: (path) => path === "scripts/a.ts", help: (command) => (command === null || command === "reduce" ? "  -o, --out <folder>  folder\n  -h, --help" : null) };
const planted = (text: string): string[] => commandViolations(commandsIn({ path: "README.md", text }), pretended).map(({ line, message }) => `${line} ${message}`);

describe("commands in the documents", () => {
  test("every one exists", () => {
    const commands = documents.flatMap(commandsIn);
    expect(commands.length).toBeGreaterThan(10);
    expectNone(commandViolations(commands, real));
    // A process for every command's help.
  }, 60_000);

  test("README tells every command that drawbar has", () => {
    const listed = (help(null) ?? "").split("Commands:")[1]?.match(/^ {2}[a-z]+/gm)?.map((word) => word.trim()).filter((word) => word !== "help") ?? [];
    expect(listed.length).toBeGreaterThan(3);
    const told = commandsIn(documents[0] as (typeof documents)[number]).filter(({ words }) => words[0] === "drawbar").map(({ words }) => words[1]);
    expect(listed.filter((command) => !told.includes(command))).toEqual([]);
  });

  test.each([
    ["a script that is gone", "text\n`npm run tidy`", ["2 npm run tidy: package.json has no script tidy"]],
    ["a script in a block", "```sh\nnpm test  # all\n```", ["2 npm test: package.json has no script test"]],
    ["a command that is gone", "`drawbar rank <day>`", ["1 drawbar rank <day>: drawbar has no command rank"]],
    ["an option that is gone", "`drawbar reduce <day> --to x`", ["1 drawbar reduce <day> --to x: no option --to"]],
    ["a program that is not installed", "`npx mocha`", ["1 npx mocha: mocha is not installed"]],
    ["a script file that is gone", "`npx tsx scripts/b.ts`", ["1 npx tsx scripts/b.ts: scripts/b.ts does not exist"]],
    ["what exists", "`npm start`, `npm install`, `drawbar reduce <day> --out x`, `drawbar --help`, `npx tsx scripts/a.ts`, `drawbar`", []],
  ])("%s", (_, text, expected) => expect(planted(text)).toEqual(expected));
});

describe("links in the documents", () => {
  test("every one leads somewhere", () => expectNone(linkViolations(documents, existsSync)));

  test("links to nowhere are found, with their line", () => {
    const files = [{ path: "README.md", text: "# Some Head!\n[a](gone.md) [b](#some-head) [c](#other)\n![d](fixtures/x.png) [e](https://example.org/x)" }];
    expect(linkViolations(files, (path) => path === "README.md").map(({ line, message }) => `${line} ${message}`)).toEqual(["2 the link gone.md leads nowhere", "2 README.md has no heading #other", "3 the link fixtures/x.png leads nowhere"]);
  });
});

describe("the README's own day", () => {
  /** The n-th block of a language below the heading about the day folder. */
  const readme = documents[0]?.text ?? "";
  const blocks = (language: string): string[] => [...readme.matchAll(new RegExp(`^\`\`\`${language}\\n([^]*?)^\`\`\``, "gm"))].map((match) => match[1] ?? "");

  test("is read without an issue, just as it stands there", () => {
    const [rig = ""] = blocks("yaml");
    const [runs = "", wheels = "", beds = "", cones = "", surfaces = "", , inspections = ""] = blocks("csv");
    const campaign = readCampaign(writeDay({ "rig.yaml": rig, "runs.csv": runs, "wheels.csv": wheels, "beds.csv": beds, "cones.csv": cones, "surfaces.csv": surfaces, "inspections.csv": inspections }));
    expect(campaign.issues).toEqual([]);
    expect(campaign.runs.map((run) => run.kind)).toEqual(["hardFloor", "traction", "traction"]);
    expect([campaign.wheels.length, campaign.beds.length, campaign.cones.length, campaign.inspections.length]).toEqual([2, 1, 2, 3]);
    expect(campaign.runs.map((run) => run.surface?.before.length)).toEqual([undefined, 2, undefined]);
  });
});
