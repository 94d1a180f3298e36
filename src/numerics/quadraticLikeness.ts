import { cholesky } from "./linearAlgebra.ts";

/**
 * The products of which a quadratic in n variables is made: 1, zᵢ, zᵢ zⱼ.
 *
 * @param z      n values
 * @param into   receives them; 1 + n + n (n + 1)/2 long
 * @returns      nothing; the result is in `into`
 * @source       definition
 * @checked      tests/numerics/quadraticLikeness.test.ts
 */
export function quadraticTerms(z: ArrayLike<number>, into: Float64Array): void {
  const n = z.length;
  into[0] = 1;
  let at = 1;
  for (let i = 0; i < n; i++) into[at++] = z[i] as number;
  for (let i = 0; i < n; i++) {
    for (let j = i; j < n; j++) into[at++] = (z[i] as number) * (z[j] as number);
  }
}

/**
 * How many products a quadratic in n variables has.
 *
 * @param n   variables
 * @returns   1 + n + n (n + 1)/2
 * @source    definition
 * @checked   tests/numerics/quadraticLikeness.test.ts
 */
export function quadraticCount(n: number): number {
  return 1 + n + (n * (n + 1)) / 2;
}

/**
 * Half the square form of a symmetric matrix.
 *
 *   ½ tᵀ G t
 *
 * Four running sums, since each addition of one would wait for the one before.
 *
 * @param gram   G, row by row; its upper triangle is read
 * @param t      as many values as G has rows
 * @returns      [unit of G times that of t squared]
 * @source       definition
 * @checked      tests/numerics/quadraticLikeness.test.ts
 */
export function halfSquareForm(gram: Float64Array, t: Float64Array): number {
  const terms = t.length;
  let sum = 0;
  for (let a = 0; a < terms; a++) {
    const row = a * terms;
    let u = 0.5 * (gram[row + a] as number) * (t[a] as number);
    let v = 0;
    let w = 0;
    let x = 0;
    let b = a + 1;
    for (; b + 3 < terms; b += 4) {
      u += (gram[row + b] as number) * (t[b] as number);
      v += (gram[row + b + 1] as number) * (t[b + 1] as number);
      w += (gram[row + b + 2] as number) * (t[b + 2] as number);
      x += (gram[row + b + 3] as number) * (t[b + 3] as number);
    }
    for (; b < terms; b++) u += (gram[row + b] as number) * (t[b] as number);
    sum += (u + v + (w + x)) * (t[a] as number);
  }
  return sum;
}

const ridge = 1e-9;

/**
 * Quadratics nearest to many functions of the same variables, by least squares.
 *
 *   yₖ(z) ≈ Σ cₖₐ tₐ(z),  t: `quadraticTerms`
 *
 * A ridge of 1e-9 of the diagonal holds what the places do not tell apart.
 *
 * @param places   z, more of them than terms, amid and around where it is needed
 * @param values   y at each place, one row a place
 * @returns        c, one row of terms a function, row by row [unit of y]
 * @throws         RangeError when there are fewer places than terms, or they all lie in one
 * @source         response surfaces; textbook
 * @checked        tests/numerics/quadraticLikeness.test.ts
 */
export function quadraticLikeness(places: readonly ArrayLike<number>[], values: readonly ArrayLike<number>[]): Float64Array {
  const terms = quadraticCount(places[0]?.length ?? 0);
  if (places.length < terms) throw new RangeError(`quadraticLikeness: expected at least ${terms} places, found ${places.length}`);
  const rows = places.map((z) => {
    const row = new Float64Array(terms);
    quadraticTerms(z, row);
    return row;
  });
  const normal = Array.from({ length: terms }, () => new Array<number>(terms).fill(0));
  for (const row of rows) {
    for (let a = 0; a < terms; a++) {
      const of = normal[a] as number[];
      for (let b = 0; b <= a; b++) of[b] = (of[b] as number) + (row[a] as number) * (row[b] as number);
    }
  }
  normal.forEach((of, a) => (of[a] = (of[a] as number) * (1 + ridge) + Number.MIN_VALUE));
  const factor = cholesky(normal.map((of, a) => of.map((value, b) => (b <= a ? value : ((normal[b] as number[])[a] as number)))));
  if (factor === null) throw new RangeError("quadraticLikeness: expected places that differ");
  const functions = values[0]?.length ?? 0;
  const out = new Float64Array(functions * terms);
  const solved = new Float64Array(terms);
  for (let k = 0; k < functions; k++) {
    solved.fill(0);
    rows.forEach((row, i) => {
      const value = (values[i] as ArrayLike<number>)[k] as number;
      for (let a = 0; a < terms; a++) solved[a] = (solved[a] as number) + (row[a] as number) * value;
    });
    for (let a = 0; a < terms; a++) {
      const of = factor[a] as number[];
      let sum = solved[a] as number;
      for (let b = 0; b < a; b++) sum -= (of[b] as number) * (solved[b] as number);
      solved[a] = sum / (of[a] as number);
    }
    for (let a = terms - 1; a >= 0; a--) {
      let sum = solved[a] as number;
      for (let b = a + 1; b < terms; b++) sum -= ((factor[b] as number[])[a] as number) * (solved[b] as number);
      solved[a] = sum / ((factor[a] as number[])[a] as number);
    }
    out.set(solved, k * terms);
  }
  return out;
}
