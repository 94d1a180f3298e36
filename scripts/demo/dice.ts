/** Seeded random numbers of the demo day. */
export interface Dice {
  /** evenly between 0 and 1 */
  uniform(): number;
  /** mean 0, standard deviation 1 */
  normal(): number;
}

/** The same seed and label always give the same numbers, whatever else is drawn in between. */
export function dice(seed: number, label: string): Dice {
  let hash = 2166136261 ^ seed;
  for (let i = 0; i < label.length; i++) hash = Math.imul(hash ^ label.charCodeAt(i), 16777619);
  // small fast counting generator of 32-bit words (public domain design, from memory)
  let a = hash | 0;
  let b = Math.imul(hash, 0x9e3779b1) | 0;
  let c = (hash ^ 0x5bf03635) | 0;
  let count = 1;
  const word = (): number => {
    const sum = (((a + b) | 0) + count) | 0;
    count = (count + 1) | 0;
    a = b ^ (b >>> 9);
    b = (c + (c << 3)) | 0;
    c = (c << 21) | (c >>> 11);
    c = (c + sum) | 0;
    return sum >>> 0;
  };
  for (let i = 0; i < 16; i++) word();
  const uniform = (): number => word() / 4294967296;
  let spare = Number.NaN;
  const normal = (): number => {
    if (!Number.isNaN(spare)) {
      const kept = spare;
      spare = Number.NaN;
      return kept;
    }
    let u: number;
    let v: number;
    let square: number;
    do {
      u = 2 * uniform() - 1;
      v = 2 * uniform() - 1;
      square = u * u + v * v;
    } while (square >= 1 || square === 0);
    const scale = Math.sqrt((-2 * Math.log(square)) / square);
    spare = v * scale;
    return u * scale;
  };
  return { uniform, normal };
}

/** A copy in random order. */
export function shuffled<T>(items: readonly T[], random: Dice): T[] {
  const copy = [...items];
  for (let i = copy.length - 1; i > 0; i--) {
    const j = Math.floor(random.uniform() * (i + 1));
    [copy[i], copy[j]] = [copy[j] as T, copy[i] as T];
  }
  return copy;
}
