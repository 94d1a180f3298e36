import { readFileSync, writeFileSync } from "node:fs";

/** Starts the measurement anew, where the system can; else the peak is that of the whole process. */
export function forgetPeak(): void {
  try {
    writeFileSync("/proc/self/clear_refs", "5");
  } catch {
    // Only Linux has it.
  }
}

/** Highest memory in use since, MB. */
export function peakMb(): number {
  try {
    return Number(/VmHWM:\s+(\d+)/.exec(readFileSync("/proc/self/status", "utf8"))?.[1]) / 1024;
  } catch {
    return process.resourceUsage().maxRSS / 1024;
  }
}
