/** Where the seconds stand in a stamp. */
export interface StampMatch {
  readonly before: string;
  readonly seconds: number;
  readonly fractionNs: number;
  readonly after: string;
  /** the stamp with the mark before its fraction as the layout writes it: point and comma say the same there */
  readonly withLayoutMark: string;
}

export interface StampPattern {
  /** null where a stamp of this layout cannot be split at two-digit seconds */
  readonly match: (stamp: string) => StampMatch | null;
  /** digits that the fraction may have, to be read without the calendar library */
  readonly fewestDigits: number;
  readonly mostDigits: number;
}

const none: StampPattern = { match: () => null, fewestDigits: 0, mostDigits: 0 };
// Token of the layout → what it matches. Words (months, day halves) match anything that is no digit.
const fields: Readonly<Record<string, string>> = { yyyy: "\\d{4}", yy: "\\d{2}", MM: "\\d{2}", M: "\\d{1,2}", LL: "\\d{2}", L: "\\d{1,2}", dd: "\\d{2}", d: "\\d{1,2}", HH: "\\d{2}", H: "\\d{1,2}", hh: "\\d{2}", h: "\\d{1,2}", mm: "\\d{2}", m: "\\d{1,2}", ooo: "\\d{3}", MMM: "\\D+", MMMM: "\\D+", LLL: "\\D+", LLLL: "\\D+", ccc: "\\D+", cccc: "\\D+", EEE: "\\D+", EEEE: "\\D+", a: "\\D+", Z: "[+-]\\d{1,2}(?::\\d{2})?", ZZ: "[+-]\\d{2}:\\d{2}", ZZZ: "[+-]\\d{4}" };
const fractions: Readonly<Record<string, readonly [number, number]>> = { SSS: [3, 3], u: [1, 9], uu: [1, 2], uuu: [1, 1] };

/** How stamps of a clock split into calendar part, seconds and rest. */
export function stampPattern(clock: { readonly kind: "wall"; readonly format: string } | { readonly kind: "iso" }): StampPattern {
  if (clock.kind === "iso") {
    const form = /^(\d{4}-\d{2}-\d{2}(?:[Tt]| +)\d{2}:\d{2}:)(\d{2})(?:([.,])(\d{1,9}))?(Z|z|[+-]\d{2}(?::?\d{2})?)?$/;
    return { match: (stamp) => matched(form.exec(stamp), null), fewestDigits: 0, mostDigits: 9 };
  }
  const tokens: readonly string[] = clock.format.match(/'[^']*'|([A-Za-z])\1*|[^A-Za-z']/g) ?? [];
  const at = tokens.indexOf("ss");
  if (at < 0 || at !== tokens.lastIndexOf("ss")) return none;
  const fractionToken = tokens[at + 2] ?? "";
  const mark = tokens[at + 1];
  const hasFraction = (mark === "." || mark === ",") && Object.hasOwn(fractions, fractionToken);
  const [fewest, most] = hasFraction ? (fractions[fractionToken] as readonly [number, number]) : [0, 0];
  const before = tokens.slice(0, at).map(source);
  const after = tokens.slice(at + (hasFraction ? 3 : 1)).map(source);
  if (before.includes(null) || after.includes(null)) return none;
  const fraction = hasFraction ? `([.,])(\\d{${fewest},${most}})` : "()()";
  const form = new RegExp(`^(${before.join("")})(\\d{2})${fraction}(${after.join("")})$`);
  return { match: (stamp) => matched(form.exec(stamp), hasFraction ? (mark as string) : null), fewestDigits: fewest, mostDigits: most };
}

function matched(found: RegExpExecArray | null, mark: string | null): StampMatch | null {
  if (found === null) return null;
  const [, before = "", seconds = "", written = "", digits = "", after = ""] = found;
  const fraction = digits === "" ? "" : `${mark ?? written}${digits}`;
  return { before, seconds: Number(seconds), fractionNs: digits === "" ? 0 : Number(digits.padEnd(9, "0")), after, withLayoutMark: `${before}${seconds}${fraction}${after}` };
}

/** null = a token whose width is not known here. */
function source(token: string): string | null {
  if (token.startsWith("'")) return escaped(token.slice(1, -1));
  if (/^[A-Za-z]/.test(token)) return fields[token] ?? null;
  return escaped(token);
}

function escaped(text: string): string {
  return text.replace(/[\\^$.*+?()[\]{}|/-]/g, "\\$&");
}
