import { spawn } from "node:child_process";
import { readFileSync } from "node:fs";

export interface Timing {
  readonly seconds: number;
  /** of all its threads; to the last 20 ms */
  readonly cpuS: number;
  /** peak memory of the process and its threads as the kernel counts it */
  readonly peakMb: number;
  readonly stdout: string;
}

/** Runs a program: wall time, processor time and peak memory. @throws where it ends with more than 1: drawbar ends with 1 when runs are rejected, as some of the demo day are on purpose */
export function timed(program: string, args: readonly string[]): Promise<Timing> {
  return new Promise((resolve, reject) => {
    const started = process.hrtime.bigint();
    const child = spawn(program, args, { stdio: ["ignore", "pipe", "inherit"] });
    let stdout = "";
    let peakKb = 0;
    let ticks = 0;
    child.stdout.on("data", (text: Buffer) => (stdout += text.toString()));
    const watch = setInterval(() => {
      try {
        const status = readFileSync(`/proc/${child.pid}/status`, "utf8");
        peakKb = Math.max(peakKb, Number(/VmHWM:\s+(\d+)/.exec(status)?.[1] ?? 0));
        const fields = readFileSync(`/proc/${child.pid}/stat`, "utf8").split(") ")[1]?.split(" ") ?? [];
        ticks = Math.max(ticks, Number(fields[11] ?? 0) + Number(fields[12] ?? 0));
      } catch {
        // The process has just ended.
      }
    }, 20);
    child.on("error", reject);
    child.on("close", (code) => {
      clearInterval(watch);
      const seconds = Number(process.hrtime.bigint() - started) / 1e9;
      if (code === null || code > 1) reject(new Error(`${program} ${args[0]} ended with ${code}`));
      else resolve({ seconds, cpuS: ticks / 100, peakMb: peakKb / 1024, stdout });
    });
  });
}
