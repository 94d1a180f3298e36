import { cut } from "../core/printable.ts";

/** Fewest letters to insert, drop, change or swap with their neighbour to get from one text to the other. */
export function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const change = (last[j - 1] as number) + (a[i - 1] === b[j - 1] ? 0 : 1);
      let best = Math.min(change, (last[j] as number) + 1, (row[j - 1] as number) + 1);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) best = Math.min(best, (beforeLast[j - 2] as number) + 1);
      row.push(best);
    }
    beforeLast = last;
    last = row;
  }
  return last[b.length] as number;
}

/** The candidate that `text` most likely means, or null when none is near. Capitals, spaces and underscores do not count. */
export function nearest(text: string, candidates: Iterable<string>): string | null {
  const plain = (word: string) => word.toLowerCase().replace(/[\s_-]+/g, "");
  const wanted = plain(text).slice(0, 60);
  let best: string | null = null;
  let bestDistance = wanted.length <= 2 ? 0.5 : wanted.length <= 5 ? 1.5 : 2.5;
  for (const candidate of candidates) {
    const distance = editDistance(wanted, plain(candidate).slice(0, 60));
    if (distance < bestDistance) {
      best = candidate;
      bestDistance = distance;
    }
  }
  return best;
}

/** A text or value as it stands in a message: quoted, cut when long, "nothing" when empty. */
export function show(value: unknown): string {
  if (value === undefined || value === null || value === "") return "nothing";
  if (typeof value === "string") return `"${cut(value, 60)}"`;
  if (Array.isArray(value)) return `a list of ${value.length}`;
  return typeof value === "object" ? "a group of keys" : String(value);
}

/** `a, b, c … (12 in all)` */
export function list(words: readonly string[], most = 8): string {
  const some = words.slice(0, most).map((word) => cut(word, 60)).join(", ");
  return words.length <= most ? some : `${some} … (${words.length} in all)`;
}
