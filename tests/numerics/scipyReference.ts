import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { vi } from "vitest";

vi.setConfig({ testTimeout: 120_000 }); // loading SciPy takes seconds on a busy machine

const python = "/usr/bin/python3";
const script = fileURLToPath(new URL("./scipyReference.py", import.meta.url));

export const scipySource = "SciPy and NumPy, run live by tests/numerics/scipyReference.py";

/** A call that scipyReference.py knows, with its arguments. */
export type Request = readonly [name: string, args: readonly unknown[]];

/** Answers of SciPy, in the order of the requests. Fails plainly when SciPy is not there: a missing reference is no pass. */
export function scipy(requests: readonly Request[]): unknown[] {
  const text = JSON.stringify(requests, (_, value) => (ArrayBuffer.isView(value) ? Array.from(value as Float64Array) : (value as unknown)));
  const run = spawnSync(python, [script], { input: text, encoding: "utf8", maxBuffer: 2 ** 28 });
  if (run.error !== undefined) throw new Error(`${python} could not be started (${run.error.message}). Install the Debian package python3-scipy.`);
  if (/ModuleNotFoundError/.test(run.stderr)) throw new Error(`${python} has no SciPy. Install the Debian package python3-scipy: apt-get install python3-scipy`);
  if (run.status !== 0) throw new Error(`scipyReference.py failed:\n${run.stderr}`);
  const answers = JSON.parse(run.stdout) as unknown[];
  if (answers.length !== requests.length) throw new Error(`expected ${requests.length} answers, found ${answers.length}`);
  return answers;
}

export function scipyNumbers(requests: readonly Request[]): number[] {
  return scipy(requests) as number[];
}
