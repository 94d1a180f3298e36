import type { RunResult } from "../processing/dayResult.ts";

/** A line that counts the runs, on a terminal only; rejected runs stay on screen as they come. */
export function progressLine(quiet: boolean): { readonly step: (done: number, total: number, run: RunResult) => void; readonly end: () => void } {
  const stream = process.stderr;
  if (quiet) return { step: () => undefined, end: () => undefined };
  let lastShown = 0;
  const clear = (): void => void (stream.isTTY && stream.write("\r\u001b[K"));
  return {
    step: (done, total, run) => {
      if (run.verdict === "repeat" || run.verdict === "unread") {
        clear();
        stream.write(`${run.plan.id}  ${run.verdict}: ${run.reasons[0] ?? ""}\n`);
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
