import { isAlias, isMap, isNode, isScalar, LineCounter, parseDocument, visit } from "yaml";
import type { Document, Node, YAMLMap } from "yaml";
import type { z } from "zod";
import type { Issue } from "../core/errors.ts";
import { checkChannels } from "./checkChannels.ts";
import { checkRig } from "./checkRig.ts";
import { decodeText } from "./decodeText.ts";
import { describeKey } from "./describeKey.ts";
import { show } from "./nearest.ts";
import { plainWords } from "./plainWords.ts";
import { rigSchema } from "./rigSchema.ts";
import type { Rig } from "./rigSchema.ts";
import { yamlPlace } from "./yamlPlaces.ts";
import type { KeyPath, RigMistake } from "./yamlPlaces.ts";

const maximumBytes = 250_000;
const deepest = 50;
/** Of a group with very many unknown keys the first are named, the rest counted. */
const mostUnknown = 20;
// A few repeated blocks are handy; with this few, nested ones cannot grow beyond some hundred copies.
const maximumAliases = 16;

/** The rig as far as it could be read, every issue found, and a way to point at a key. */
export interface RigReading {
  /** null when it does not fit the schema; not to be used while there are issues */
  readonly rig: Rig | null;
  readonly issues: readonly Issue[];
  readonly place: (path: KeyPath) => string;
}

export function readRig(bytes: Uint8Array, file: string): RigReading {
  try {
    return readDescription(bytes, file);
  } catch (error) {
    // The YAML reader calls itself for every level, so a file can be deeper than the machine's stack.
    if (!(error instanceof RangeError)) throw error;
    return { rig: null, issues: [tooDeep(file)], place: () => file };
  }
}

const deep = { message: `expected groups within groups, at most ${deepest} deep, found more`, hint: "Is a bracket not closed, or repeated by mistake?" };

function tooDeep(at: string): Issue {
  return { code: "too-deep", at, ...deep };
}

function readDescription(bytes: Uint8Array, file: string): RigReading {
  const refuse = (issues: readonly Issue[]): RigReading => ({ rig: null, issues, place: () => file });
  if (bytes.length > maximumBytes) return refuse([{
    code: "file-too-large",
    at: file,
    message: `expected at most ${maximumBytes / 1e6} MB, found ${(bytes.length / 1e6).toFixed(1)} MB`,
    hint: "Is this the rig description? Logs and long tables belong into files of their own.",
  }]);
  const lines = new LineCounter();
  const document = parseDocument(decodeText(bytes).text, { lineCounter: lines, prettyErrors: false, uniqueKeys: false, version: "1.2", merge: false });
  const syntax = [...document.errors, ...document.warnings].map((error) => ({ code: "bad-yaml", at: `${file} line ${lines.linePos(error.pos[0]).line}`, ...yamlWords(error.code, error.message) }));
  if (syntax.length > 0) return refuse(syntax);
  const place = (path: KeyPath) => yamlPlace(file, document, lines, path);
  const unsafe = unsafeNodes(document, lines, file);
  if (unsafe.length > 0) return refuse(unsafe);
  if (!isMap(document.contents)) return refuse([{
    code: "empty-file",
    at: file,
    message: "expected keys such as rig, gravity, slipRadius and loggers, found none",
    hint: "Describe the rig, one `key: value` a line.",
  }]);

  let written: unknown;
  try {
    written = document.toJS({ maxAliasCount: 1000 });
  } catch (error) {
    return refuse([{
      code: "bad-yaml",
      at: file,
      message: `expected blocks that can be repeated, found ${(error as Error).message}`,
      hint: "Write the repeated block out instead of pointing at it with *.",
    }]);
  }
  const parsed = rigSchema.safeParse(written);
  const mistakes: RigMistake[] = parsed.success ? checkRig(parsed.data) : parsed.error.issues.flatMap((issue) => translate(issue, written));
  mistakes.push(...checkChannels(written));
  const issues = mistakes.map(({ path, ...rest }) => ({ at: place(path), ...rest })).sort((a, b) => lineIn(a.at) - lineIn(b.at));
  return { rig: parsed.success ? parsed.data : null, issues, place };
}

const lineIn = (at: string) => Number(/ line (\d+)/.exec(at)?.[1] ?? 0);

function translate(issue: z.core.$ZodIssue, written: unknown): RigMistake[] {
  if (issue.code === "unrecognized_keys") {
    const { keys } = describeKey(issue.path);
    const named = issue.keys.slice(0, mostUnknown).map((key): RigMistake => ({ path: [...issue.path, key], ...plainWords({ ...issue, keys: [key] }, undefined, "", keys) }));
    const more = issue.keys.length - named.length;
    return more === 0 ? named : [...named, { code: "more-issues", path: issue.path, message: `expected keys drawbar knows, found ${more} more that it does not`, hint: "Is this the rig description?" }];
  }
  const found = issue.path.reduce<unknown>((value, key) => (typeof value === "object" && value !== null ? (value as Record<PropertyKey, unknown>)[key] : undefined), written);
  if (issue.path[0] === "slipRadius" && (found === undefined || found === null) && issue.path.length <= 2 && issue.path[1] !== "uncertainty") return [noRadius(issue.path)];
  return [{ path: issue.path, ...plainWords(issue, found, describeKey(issue.path).about) }];
}

function noRadius(path: KeyPath): RigMistake {
  return {
    code: "no-radius-policy",
    path,
    message: `expected ${path[1] === "lugs" ? "lugs: with or without" : path[1] === "policy" ? "policy: unloaded, loaded or effective" : "slipRadius with a policy and lugs"}, found nothing`,
    hint:
      "Every slip is counted from a wheel radius, and the choice moves all of them, so there is no default. Write slipRadius: { policy: …, lugs: with } or lugs: without. " +
      "unloaded = the radius in wheels.csv; loaded = that less the deflection under the run's load; effective = the rolling radius found by a hard-floor run at that load. " +
      "lugs: with = the radius reaches to the lugs' tips, without = to the rim.",
  };
}

const plainTags = new Set(["str", "int", "float", "bool", "null", "map", "seq"].map((name) => `tag:yaml.org,2002:${name}`));

/** Repeated blocks that are too many, unknown or hold themselves, and tags that make values other than plain ones. */
function unsafeNodes(document: Document, lines: LineCounter, file: string): Issue[] {
  const issues: Issue[] = [];
  const at = (node: Node) => `${file} line ${lines.linePos(node.range?.[0] ?? 0).line}`;
  let aliases = 0;
  visit(document, {
    Map: (_, map) => repeatedKeys(map).forEach((key) => issues.push({ code: "bad-yaml", at: at(key), message: "expected each key once in its group, found one twice", hint: "Remove or rename one of the two." })),
    Node: (_, node, path) => {
      // A level is a pair and what it holds.
      if (path.length > 2 * deepest) {
        issues.push(tooDeep(at(node)));
        return visit.BREAK;
      }
      if (node.tag !== undefined && !plainTags.has(node.tag)) issues.push({
        code: "bad-yaml",
        at: at(node),
        message: `expected plain values, found the tag ${show(node.tag)}`,
        hint: "Remove the word with the ! before the value.",
      });
      if (!isAlias(node)) return undefined;
      if (++aliases === maximumAliases + 1) issues.push({
        code: "too-many-aliases",
        at: at(node),
        message: `expected at most ${maximumAliases} repeated blocks (*name), found more`,
        hint: "Write the blocks out; blocks that repeat blocks grow beyond any memory.",
      });
      const own = path.some((parent) => isNode(parent) && !isAlias(parent) && parent.anchor === node.source);
      if (own || node.resolve(document) === undefined) issues.push({
        code: "bad-alias",
        at: at(node),
        message: `expected *${node.source} to repeat a block marked &${node.source} above it, found ${own ? "it inside that block" : "no such block"}`,
        hint: "Write the block out.",
      });
      return undefined;
    },
  });
  return issues;
}

/** The library compares every key with every other. */
function repeatedKeys(map: YAMLMap): Node[] {
  const seen = new Set<unknown>();
  return map.items.flatMap(({ key }): Node[] => {
    if (!isScalar(key)) return [];
    if (seen.has(key.value)) return [key];
    seen.add(key.value);
    return [];
  });
}

function yamlWords(code: string, message: string): { readonly message: string; readonly hint: string } {
  if (code === "RESOURCE_EXHAUSTION") return deep;
  if (code === "MULTIPLE_DOCS") return { message: "expected one description, found a second one after ---", hint: "Keep one rig description a file." };
  if (code === "TAG_RESOLVE_FAILED") return { message: `expected plain values, found a tag: ${message}`, hint: "Remove the word with the ! before the value." };
  if (code === "TAB_AS_INDENT") return { message: "expected spaces before a key, found a tab", hint: "Indent with spaces." };
  return {
    message: `expected valid YAML, found: ${message.replace(/\.$/, "").slice(0, 300)}`,
    hint: "Correct the line or the one before it: indentation, a missing colon, an unclosed bracket or quotation mark.",
  };
}
