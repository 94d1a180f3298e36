/** A number in so many significant figures for a sentence: 1234 in three is 1230, never 1.23e+3. */
export function significant(value: number, figures: number): string {
  const text = value.toPrecision(figures);
  return text.includes("e+") ? String(Number(text)) : text;
}
