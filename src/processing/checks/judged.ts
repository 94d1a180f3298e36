import type { TolerancePair } from "../../campaign/tolerances.ts";
import { finding } from "../../core/finding.ts";
import type { Finding, Severity } from "../../core/finding.ts";

/** A finding when a measured value passes the look or the reject limit, none otherwise; no value, no finding. */
export function judged(code: string, measured: number, limits: TolerancePair, message: (severity: Severity) => string, rest: Partial<Pick<Finding, "channel" | "fromS" | "toS">> = {}): Finding[] {
  if (!(measured > limits.look)) return [];
  const severity: Severity = measured > limits.reject ? "reject" : "look";
  return [finding(code, severity, message(severity), { ...rest, measured, limit: limits[severity] })];
}

export function percent(share: number): string {
  return `${(100 * share).toFixed(1)} %`;
}
