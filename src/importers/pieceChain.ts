import type { LineStart } from "./textPieces.ts";

/** What stands before a piece. */
export interface PieceStart extends LineStart {
  readonly row: number;
}

/**
 * How the pieces of a log follow each other, in memory that threads share. Who has read a piece says where the next one
 * starts; who reads the next one waits for that.
 */
export interface PieceChain {
  /** number of the next piece that nobody has taken */
  take(): number;
  isKnown(piece: number): boolean;
  /** null = reading has stopped before this piece */
  wait(piece: number): PieceStart | null;
  say(piece: number, start: PieceStart): void;
  /** nobody waits any longer for this piece or a later one */
  stop(piece: number): void;
}

const known = 1;
const stopped = 2;

/** Bytes of the memory that a chain of so many pieces needs. */
export function chainBytes(pieces: number): number {
  return 8 + 4 * 8 * (pieces + 1);
}

export function pieceChain(shared: SharedArrayBuffer): PieceChain {
  const count = (shared.byteLength - 8) / 32;
  const next = new Int32Array(shared, 0, 1);
  const starts = new Float64Array(shared, 8, 3 * count);
  const states = new Int32Array(shared, 8 + 24 * count, count);
  const tell = (piece: number, state: number): void => {
    Atomics.store(states, piece, state);
    Atomics.notify(states, piece);
  };
  return {
    take: () => Atomics.add(next, 0, 1),
    isKnown: (piece) => Atomics.load(states, piece) !== 0,
    wait(piece) {
      Atomics.wait(states, piece, 0);
      if (Atomics.load(states, piece) === stopped) return null;
      const [row, byte, line] = starts.subarray(3 * piece, 3 * piece + 3) as unknown as [number, number, number];
      return { row, byte, line };
    },
    say(piece, { row, byte, line }) {
      starts.set([row, byte, line], 3 * piece);
      tell(piece, known);
    },
    stop(piece) {
      for (let later = piece; later < count; later++) tell(later, stopped);
    },
  };
}
