import { posix } from "node:path";
import { lineOf } from "./projectFiles.ts";
import type { ProjectFile, Violation } from "./projectFiles.ts";

/** A command line as a document shows it. */
export interface ShownCommand {
  readonly path: string;
  readonly line: number;
  readonly words: readonly string[];
}

/** Command lines in code blocks and code spans that begin with npm, npx or drawbar; remarks behind # left out. */
export function commandsIn(file: ProjectFile): ShownCommand[] {
  const found: ShownCommand[] = [];
  let fence: string | null = null;
  file.text.split("\n").forEach((line, index) => {
    const mark = /^```(\w*)/.exec(line);
    if (mark !== null) {
      fence = fence === null ? (mark[1] ?? "") : null;
      return;
    }
    const spans = fence === null ? [...line.matchAll(/`([^`]+)`/g)].map((match) => match[1] ?? "") : [line];
    for (const span of spans) {
      const words = span.replace(/\s#.*$/, "").trim().split(/\s+/);
      if (/^(npm|npx|drawbar)$/.test(words[0] ?? "") && words.length > 1) found.push({ path: file.path, line: index + 1, words });
    }
  });
  return found;
}

const ownOfNpm = ["install", "ci", "pack", "link"];

/** What exists: scripts of package.json, programs for npx, the files named, drawbar's commands by the text of their help. */
export interface Existing {
  readonly scripts: readonly string[];
  readonly programs: readonly string[];
  readonly exists: (path: string) => boolean;
  /** the help of `drawbar <command>`, null when there is no such command */
  readonly help: (command: string | null) => string | null;
}

export function commandViolations(commands: readonly ShownCommand[], existing: Existing): Violation[] {
  return commands.flatMap(({ path, line, words }): Violation[] => {
    const [program, first = "", ...rest] = words;
    const wrong = (message: string): Violation[] => [{ path, line, message: `${words.join(" ")}: ${message}` }];
    if (program === "npm") {
      const script = first === "run" ? rest[0] : ["start", "test"].includes(first) ? first : null;
      if (script === null) return ownOfNpm.includes(first) ? [] : wrong(`npm has no ${first} here`);
      return existing.scripts.includes(script ?? "") ? [] : wrong(`package.json has no script ${script}`);
    }
    if (program === "npx") {
      if (!existing.programs.includes(first)) return wrong(`${first} is not installed`);
      const missing = rest.filter((word) => /^(tests|scripts|src|fixtures)\//.test(word) && !existing.exists(word));
      return missing.flatMap((word) => wrong(`${word} does not exist`));
    }
    const command = first.startsWith("-") ? null : first;
    const help = existing.help(command);
    if (help === null) return wrong(`drawbar has no command ${first}`);
    const unknown = words.filter((word) => word.startsWith("-") && !new RegExp(`(^|[\\s,])${word}\\b`, "m").test(help));
    return unknown.flatMap((word) => wrong(`no option ${word}`));
  });
}

/** GitHub's anchor of a heading. */
function anchor(heading: string): string {
  return heading.trim().toLowerCase().replace(/[^\p{L}\p{N}\s-]/gu, "").replace(/\s/g, "-");
}

/** Links and pictures to files and headings of the project. */
export function linkViolations(files: readonly ProjectFile[], exists: (path: string) => boolean): Violation[] {
  const textOf = new Map(files.map(({ path, text }) => [path, text]));
  return files.flatMap((file) =>
    [...file.text.matchAll(/\]\(([^)\s]+)\)/g)].flatMap((match): Violation[] => {
      const link = match[1] ?? "";
      const at = { path: file.path, line: lineOf(file.text, match.index) };
      if (/^[a-z]+:/.test(link)) return [];
      const [name = "", heading] = link.split("#");
      const target = name === "" ? file.path : posix.join(posix.dirname(file.path), name);
      if (!exists(target)) return [{ ...at, message: `the link ${link} leads nowhere` }];
      const text = textOf.get(target);
      if (heading === undefined || text === undefined) return [];
      return [...text.matchAll(/^#+ (.*)$/gm)].some((found) => anchor(found[1] ?? "") === heading) ? [] : [{ ...at, message: `${target} has no heading #${heading}` }];
    }),
  );
}
