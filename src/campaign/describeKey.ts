import type { KeyPath } from "./yamlPlaces.ts";
import { jsonSchemas } from "./schemas.ts";

type Schema = { readonly [key: string]: unknown };

let rig: Schema | null = null;

/** What the rig schema says about the place a key path leads to: its meaning and the keys it may hold. */
export function describeKey(path: KeyPath): { readonly about: string; readonly keys: readonly string[] } {
  rig ??= jsonSchemas().rig;
  let nodes: Schema[] = [rig];
  for (const segment of path) nodes = nodes.flatMap((node) => step(node, segment));
  const about = nodes.map((node) => node["description"]).find((text) => typeof text === "string") as string | undefined;
  return { about: (about ?? "").replace(/\.$/, ""), keys: [...new Set(nodes.flatMap(branches).flatMap(keysOf))] };
}

function branches(node: Schema): Schema[] {
  return [node, ...["oneOf", "anyOf"].flatMap((word) => (Array.isArray(node[word]) ? (node[word] as Schema[]).flatMap(branches) : []))];
}

function keysOf(node: Schema): string[] {
  if (node["properties"] !== undefined) return Object.keys(node["properties"] as Schema);
  const names = node["propertyNames"] as Schema | undefined;
  return Array.isArray(names?.["enum"]) ? (names["enum"] as string[]) : [];
}

function step(node: Schema, segment: PropertyKey): Schema[] {
  return branches(node).flatMap((branch) => {
    const properties = branch["properties"] as Schema | undefined;
    const key = String(segment);
    const next = properties !== undefined && Object.hasOwn(properties, key) ? properties[key] : typeof segment === "number" ? branch["items"] : branch["additionalProperties"];
    return typeof next === "object" && next !== null ? [next as Schema] : [];
  });
}
