import { tableFromIPC } from "apache-arrow";
import type { Field } from "apache-arrow";

/** The unit in a field's own metadata. */
export function unitOfField(field: Field): string | null {
  for (const [key, value] of field.metadata) if (/^units?$/i.test(key) && value.trim() !== "") return value.trim();
  return null;
}

/** Units by field, from a schema as Arrow writes it ahead of its data. */
export function unitsOfSchema(bytes: Uint8Array): Map<string, string> {
  return new Map(tableFromIPC(bytes).schema.fields.flatMap((field) => {
    const unit = unitOfField(field);
    return unit === null ? [] : [[field.name, unit] as const];
  }));
}
