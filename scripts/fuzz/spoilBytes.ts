import type { Random } from "../../src/numerics/random.ts";

/** One way to spoil a file. */
export type Spoil = (bytes: Uint8Array, random: Random) => Uint8Array;

const around = (bytes: Uint8Array, at: number, middle: Uint8Array, skip = 0): Uint8Array => new Uint8Array(Buffer.concat([bytes.subarray(0, at), middle, bytes.subarray(at + skip)]));

/** Structure stands at heads and tails, so half of the damage goes there. */
function place(bytes: Uint8Array, random: Random): number {
  const reach = Math.min(bytes.length, random.integer(2) === 0 ? bytes.length : 1024);
  if (reach === 0) return 0;
  const at = random.integer(reach);
  return random.integer(3) === 0 ? bytes.length - 1 - at : at;
}

function changed(bytes: Uint8Array, change: (copy: Uint8Array) => void): Uint8Array {
  const copy = bytes.slice();
  if (copy.length > 0) change(copy);
  return copy;
}

const words: readonly (readonly number[])[] = [
  [0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff, 0xff],
  [0, 0, 0, 0, 0, 0, 0, 0],
  [0xff, 0xff, 0xff, 0x7f],
  [0, 0, 0, 0x80],
  [0x7f, 0xff, 0xff, 0xff],
  [0, 0, 0, 1],
  [0, 0, 0, 0x10],
  [0, 0, 0xf8, 0x7f],
  [0, 0, 0, 0, 0, 0, 0xf0, 0x7f],
  [0xff, 0xff],
  [0, 1],
  [0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 0x80, 1],
];

/** Damage that a bad cable, card or disk does, whatever the format. */
export const spoilBytes: Readonly<Record<string, Spoil>> = {
  "cut short": (bytes, random) => bytes.slice(0, random.integer(bytes.length + 1)),
  "head lost": (bytes, random) => bytes.slice(random.integer(bytes.length + 1)),
  "bits flipped": (bytes, random) => changed(bytes, (copy) => {
    for (let n = random.integer(8); n >= 0; n--) copy[place(copy, random)]! ^= 1 << random.integer(8);
  }),
  "bytes changed": (bytes, random) => changed(bytes, (copy) => {
    for (let n = random.integer(16); n >= 0; n--) copy[place(copy, random)] = random.integer(256);
  }),
  "extreme word": (bytes, random) => changed(bytes, (copy) => {
    const word = words[random.integer(words.length)] as readonly number[];
    const at = place(copy, random);
    word.forEach((byte, index) => {
      if (at + index < copy.length) copy[at + index] = byte;
    });
  }),
  "blocks swapped": (bytes, random) => changed(bytes, (copy) => {
    const size = 1 + random.integer(Math.max(1, Math.floor(copy.length / 4)));
    const [a, b] = [place(copy, random), place(copy, random)];
    const kept = copy.slice(a, a + size);
    copy.copyWithin(a, b, b + size);
    copy.set(kept.subarray(0, copy.length - b), b);
  }),
  "block lost": (bytes, random) => around(bytes, place(bytes, random), new Uint8Array(0), 1 + random.integer(600)),
  "block twice": (bytes, random) => {
    const at = place(bytes, random);
    return around(bytes, at, bytes.subarray(at, at + 1 + random.integer(4096)));
  },
  "zeros between": (bytes, random) => around(bytes, place(bytes, random), new Uint8Array(1 + random.integer(5000))),
  "noise between": (bytes, random) => around(bytes, place(bytes, random), Uint8Array.from({ length: 1 + random.integer(600) }, () => random.integer(256))),
  "zeros at the end": (bytes, random) => changed(bytes, (copy) => copy.fill(0, place(copy, random))),
  "noise behind the head": (bytes, random) => Uint8Array.from(bytes, (byte, index) => (index < 132 ? byte : random.integer(256))),
};
