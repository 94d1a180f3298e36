import { printable } from "./printable.ts";

/** note: worth knowing. look: a person should look before the result is used. reject: the result is not to be used. */
export type Severity = "note" | "look" | "reject";

/** Doubtful data, said and carried to the report; never thrown. */
export interface Finding {
  /** short, stable, kebab-case: "zero-drift" */
  readonly code: string;
  readonly severity: Severity;
  /** channel name, or null when the whole run is meant */
  readonly channel: string | null;
  /** where in the run [s on the run's clock], or null */
  readonly fromS: number | null;
  readonly toS: number | null;
  /** what was found and what to do, in words a technician uses */
  readonly message: string;
  /** what was measured and the limit it was held against, same unit; null where the check is not a number */
  readonly measured: number | null;
  readonly limit: number | null;
}

/** A Finding with only what it needs. */
export function finding(code: string, severity: Severity, message: string, rest: Partial<Omit<Finding, "code" | "severity" | "message">> = {}): Finding {
  return { code, severity, message: printable(message), channel: null, fromS: null, toS: null, measured: null, limit: null, ...rest };
}
