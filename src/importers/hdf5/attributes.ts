import type { Dataset, Group } from "h5wasm";
import { plainly } from "./openFile.ts";

export type AttributeValue = string | number;

/** Attributes that hold one text or one number. */
export function attributesOf(object: Dataset | Group): ReadonlyMap<string, AttributeValue> {
  const found = new Map<string, AttributeValue>();
  const attributes = plainly(() => object.attrs);
  for (const [name, attribute] of Object.entries(attributes)) {
    const { metadata } = attribute;
    // Numbers and texts only: references and the like say nothing to a person.
    if (![0, 1, 3].includes(metadata.type) || (metadata.total_size ?? 1) > 64 || (metadata.shape ?? []).reduce((a, b) => a * b, 1) !== 1) continue;
    const value: unknown = plainly(() => attribute.value);
    const one = ArrayBuffer.isView(value) || Array.isArray(value) ? (value as unknown as readonly unknown[])[0] : value;
    if (typeof one === "string") found.set(name, one.replace(/\0.*$/s, ""));
    else if (typeof one === "number" || typeof one === "bigint") found.set(name, Number(one));
  }
  return found;
}

/** The first of these names that holds a text. */
export function textAmong(attributes: ReadonlyMap<string, AttributeValue>, names: readonly string[]): string | null {
  for (const name of names) {
    const value = attributes.get(name);
    if (typeof value === "string" && value.trim() !== "") return value.trim();
  }
  return null;
}

export function numberAmong(attributes: ReadonlyMap<string, AttributeValue>, names: readonly string[]): number | null {
  for (const name of names) {
    const value = attributes.get(name);
    if (typeof value === "number") return value;
  }
  return null;
}
