/** Text written straight into bytes: a day of logs is hundreds of megabytes, and strings would be slow. */
export interface TextBytes {
  data: Uint8Array;
  at: number;
}

export const mark = { tab: 9, newline: 10, comma: 44, minus: 45, point: 46, zero: 48, colon: 58, semicolon: 59, return: 13 } as const;

const powers = [1, 10, 100, 1000, 10000, 100000, 1000000];

export function textBytes(capacity: number): TextBytes {
  return { data: new Uint8Array(capacity), at: 0 };
}

/** Makes sure `more` bytes still fit. */
export function reserve(text: TextBytes, more: number): void {
  if (text.at + more <= text.data.length) return;
  const larger = new Uint8Array(Math.max(text.data.length * 2, text.at + more));
  larger.set(text.data.subarray(0, text.at));
  text.data = larger;
}

export function written(text: TextBytes): Uint8Array {
  return text.data.subarray(0, text.at);
}

export function putText(text: TextBytes, content: string, encoding: "latin1" | "utf-8" = "utf-8"): void {
  const bytes = Buffer.from(content, encoding);
  reserve(text, bytes.length);
  text.data.set(bytes, text.at);
  text.at += bytes.length;
}

export function putByte(text: TextBytes, byte: number): void {
  text.data[text.at++] = byte;
}

/** A whole number ≥ 0 with at least `width` digits. */
export function putWhole(text: TextBytes, value: number, width = 1): void {
  const { data } = text;
  let digits = width;
  let bound = powers[width] ?? 10 ** width;
  while (value >= bound) {
    digits++;
    bound *= 10;
  }
  let rest = value;
  for (let place = text.at + digits - 1; place >= text.at; place--) {
    const next = Math.floor(rest / 10);
    data[place] = 48 + (rest - next * 10);
    rest = next;
  }
  text.at += digits;
}

/** A number rounded to a fixed count of decimals; `decimalMark` is the byte of the point or the comma. */
export function putFixed(text: TextBytes, value: number, decimals: number, decimalMark: number): void {
  const scale = powers[decimals] as number;
  let scaled = Math.round(value * scale);
  if (scaled < 0) {
    putByte(text, mark.minus);
    scaled = -scaled;
  }
  const whole = Math.floor(scaled / scale);
  putWhole(text, whole);
  if (decimals === 0) return;
  putByte(text, decimalMark);
  putWhole(text, scaled - whole * scale, decimals);
}
