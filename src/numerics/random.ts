/** Repeatable random numbers: the same seed gives the same row on every machine. */
export interface Random {
  /** 0 ≤ u < 1, 53 bits */
  uniform(): number;
  /** mean 0, standard deviation 1 */
  normal(): number;
  /** 0 … n − 1, each as likely */
  integer(n: number): number;
}

/**
 * Seeded random numbers.
 *
 *   xoshiro128** on four 32-bit words filled from the seed by SplitMix32; normal by Marsaglia's polar method
 *
 * Dimensionless. For simulation and resampling, not for secrets.
 *
 * @param seed whole number, taken modulo 2³²
 * @returns    { uniform(), normal(), integer(n) }
 * @throws     RangeError if the seed is not a whole number; from integer(n) if n is not a whole number from 1 to 2³²
 * @source     Blackman & Vigna, ACM Trans. Math. Softw. 47 (2021) 36; Marsaglia & Bray, SIAM Rev. 6 (1964) 260 (from memory)
 * @checked    tests/numerics/random.test.ts
 */
export function seededRandom(seed: number): Random {
  if (!Number.isSafeInteger(seed)) throw new RangeError(`seededRandom: expected a whole number as seed, found ${seed}`);
  const next = generator(seedWords(seed));
  const uniform = (): number => ((next() >>> 5) * 67108864 + (next() >>> 6)) / 9007199254740992;
  let spare = Number.NaN;
  return {
    uniform,
    normal() {
      if (!Number.isNaN(spare)) {
        const kept = spare;
        spare = Number.NaN;
        return kept;
      }
      for (;;) {
        const x = 2 * uniform() - 1;
        const y = 2 * uniform() - 1;
        const square = x * x + y * y;
        if (square >= 1 || square === 0) continue;
        const factor = Math.sqrt((-2 * Math.log(square)) / square);
        spare = y * factor;
        return x * factor;
      }
    },
    integer(n) {
      if (!Number.isInteger(n) || n < 1 || n > 4294967296) throw new RangeError(`integer: expected a whole number from 1 to 2^32, found ${n}`);
      const most = 4294967296 - (4294967296 % n); // beyond it the first values would come up more often
      for (;;) {
        const draw = next();
        if (draw < most) return draw % n;
      }
    },
  };
}

/** Four words from one seed, never all zero. */
function seedWords(seed: number): [number, number, number, number] {
  let state = seed | 0;
  const word = (): number => {
    state = (state + 0x9e3779b9) | 0;
    let z = state ^ (state >>> 16);
    z = Math.imul(z, 0x21f0aaad);
    z ^= z >>> 15;
    z = Math.imul(z, 0x735a2d97);
    return (z ^ (z >>> 15)) >>> 0;
  };
  return [word(), word(), word(), word() | 1];
}

/**
 * xoshiro128**, the source of bits behind `seededRandom`.
 *
 *   result = rotl(s₁ · 5, 7) · 9, state advanced by shifts and exclusive-or
 *
 * Dimensionless.
 *
 * @param words state, not all zero
 * @returns     a function that gives the next whole number 0 … 2³² − 1
 * @source      Blackman & Vigna, ACM Trans. Math. Softw. 47 (2021) 36, version 1.1
 * @checked     tests/numerics/random.test.ts
 */
export function generator(words: readonly [number, number, number, number]): () => number {
  let [a, b, c, d] = words;
  return () => {
    const product = Math.imul(b, 5);
    const result = Math.imul((product << 7) | (product >>> 25), 9) >>> 0;
    const shifted = b << 9;
    c ^= a;
    d ^= b;
    b ^= c;
    a ^= d;
    c ^= shifted;
    d = (d << 11) | (d >>> 21);
    return result;
  };
}
