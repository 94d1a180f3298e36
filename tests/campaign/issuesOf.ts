import { InputError } from "../../src/core/errors.ts";
import type { Issue } from "../../src/core/errors.ts";
import { readCampaign } from "../../src/campaign/readCampaign.ts";
import type { Campaign } from "../../src/campaign/campaign.ts";
import { exampleDay, withDay } from "./exampleDay.ts";

/** The issues that stop the day. Fails when nothing stops it. */
export function stopping(changes: Readonly<Record<string, string | Uint8Array | null>>): readonly Issue[] {
  try {
    withDay(changes, readCampaign);
  } catch (error) {
    if (error instanceof InputError) return error.issues;
    throw error;
  }
  throw new Error("expected the day to be refused, but it was read");
}

/** The day, when nothing stops it. */
export function reading(changes: Readonly<Record<string, string | Uint8Array | null>> = {}): Campaign {
  return withDay(changes, readCampaign);
}

/** One file of the example with a text replaced; fails when the text is not there. */
export function changed(file: keyof typeof exampleDay, from: string | RegExp, to: string): Record<string, string> {
  const before: string = exampleDay[file];
  const after = before.replace(from, () => to);
  if (after === before) throw new Error(`the example's ${file} has no ${String(from)}`);
  return { [file]: after };
}

/** 1-based line of the example's file on which a text first stands, after a change. */
export function lineOf(content: string, text: string): number {
  const at = content.indexOf(text);
  if (at < 0) throw new Error(`no "${text}"`);
  return content.slice(0, at).split("\n").length;
}
