/** One number or text inside a message. */
export interface Field {
  /** `wrench.force.x`, `orientation_covariance[4]`, `position.wheel` */
  readonly name: string;
  readonly type: string;
  readonly of: (message: unknown) => number | string | null;
}

type Get = (message: unknown) => unknown;
type Group = Readonly<Record<string, unknown>>;

const mostFields = 4000;
/** A longer list is a picture or a point cloud, no set of channels. */
const longestList = 64;
const deepest = 12;

/** Every number and text of a message, found from its first one. */
export function fieldsOf(message: unknown): Field[] {
  const fields: Field[] = [];
  visit(message, "", (whole) => whole, fields, 0);
  return fields;
}

function visit(value: unknown, name: string, get: Get, fields: Field[], depth: number): void {
  if (fields.length >= mostFields || depth > deepest) return;
  if (typeof value === "number" || typeof value === "bigint" || typeof value === "boolean") fields.push({ name, type: typeof value === "boolean" ? "true or false" : "number", of: (message) => plain(get(message)) });
  else if (typeof value === "string") fields.push({ name, type: "text", of: (message) => plain(get(message)) });
  else if (isList(value)) listFields(value, name, get, fields, depth);
  else if (isGroup(value) && stampNs(value) === null) {
    for (const key of Object.keys(value)) {
      const names = value["name"];
      const inner: Get = (message) => (get(message) as Group | null | undefined)?.[key];
      const child = value[key];
      const label = name === "" ? key : `${name}.${key}`;
      // Joint states list names beside their numbers; a joint keeps its name even where its place changes.
      if (key !== "name" && Array.isArray(names) && isList(child) && child.length === names.length && names.every((one) => typeof one === "string") && new Set(names).size === names.length) {
        for (const own of names as string[]) fields.push({ name: `${label}.${own}`, type: "number", of: (message) => namedIn(get(message), key, own) });
      } else visit(child, label, inner, fields, depth + 1);
    }
  }
}

function listFields(list: ArrayLike<unknown>, name: string, get: Get, fields: Field[], depth: number): void {
  if (list.length > longestList) return;
  for (let index = 0; index < list.length; index++) visit(list[index], `${name}[${index}]`, (message) => (get(message) as ArrayLike<unknown> | null | undefined)?.[index], fields, depth + 1);
}

function namedIn(group: unknown, key: string, own: string): number | string | null {
  const names = (group as Group | null | undefined)?.["name"];
  const list = (group as Group | null | undefined)?.[key];
  const at = Array.isArray(names) ? names.indexOf(own) : -1;
  return at < 0 || !isList(list) ? null : plain(list[at]);
}

/** Nanoseconds of a stamp as ROS 2 and JSON recordings write it; null = it is none. */
export function stampNs(value: unknown): bigint | null {
  if (!isGroup(value)) return null;
  const { sec, nanosec = value["nsec"] } = value as { readonly sec?: unknown; readonly nanosec?: unknown };
  if (Object.keys(value).length !== 2 || !isWhole(sec) || !isWhole(nanosec)) return null;
  return BigInt(sec) * 1_000_000_000n + BigInt(nanosec);
}

/** The stamp its sender gave a message: in its header, or beside its numbers. */
export function headerNs(message: unknown): bigint | null {
  if (!isGroup(message)) return null;
  const header = message["header"];
  return (isGroup(header) ? stampNs(header["stamp"]) : null) ?? stampNs(message["stamp"]) ?? stampNs(message["timestamp"]);
}

function plain(value: unknown): number | string | null {
  if (value === null || value === undefined) return null;
  if (typeof value === "number" || typeof value === "string") return value;
  if (typeof value === "boolean") return value ? 1 : 0;
  if (typeof value === "bigint") {
    if (value > 9_007_199_254_740_992n || value < -9_007_199_254_740_992n) throw new Error(`the whole number ${value} is too large to be held exactly`);
    return Number(value);
  }
  return "a group of fields";
}

function isWhole(value: unknown): value is number | bigint {
  return typeof value === "bigint" || Number.isSafeInteger(value);
}

function isGroup(value: unknown): value is Group {
  return typeof value === "object" && value !== null && !Array.isArray(value) && !ArrayBuffer.isView(value);
}

function isList(value: unknown): value is ArrayLike<unknown> {
  return Array.isArray(value) || (ArrayBuffer.isView(value) && !(value instanceof DataView));
}
