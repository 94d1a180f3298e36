import { quantities } from "../campaign/quantities.ts";
import type { QuantityName } from "../campaign/quantities.ts";

/** Keys that are no words by themselves; "tilt" and "temperature" read as they are. */
const keys = Object.keys(quantities).filter((name) => /[A-Z0-9]/.test(name));
const inText = new RegExp(`\\b(${keys.join("|")})\\b`, "g");

/** A message with channels in words; at its first mention each keeps the key that stands in rig.yaml, where a person must find it. */
export function channelsInWords(message: string): string {
  const named = new Set<string>();
  return message.replace(inText, (name, _key, at: number) => {
    const { label } = quantities[name as QuantityName];
    const words = at === 0 ? label : label.toLowerCase();
    if (named.has(name)) return words;
    named.add(name);
    return `${words} (channel ${name})`;
  });
}
