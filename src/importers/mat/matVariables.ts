import { inflateSync } from "node:zlib";
import { mostUnpackedBytes } from "../../core/unpacked.ts";
import { countOf, elementAt, elementTypes, numbersOf, textOf } from "./matElements.ts";
import type { Element } from "./matElements.ts";

/** What a MAT file holds under a name. */
export type MatValue =
  | { readonly kind: "numbers"; readonly className: string; readonly dims: readonly number[]; readonly element: Element }
  | { readonly kind: "text"; readonly text: string }
  | { readonly kind: "struct"; readonly fields: ReadonlyMap<string, MatValue> }
  | { readonly kind: "other"; readonly what: string };

export interface MatFile {
  readonly little: boolean;
  readonly description: string;
  readonly variables: ReadonlyMap<string, MatValue>;
  readonly compressed: boolean;
}

const headerBytes = 128;
const deepest = 32;
const mostFields = 100_000;
const numberClasses: Readonly<Record<number, string>> = { 6: "double", 7: "single", 8: "int8", 9: "uint8", 10: "int16", 11: "uint16", 12: "int32", 13: "uint32", 14: "int64", 15: "uint64" };
const otherClasses: Readonly<Record<number, string>> = { 1: "a cell array", 3: "an object", 5: "a sparse matrix", 16: "a function", 17: "an object (table, time series, date …), whose layout is not published" };

/** Variables of a MAT file of version 5. @throws Error where the bytes do not hold together */
export function matVariables(bytes: Uint8Array, mostUnpacked = mostUnpackedBytes(bytes.length)): MatFile {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const little = bytes[126] === 73;
  const variables = new Map<string, MatValue>();
  const budget = { bytes: mostUnpacked, mostBytes: mostUnpacked, fields: mostFields };
  let compressed = false;
  for (let at = headerBytes; at < bytes.length; ) {
    let element = elementAt(view, at, bytes.length, little);
    at = element.next;
    if (element.type === elementTypes.compressed) {
      compressed = true;
      element = unpacked(bytes.subarray(element.from, element.to), little, budget);
    }
    if (element.type !== elementTypes.matrix) continue;
    const found = matrix(element, little, 0, budget);
    if (found.name !== "") variables.set(found.name, found.value);
  }
  return { little, description: new TextDecoder("latin1").decode(bytes.subarray(0, 116)).replace(/[\0\s]+$/, ""), variables, compressed };
}

function unpacked(packed: Uint8Array, little: boolean, budget: { bytes: number; readonly mostBytes: number }): Element {
  let inner: Buffer;
  try {
    inner = inflateSync(packed, { maxOutputLength: Math.max(1, budget.bytes) });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ERR_BUFFER_TOO_LARGE") throw new Error(`it unpacks to more than ${budget.mostBytes} bytes`);
    throw error;
  }
  budget.bytes -= inner.length;
  return elementAt(new DataView(inner.buffer, inner.byteOffset, inner.byteLength), 0, inner.byteLength, little);
}

function matrix(element: Element, little: boolean, depth: number, budget: { fields: number }): { readonly name: string; readonly value: MatValue } {
  if (depth > deepest) throw new Error(`structs within structs, more than ${deepest} deep`);
  if (--budget.fields < 0) throw new Error(`more than ${mostFields} variables and fields`);
  if (element.from === element.to) return { name: "", value: { kind: "other", what: "nothing" } };
  let at = element.from;
  const next = (): Element => {
    const one = elementAt(element.view, at, element.to, little);
    at = one.next;
    return one;
  };
  const flags = numbersOf(next(), little)[0] ?? 0;
  const classNumber = flags & 0xff;
  const complex = (flags & 0x0800) !== 0;
  const logical = (flags & 0x0200) !== 0;
  // Objects of newer kinds have no sizes: after the flags comes their name.
  if (classNumber === 17) return { name: textOf(next(), little), value: { kind: "other", what: otherClasses[17] as string } };
  const dims = [...numbersOf(next(), little)];
  const name = textOf(next(), little);
  const count = dims.reduce((product, size) => product * size, 1);
  if (dims.length < 2 || dims.some((size) => size < 0) || !Number.isSafeInteger(count)) throw new Error(`variable "${name}" of the size ${dims.join("×")}`);
  const numberClass = numberClasses[classNumber];
  if (numberClass !== undefined) {
    const data = next();
    if (countOf(data) !== count) throw new Error(`variable "${name}" of the size ${dims.join("×")} with ${countOf(data)} values`);
    if (complex) return { name, value: { kind: "other", what: "complex numbers" } };
    return { name, value: { kind: "numbers", className: logical ? "logical" : numberClass, dims, element: data } };
  }
  if (classNumber === 4) {
    if (count === 0) return { name, value: { kind: "text", text: "" } };
    return { name, value: dims[0] === 1 ? { kind: "text", text: textOf(next(), little) } : { kind: "other", what: "a table of letters" } };
  }
  if (classNumber === 2) return { name, value: struct(next, dims, count, little, depth, budget) };
  return { name, value: { kind: "other", what: otherClasses[classNumber] ?? `data of the unknown class ${classNumber}` } };
}

function struct(next: () => Element, dims: readonly number[], count: number, little: boolean, depth: number, budget: { fields: number }): MatValue {
  const nameLength = numbersOf(next(), little)[0] ?? 0;
  const namesElement = next();
  if (count !== 1) return { kind: "other", what: `an array of ${dims.join("×")} structs` };
  if (nameLength < 1) throw new Error(`field names of ${nameLength} letters`);
  const letters = numbersOf(namesElement, little);
  const fields = new Map<string, MatValue>();
  for (let from = 0; from + nameLength <= letters.length; from += nameLength) {
    const name = String.fromCharCode(...letters.subarray(from, from + nameLength)).replace(/\0.*$/s, "");
    const element = next();
    if (element.type !== elementTypes.matrix) throw new Error(`field "${name}" of the type ${element.type}`);
    fields.set(name, matrix(element, little, depth + 1, budget).value);
  }
  return { kind: "struct", fields };
}
