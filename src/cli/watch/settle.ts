/** When a file that lands counts as complete. */
export interface SettleRule {
  /** size and times of the file must not have changed for this long */
  readonly settleMs: number;
  /** … and for this many times the longest pause it was seen to make after a whole line, so that a logger that writes now and then is waited for */
  readonly pauses: number;
  /** … but never longer than this for its pauses' sake */
  readonly longestSettleMs: number;
  /** a file whose last line stays open is read all the same after this rest; the reader then leaves that line out and says so */
  readonly patienceMs: number;
}

export const settleRule: SettleRule = { settleMs: 1500, pauses: 2.5, longestSettleMs: 10_000, patienceMs: 30_000 };

/** What a look at a file shows. `changedMs` is the later of its two times: contents and entry. */
export interface Sighting {
  readonly size: number;
  readonly changedMs: number;
}

/** What is known of a file from looking at it again and again. */
export interface FileWatch extends Sighting {
  /** when it was first seen as it is now, on the watcher's clock; the file's own times are only compared with each other */
  readonly sinceMs: number;
  readonly longestPauseMs: number;
  /** its last line has a line end; null = it could not be opened */
  readonly whole: boolean | null;
}

/** A further look. `whole` is only asked for when the file has changed or could not be opened before. */
export function lookAgain(known: FileWatch | undefined, seen: Sighting, nowMs: number, rule: SettleRule, whole: () => boolean | null): FileWatch {
  if (known !== undefined && known.size === seen.size && known.changedMs === seen.changedMs) return known.whole === null ? { ...known, whole: whole() } : known;
  const pauseMs = known === undefined ? 0 : nowMs - known.sinceMs;
  // A file written anew, or after a long rest, starts again. A pause inside a line deceives nobody and asks for no longer wait.
  const grew = known !== undefined && seen.size > known.size && known.size > 0 && pauseMs < rule.longestSettleMs;
  const longestPauseMs = grew ? Math.max(known.longestPauseMs, known.whole === true ? pauseMs : 0) : 0;
  return { ...seen, sinceMs: nowMs, longestPauseMs, whole: whole() };
}

export type FileStage =
  | { readonly kind: "absent" }
  | { readonly kind: "empty" }
  | { readonly kind: "growing"; readonly size: number }
  /** at rest with an open last line; read as it is when it rests until then */
  | { readonly kind: "open"; readonly readAtMs: number }
  | { readonly kind: "complete"; readonly sinceMs: number; readonly openEnd: boolean };

export function fileStage(file: FileWatch | undefined, nowMs: number, rule: SettleRule): FileStage {
  if (file === undefined) return { kind: "absent" };
  if (file.size === 0) return { kind: "empty" };
  const quietMs = nowMs - file.sinceMs;
  if (quietMs < Math.max(rule.settleMs, Math.min(rule.pauses * file.longestPauseMs, rule.longestSettleMs))) return { kind: "growing", size: file.size };
  const patienceMs = Math.max(rule.patienceMs, rule.settleMs);
  if (file.whole !== true && quietMs < patienceMs) return { kind: "open", readAtMs: file.sinceMs + patienceMs };
  return { kind: "complete", sinceMs: file.sinceMs, openEnd: file.whole !== true };
}

/** The same text as long as the file is the same. */
export function fingerprint(file: FileWatch): string {
  return `${file.size} ${file.changedMs}`;
}
