const mark = "#number";

/** JSON that also holds the numbers JSON cannot write: not a number, infinite, negative zero. */
export function exactJson(value: unknown): string {
  return JSON.stringify(value, (_, item: unknown) => (typeof item === "number" && (!Number.isFinite(item) || Object.is(item, -0)) ? { [mark]: Object.is(item, -0) ? "-0" : String(item) } : item));
}

/** What `exactJson` wrote. */
export function parseExactJson(text: string): unknown {
  return JSON.parse(text, (_, item: unknown) => (typeof item === "object" && item !== null && mark in item ? Number(item[mark]) : item));
}
