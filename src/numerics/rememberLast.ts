/**
 * A function of a parameter vector that remembers its last answer: fits ask datum by datum, and pass by pass at the same place.
 *
 * @param f   gives the same answer for the same numbers
 * @returns   the same function, worked out anew only where a number differs from the last call
 * @source    common practice
 * @checked   tests/numerics/rememberLast.test.ts
 */
export function rememberLast<T>(f: (parameters: readonly number[]) => T): (parameters: readonly number[]) => T {
  let last: { readonly at: readonly number[]; readonly answer: T } | null = null;
  return (parameters) => {
    if (last === null || last.at.length !== parameters.length || !last.at.every((value, i) => value === parameters[i])) last = { at: [...parameters], answer: f(parameters) };
    return last.answer;
  };
}
