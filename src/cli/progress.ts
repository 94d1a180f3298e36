import type { RunResult } from "../processing/dayResult.ts";
import type { WheelSoilJob } from "../fitting/wheelSoilJobs.ts";
import { channelsInWords } from "../report/channelsInWords.ts";

const fitWords: Readonly<Record<WheelSoilJob["kind"], string>> = { fit: "fits", heldOut: "comparisons on conditions left out", chain: "chains of the posterior", profile: "profiles", bootstrap: "lots of refits to drawn runs" };

/** A line that counts the runs, on a terminal only; rejected runs stay on screen as they come. */
export function progressLine(quiet: boolean): { readonly step: (done: number, total: number, run: RunResult) => void; readonly fit: (done: number, total: number, job: WheelSoilJob) => void; readonly end: (runs: readonly RunResult[]) => void } {
  const stream = process.stderr;
  if (quiet) return { step: () => undefined, fit: () => undefined, end: () => undefined };
  let lastShown = 0;
  const said = new Set<string>();
  const clear = (): void => void (stream.isTTY && stream.write("\r\u001b[K"));
  return {
    step: (done, total, run) => {
      if (isRejected(run)) {
        clear();
        stream.write(`${rejectedLine(run)}\n`);
        said.add(run.plan.id);
      }
      const now = Date.now();
      if (!stream.isTTY || (now - lastShown < 100 && done < total)) return;
      lastShown = now;
      clear();
      stream.write(`${done} of ${total} runs, ${run.plan.id}`);
    },
    fit: (done, total, job) => {
      if (!stream.isTTY) return;
      clear();
      stream.write(`Wheel–soil models: ${done} of ${total} ${fitWords[job.kind]}`);
    },
    end: (runs) => {
      clear();
      // Rejected by what only the whole day shows.
      for (const run of runs) if (isRejected(run) && !said.has(run.plan.id)) stream.write(`${rejectedLine(run)}\n`);
    },
  };
}

export function isRejected(run: RunResult): boolean {
  return run.verdict === "repeat" || run.verdict === "unread";
}

export function rejectedLine(run: RunResult): string {
  return `${run.plan.id}  ${run.verdict}: ${channelsInWords(run.reasons[0] ?? "")}`;
}

/** Says what does not concern the day itself on a line of its own, each thing once. */
export function noteOnce(): (note: string) => void {
  const said = new Set<string>();
  return (note) => {
    if (!said.has(note)) process.stderr.write(`${process.stderr.isTTY ? "\r\u001b[K" : ""}${note}\n`);
    said.add(note);
  };
}
