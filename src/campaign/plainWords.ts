import type { z } from "zod";
import { units } from "../core/units.ts";
import { list, nearest, show } from "./nearest.ts";

/** What a schema complains about, in words for people: expected X, found Y. What to do. */
export interface PlainWords {
  readonly code: string;
  readonly message: string;
  readonly hint: string;
}

const kinds: Readonly<Record<string, string>> = { string: "a text", number: "a number", int: "a whole number", boolean: "true or false", array: "a list", tuple: "a list", object: "a group of keys", record: "a group of keys" };

/**
 * @param issue     one issue of a failed check
 * @param found     the value at the issue's path
 * @param about     what the schema says the value is; "" = nothing
 * @param siblings  the keys that may stand where an unknown key was found
 */
export function plainWords(issue: z.core.$ZodIssue, found: unknown, about: string, siblings: readonly string[] = []): PlainWords {
  const meaning = about === "" ? "" : ` It means: ${about}.`;
  if (issue.code === "unrecognized_keys") {
    const unknown = issue.keys[0] ?? "";
    const guess = nearest(unknown, siblings);
    return {
      code: "unknown-key",
      message: `expected one of the keys ${list(siblings, 20)}, found ${show(unknown)}`,
      hint: guess === null ? "Remove it, or correct its spelling." : `Did you mean ${guess}?`,
    };
  }
  if (found === undefined || found === null) return { code: "missing", message: `expected ${expected(issue)}, found nothing`, hint: `Add it.${meaning}` };
  if (issue.code === "invalid_type") return {
    code: "wrong-type",
    message: `expected ${expected(issue)}, found ${found !== null && typeof found === "string" ? `the text ${show(found)}` : show(found)}`,
    hint: typeHint(issue.expected, found, meaning),
  };
  if (issue.code === "invalid_value" && issue.values.length > 40) {
    const guess = typeof found === "string" ? nearest(found, Object.keys(units)) : null;
    return {
      code: "unknown-unit",
      message: `expected a unit drawbar knows, found ${show(found)}`,
      hint: `${guess === null ? "Units are written like N, kN, mm, m/s, N.m, mV/V, count." : `Did you mean ${guess}?`}${meaning}`,
    };
  }
  if (issue.code === "invalid_value" || issue.code === "invalid_union") {
    const options = issue.code === "invalid_value" ? issue.values.map(String) : "options" in issue ? (issue.options ?? []).map(String) : [];
    const guess = nearest(String(found), options);
    return { code: "unknown-choice", message: `expected ${expected(issue)}, found ${show(found)}`, hint: guess === null ? `Write one of them.${meaning}` : `Did you mean ${guess}?` };
  }
  return { code: "out-of-range", message: `expected ${expected(issue)}, found ${show(found)}`, hint: `Correct it.${meaning}` };
}

function expected(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "invalid_type":
      return kinds[issue.expected] ?? issue.expected;
    case "invalid_value":
      return issue.values.length > 40 ? "a unit drawbar knows" : oneOf(issue.values.map(String));
    case "invalid_union":
      return "options" in issue ? oneOf((issue.options ?? []).map(String)) : "another value";
    case "invalid_format":
      return issue.format === "date" ? "a date of the calendar as yyyy-mm-dd" : "another form";
    case "too_small":
      if (issue.origin === "string") return issue.minimum === 1 ? "a text that is not empty" : `at least ${issue.minimum} letters`;
      if (issue.origin === "array") return `a list of ${issue.exact === true ? "" : "at least "}${issue.minimum}`;
      return `a number ${issue.inclusive === false ? "above" : "of at least"} ${issue.minimum}`;
    case "too_big":
      if (issue.origin === "string") return `at most ${issue.maximum} letters`;
      if (issue.origin === "array") return `a list of ${issue.exact === true ? "" : "at most "}${issue.maximum}`;
      return `a number ${issue.inclusive === false ? "below" : "of at most"} ${issue.maximum}`;
    default:
      return "another value";
  }
}

function oneOf(options: readonly string[]): string {
  return options.length < 2 ? options.join("") : `${options.slice(0, -1).join(", ")} or ${options.at(-1)}`;
}

function typeHint(wanted: string, found: unknown, meaning: string): string {
  if (wanted === "string" && typeof found !== "object") return `Put it in quotation marks: "${String(found)}".${meaning}`;
  if (wanted === "number" && typeof found === "string" && /^[+-]?\d*,\d+$/.test(found)) return `Write a decimal point.${meaning}`;
  if (wanted === "number" && typeof found === "string" && /^[+-]?\d/.test(found)) return `Write the number alone, without unit or quotation marks.${meaning}`;
  return `Correct it.${meaning}`;
}
