import { execFileSync, spawnSync } from "node:child_process";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";

/** Another project, as a user would have it. */
const place = mkdtempSync(join(tmpdir(), "drawbar-package-"));
const project = join(place, "their-project");
const day = resolve("fixtures/excerpt-day");
afterAll(() => rmSync(place, { recursive: true, force: true }));

const consumer = `import { readLog, reduceDay, rigidWheel, InputError } from "drawbar";
import type { Estimate, RunResult, WheelSoil } from "drawbar";

const folder = process.argv[2] ?? "";
const day = await reduceDay(folder);
const run: RunResult | undefined = day.runs.find((candidate) => candidate.plan.id === "R009");
const pull: Estimate | undefined = run?.measures.find((measure) => measure.name === "pullCoefficient")?.estimate;
const log = await readLog(folder, "logs/R009_drive.csv", { clock: { kind: "elapsed", column: "t", unit: "s" }, columns: ["X"], missing: [], overload: [] });
let refused = false;
try {
  await reduceDay(folder + "/logs");
} catch (error) {
  refused = error instanceof InputError && error.issues.length > 0;
}
const unit: string | undefined = pull?.unit;
const ground: WheelSoil = { stiffness: 8e5, exponent: 1, exponentBySlip: 0, cohesionPa: 500, frictionAngleRad: 0.6, shearModulusM: 0.012, stressAngle: 0.4, stressAngleBySlip: 0.2, rebound: 0 };
const state = rigidWheel({ radiusM: 0.15, widthM: 0.1 }, ground, 0.2, 60);
const carried = "reason" in state ? state.reason : state.loadN;
console.log(JSON.stringify({ carried, runs: day.runs.length, value: pull?.value, u: pull?.standardUncertainty, unit, rows: log.timesS.length, refused }));
`;

const wrongConsumer = `import { reduceDay } from "drawbar";
const value: string = (await reduceDay(".")).runs.length;
console.log(value);
`;

const config = { compilerOptions: { target: "es2023", module: "nodenext", strict: true, noEmit: false, outDir: "out", skipLibCheck: false, types: ["node"], exactOptionalPropertyTypes: true, noUncheckedIndexedAccess: true }, include: ["use.ts"] };

const tsc = (...words: string[]): { code: number | null; out: string } => {
  const { status, stdout } = spawnSync(resolve("node_modules/.bin/tsc"), words, { cwd: project, encoding: "utf8" });
  return { code: status, out: stdout };
};
const installed = (...words: string[]): { code: number | null; out: string; err: string } => {
  const { status, stdout, stderr } = spawnSync(join(project, "node_modules/.bin/drawbar"), words, { cwd: project, encoding: "utf8" });
  return { code: status, out: stdout, err: stderr };
};

beforeAll(() => {
  mkdirSync(project);
  // Packed from a copy, because packing builds dist anew and other tests may be reading it; the whole run of tests has just built it.
  const built = process.env["DRAWBAR_BUILT"] === "yes";
  const copy = join(place, "copy");
  for (const part of ["package.json", "tsconfig.json", "README.md", "CHANGELOG.md", "LICENSE", ...(built ? ["dist"] : ["src", "scripts/build.sh"])]) cpSync(part, join(copy, part), { recursive: true });
  symlinkSync(resolve("node_modules"), join(copy, "node_modules"));
  execFileSync("npm", ["pack", "--pack-destination", place, "--loglevel=error", ...(built ? ["--ignore-scripts"] : [])], { cwd: copy, stdio: ["ignore", 2, 2] });
  const tarball = readdirSync(place).find((name) => name.endsWith(".tgz")) ?? "";
  writeFileSync(join(project, "package.json"), JSON.stringify({ name: "their-project", private: true, type: "module" }));
  writeFileSync(join(project, "tsconfig.json"), JSON.stringify(config));
  writeFileSync(join(project, "use.ts"), consumer);
  writeFileSync(join(project, "wrong.ts"), wrongConsumer);
  const types = (JSON.parse(readFileSync("package.json", "utf8")) as { devDependencies: Record<string, string> }).devDependencies["@types/node"];
  execFileSync("npm", ["install", "--prefer-offline", "--no-audit", "--no-fund", "--loglevel=error", join(place, tarball), `@types/node@${types}`], { cwd: project, stdio: ["ignore", 2, 2] });
}, 600_000);

describe("the packed package in another project", () => {
  test("holds dist with declarations and what a reader needs, and no sources, tests or logs", () => {
    const root = join(project, "node_modules/drawbar");
    expect(readdirSync(root).sort()).toEqual(["CHANGELOG.md", "LICENSE", "README.md", "dist", "package.json"]);
    const files = readdirSync(join(root, "dist"), { recursive: true, encoding: "utf8" });
    expect(files).toEqual(expect.arrayContaining(["index.js", "index.d.ts", "cli/main.js"]));
    expect(files.filter((name) => name.endsWith(".ts") && !name.endsWith(".d.ts"))).toEqual([]);
    expect(statSync(join(root, "dist/cli/main.js")).mode & 0o111).not.toBe(0);
  });

  test("its types compile under the strictest settings, and a wrong use does not", () => {
    expect(tsc()).toEqual({ code: 0, out: "" });
    expect(tsc("--noEmit", "--target", "es2023", "--module", "nodenext", "--strict", "--types", "node", "--skipLibCheck", "--ignoreConfig", "wrong.ts").out).toContain("TS2322");
  });

  test("a compiled consumer reads a log and reduces a day under plain Node", () => {
    const { status, stdout, stderr } = spawnSync(process.execPath, ["out/use.js", day], { cwd: project, encoding: "utf8" });
    expect({ status, stderr }).toEqual({ status: 0, stderr: "" });
    const result = JSON.parse(stdout) as { runs: number; value: number; u: number; unit: string; rows: number; refused: boolean };
    expect(result).toMatchObject({ runs: readFileSync(join(day, "runs.csv"), "utf8").trimEnd().split("\n").length - 1, unit: "1", refused: true, carried: 60 });
    expect(result.rows).toBe(readFileSync(join(day, "logs/R009_drive.csv"), "utf8").trimEnd().split("\n").length - 1);
    expect(Number.isFinite(result.value)).toBe(true);
    expect(result.u).toBeGreaterThan(0);
  });

  test("the installed command says its version and helps, without a warning", () => {
    const { version } = JSON.parse(readFileSync("package.json", "utf8")) as { version: string };
    expect(installed("--version")).toEqual({ code: 0, out: `${version}\n`, err: "" });
    const help = installed("--help");
    expect(help).toMatchObject({ code: 0, err: "" });
    expect(help.out).toContain("Usage: drawbar");
  });

  test("the installed command writes a report, without a warning", () => {
    const ended = installed("reduce", day, "--out", "results", "--quiet");
    expect(ended).toMatchObject({ code: 0, err: "" });
    expect(readdirSync(join(project, "results")).sort()).toEqual(["report.html", "results.json", "runs.csv", "soil.json"]);
  });

  test("publint finds nothing", () => {
    const { status, stdout } = spawnSync(resolve("node_modules/.bin/publint"), ["run", join(project, "node_modules/drawbar"), "--strict", "--pack", "false"], { encoding: "utf8" });
    expect(stdout).toContain("All good!");
    expect(status).toBe(0);
  });
});
