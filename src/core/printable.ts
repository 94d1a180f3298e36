/** C0 and C1 controls, line separators, marks that turn the direction of writing, halves of letters: they act on a terminal or hide what a name is. */
const acting = /[\u0000-\u0008\u000b-\u001f\u007f-\u009f\u061c\u200e\u200f\u2028-\u202e\u2066-\u2069\ufeff]|\p{Surrogate}/gu;
const most = 2000;

/** A text that came from a file, safe to print and to show: one line, nothing in it acts, nothing is endless. */
export function printable(text: string): string {
  return printableLines(cut(text, most).replace(/[\r\n]+/g, " "));
}

/** The same for a text of several lines and any length. */
export function printableLines(text: string): string {
  return text.replace(acting, "\ufffd");
}

/** The beginning of a long text. */
export function cut(text: string, length: number): string {
  return text.length > length ? `${text.slice(0, length)}…` : text;
}
