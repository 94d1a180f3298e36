// A process of its own for the trials of one reader: the main process ends it when a trial takes too long or too much.
import { judge } from "./judge.ts";
import type { Verdict } from "./judge.ts";
import { forgetPeak, peakMb } from "./peakMemory.ts";
import { trialOf } from "./target.ts";
import { targetNamed } from "./targets.ts";

export interface Asked {
  readonly target: string;
  readonly seed: number;
}

export interface Said {
  readonly verdict: Verdict;
  readonly how: string;
  readonly bytes: number;
  /** of all threads together: does not depend on what else the machine does */
  readonly cpuS: number;
  /** highest memory during the trial, beyond what the process held before, MB */
  readonly peakMb: number;
}

const place = /^(logs\/x|logs\/|rig\.yaml|(runs|wheels|beds|cones)\.(csv|xlsx)|run )/;

process.on("message", ({ target, seed }: Asked) => {
  void answer(target, seed).then((said) => process.send?.(said));
});

async function answer(name: string, seed: number): Promise<Said> {
  const trial = await trialOf(targetNamed(name), seed);
  globalThis.gc?.();
  const heldMb = process.memoryUsage().rss / 2 ** 20;
  forgetPeak();
  const from = process.cpuUsage();
  const verdict = await judge(() => trial.sample.read(trial.bytes), place);
  const { user, system } = process.cpuUsage(from);
  return { verdict, how: `${trial.sample.name}: ${trial.how}`, bytes: trial.bytes.length, cpuS: (user + system) / 1e6, peakMb: Math.max(0, peakMb() - heldMb) };
}
