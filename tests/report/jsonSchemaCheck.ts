/** Checks a value against the JSON Schema keywords that our schemas use; refuses a schema with any other keyword. Returns every fault. */
export function schemaFaults(value: unknown, schema: Schema, root: Schema = schema, at = "$"): string[] {
  const faults: string[] = [];
  const fault = (message: string): void => void faults.push(`${at}: ${message}`);
  for (const [keyword, rule] of Object.entries(schema)) {
    if (["$schema", "$defs", "title", "description"].includes(keyword)) continue;
    if (keyword === "$ref") {
      const target = (root["$defs"] as Schema)[String(rule).replace("#/$defs/", "")];
      if (target === undefined) throw new Error(`schema: ${String(rule)} is not defined`);
      faults.push(...schemaFaults(value, target as Schema, root, at));
    } else if (keyword === "const") {
      if (value !== rule) fault(`is not ${JSON.stringify(rule)}`);
    } else if (keyword === "enum") {
      if (!(rule as unknown[]).includes(value)) fault(`${JSON.stringify(value)} is not one of the allowed values`);
    } else if (keyword === "type") {
      if (![rule].flat().some((type) => isType(value, type as string))) fault(`${JSON.stringify(value)?.slice(0, 60)} is not ${JSON.stringify(rule)}`);
    } else if (keyword === "anyOf") {
      const tries = (rule as Schema[]).map((option) => schemaFaults(value, option, root, at));
      if (!tries.some((found) => found.length === 0)) faults.push(...(tries[0] ?? []));
    } else if (keyword === "pattern") {
      if (typeof value === "string" && !new RegExp(rule as string).test(value)) fault(`"${value}" does not match ${String(rule)}`);
    } else if (keyword === "minimum") {
      if (typeof value === "number" && value < (rule as number)) fault(`${value} is below ${String(rule)}`);
    } else if (keyword === "maximum") {
      if (typeof value === "number" && value > (rule as number)) fault(`${value} is above ${String(rule)}`);
    } else if (keyword === "exclusiveMinimum") {
      if (typeof value === "number" && value <= (rule as number)) fault(`${value} is not above ${String(rule)}`);
    } else if (keyword === "propertyNames") {
      if (isType(value, "object")) for (const key of Object.keys(value as object)) faults.push(...schemaFaults(key, rule as Schema, root, `${at}, key "${key}"`));
    } else if (keyword === "minItems" || keyword === "maxItems") {
      if (Array.isArray(value) && (keyword === "minItems" ? value.length < (rule as number) : value.length > (rule as number))) fault(`has ${value.length} items`);
    } else if (keyword === "items") {
      if (Array.isArray(value)) value.forEach((item, index) => faults.push(...schemaFaults(item, rule as Schema, root, `${at}[${index}]`)));
    } else if (keyword === "prefixItems") {
      if (Array.isArray(value)) (rule as Schema[]).forEach((option, index) => faults.push(...schemaFaults(value[index], option, root, `${at}[${index}]`)));
    } else if (keyword === "required") {
      if (isType(value, "object")) for (const key of rule as string[]) if (!Object.hasOwn(value as object, key)) fault(`lacks "${key}"`);
    } else if (keyword === "properties") {
      if (isType(value, "object")) for (const [key, item] of Object.entries(value as Schema)) if (Object.hasOwn(rule as Schema, key)) faults.push(...schemaFaults(item, (rule as Schema)[key] as Schema, root, `${at}.${key}`));
    } else if (keyword === "additionalProperties") {
      const known = Object.keys((schema["properties"] as Schema | undefined) ?? {});
      if (isType(value, "object")) {
        for (const [key, item] of Object.entries(value as Schema)) {
          if (known.includes(key)) continue;
          if (rule === false) fault(`has the unexpected "${key}"`);
          else faults.push(...schemaFaults(item, rule as Schema, root, `${at}.${key}`));
        }
      }
    } else {
      throw new Error(`schema: keyword "${keyword}" is not known to this check`);
    }
  }
  return faults;
}

type Schema = { readonly [key: string]: unknown };

function isType(value: unknown, type: string): boolean {
  if (type === "null") return value === null;
  if (type === "array") return Array.isArray(value);
  if (type === "integer") return Number.isInteger(value);
  if (type === "object") return typeof value === "object" && value !== null && !Array.isArray(value);
  return typeof value === type;
}
