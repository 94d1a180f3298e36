import type { RunResult } from "../processing/dayResult.ts";

/** A line that counts the runs, on a terminal only; rejected runs stay on screen as they come. */
export function progressLine(quiet: boolean): { readonly step: (done: number, total: number, run: RunResult) => void; readonly end: () => void } {
  const stream = process.stderr;
  if (quiet) return { step: () => undefined, end: () => undefined };
  let lastShown = 0;
  const clear = (): void => void (stream.isTTY && stream.write("\r\u001b[K"));
  return {
    step: (done, total, run) => {
      if (isRejected(run)) {
        clear();
        stream.write(`${rejectedLine(run)}\n`);
      }
      const now = Date.now();
      if (!stream.isTTY || (now - lastShown < 100 && done < total)) return;
      lastShown = now;
      clear();
      stream.write(`${done} of ${total} runs, ${run.plan.id}`);
    },
    end: clear,
  };
}

export function isRejected(run: RunResult): boolean {
  return run.verdict === "repeat" || run.verdict === "unread";
}

export function rejectedLine(run: RunResult): string {
  return `${run.plan.id}  ${run.verdict}: ${run.reasons[0] ?? ""}`;
}

/** Says what does not concern the day itself on a line of its own, each thing once. */
export function noteOnce(): (note: string) => void {
  const said = new Set<string>();
  return (note) => {
    if (!said.has(note)) process.stderr.write(`${process.stderr.isTTY ? "\r\u001b[K" : ""}${note}\n`);
    said.add(note);
  };
}
