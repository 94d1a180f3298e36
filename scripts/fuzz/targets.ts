import { cacheTarget } from "./cacheTarget.ts";
import { dayTargets } from "./dayTargets.ts";
import { logTargets } from "./logTargets.ts";
import type { Target } from "./target.ts";

export const targets: readonly Target[] = [...logTargets, ...dayTargets, cacheTarget];

export function targetNamed(name: string): Target {
  const found = targets.find((target) => target.name === name);
  if (found === undefined) throw new Error(`no target ${name}; there are ${targets.map((target) => target.name).join(", ")}`);
  return found;
}
