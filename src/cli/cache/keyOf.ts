import { createHash } from "node:crypto";
import { exactJson } from "../../core/exactJson.ts";

/** A short name for everything a result depends on: equal parts, equal key. */
export function keyOf(...parts: readonly unknown[]): string {
  return createHash("sha256").update(exactJson(parts)).digest("hex");
}
