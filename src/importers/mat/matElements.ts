/** One tagged piece of a MAT file of version 5. */
export interface Element {
  readonly type: number;
  /** the file or the unpacked element it lies in */
  readonly view: DataView;
  readonly from: number;
  readonly to: number;
  /** where the next element starts */
  readonly next: number;
}

/** Types of stored data: their names and bytes a value, by number. */
const stored: Readonly<Record<number, { readonly bytes: number; readonly read: (view: DataView, at: number, little: boolean) => number }>> = {
  1: { bytes: 1, read: (view, at) => view.getInt8(at) },
  2: { bytes: 1, read: (view, at) => view.getUint8(at) },
  3: { bytes: 2, read: (view, at, little) => view.getInt16(at, little) },
  4: { bytes: 2, read: (view, at, little) => view.getUint16(at, little) },
  5: { bytes: 4, read: (view, at, little) => view.getInt32(at, little) },
  6: { bytes: 4, read: (view, at, little) => view.getUint32(at, little) },
  7: { bytes: 4, read: (view, at, little) => view.getFloat32(at, little) },
  9: { bytes: 8, read: (view, at, little) => view.getFloat64(at, little) },
  12: { bytes: 8, read: (view, at, little) => exact(view.getBigInt64(at, little)) },
  13: { bytes: 8, read: (view, at, little) => exact(view.getBigUint64(at, little)) },
};

export const elementTypes = { matrix: 14, compressed: 15, utf8: 16, utf16: 17, utf32: 18 } as const;

/** The element at a place. @throws Error where the bytes end inside it */
export function elementAt(view: DataView, at: number, end: number, little: boolean): Element {
  if (at + 8 > end) throw new Error(`the file ends inside a tag at byte ${at}`);
  const word = view.getUint32(at, little);
  const small = word >>> 16;
  if (small > 0) {
    if (small > 4) throw new Error(`a short element of ${small} bytes at byte ${at}`);
    return { type: word & 0xffff, view, from: at + 4, to: at + 4 + small, next: at + 8 };
  }
  const size = view.getUint32(at + 4, little);
  const from = at + 8;
  if (from + size > end) throw new Error(`the file ends inside an element of ${size} bytes at byte ${at}`);
  const padded = word === elementTypes.compressed ? size : Math.ceil(size / 8) * 8;
  return { type: word, view, from, to: from + size, next: Math.min(end, from + padded) };
}

/** @throws Error where the element holds no numbers */
export function countOf(element: Element): number {
  const kind = stored[element.type];
  if (kind === undefined) throw new Error(`expected numbers, found an element of type ${element.type}`);
  const count = (element.to - element.from) / kind.bytes;
  if (!Number.isInteger(count)) throw new Error(`an element of ${element.to - element.from} bytes with ${kind.bytes} bytes a value`);
  return count;
}

/** Every `step`-th value from `first`. */
export function numbersOf(element: Element, little: boolean, first = 0, step = 1, count = countOf(element)): Float64Array {
  const kind = stored[element.type];
  if (kind === undefined) throw new Error(`expected numbers, found an element of type ${element.type}`);
  const values = new Float64Array(count);
  for (let i = 0; i < count; i++) values[i] = kind.read(element.view, element.from + (first + i * step) * kind.bytes, little);
  return values;
}

export function textOf(element: Element, little: boolean): string {
  const bytes = new Uint8Array(element.view.buffer, element.view.byteOffset + element.from, element.to - element.from);
  if (element.type === elementTypes.utf8 || element.type === 1 || element.type === 2) return new TextDecoder().decode(bytes);
  if (element.type === elementTypes.utf16) return new TextDecoder(little ? "utf-16le" : "utf-16be").decode(bytes);
  const codes = numbersOf(element.type === elementTypes.utf32 ? { ...element, type: 6 } : element, little);
  return Array.from(codes, (code) => (code >= 0 && code <= 0x10ffff ? String.fromCodePoint(code) : "\ufffd")).join("");
}

/** A whole number beyond 2^53 cannot be held exactly, and a rounded count would be a wrong one. */
function exact(value: bigint): number {
  if (value > 9_007_199_254_740_992n || value < -9_007_199_254_740_992n) throw new Error(`the whole number ${value} is too large to be held exactly`);
  return Number(value);
}
