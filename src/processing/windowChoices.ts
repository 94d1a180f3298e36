import { meanOver } from "./conditioning/slope.ts";
import type { RevolutionWindow } from "./conditioning/window.ts";
import type { WindowChoice } from "./dayResult.ts";
import type { PreparedRun } from "./preparedRun.ts";
import { timed } from "./rolling.ts";

/**
 * The pull coefficient under neighbouring windows: what the choice of window matters.
 *
 * @param shiftN  what was taken into pull and load over the chosen window; the others are near enough to share it [N]
 */
export function windowChoices(run: PreparedRun, window: RevolutionWindow, shiftN: { readonly pull: number; readonly load: number }): WindowChoice[] {
  const pull = timed(run, "drawbarPull", "N");
  const load = timed(run, "verticalLoad", "N");
  if (pull === null || load === null) return [];
  const { boundariesS } = window;
  const middles = boundariesS.slice(1).map((toS, i) => ((boundariesS[i] as number) + toS) / 2);
  const choices: (readonly [string, readonly number[]])[] = [["as chosen", boundariesS]];
  if (boundariesS.length > 2) {
    choices.push(["without the first revolution", boundariesS.slice(1)], ["without the last revolution", boundariesS.slice(0, -1)], ["shifted by half a revolution", middles]);
  }
  return choices.map(([label, edges]) => {
    const fromS = edges[0] as number;
    const toS = edges.at(-1) as number;
    return { label, fromS, toS, pullCoefficient: (meanOver(pull.time, pull.samples, fromS, toS).mean + shiftN.pull) / (meanOver(load.time, load.samples, fromS, toS).mean + shiftN.load) };
  });
}
