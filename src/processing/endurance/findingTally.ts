import type { Finding, Severity } from "../../core/finding.ts";

/** A fault seen in a larger share of a long log than this spoils the run; in less, a person looks (common practice). */
const spoiltShare = 0.05;
const order: Readonly<Record<Severity, number>> = { note: 0, look: 1, reject: 2 };

/** Joins what is found in the pieces of one log: one finding a code and channel, saying in how many pieces it was seen. */
export function findingTally(): { add(findings: readonly Finding[]): void; all(): Finding[] } {
  const seen = new Map<string, { worst: Finding; inPieces: number; rejectedIn: number; last: number }>();
  let pieces = 0;
  return {
    add(findings) {
      pieces++;
      for (const found of findings) {
        const key = `${found.code} ${found.channel}`;
        const known = seen.get(key) ?? { worst: found, inPieces: 0, rejectedIn: 0, last: 0 };
        if (order[found.severity] > order[known.worst.severity]) known.worst = found;
        if (known.last < pieces) known.inPieces++;
        if (found.severity === "reject" && known.last < pieces) known.rejectedIn++;
        known.last = pieces;
        seen.set(key, known);
      }
    },
    all: () =>
      [...seen.values()].map(({ worst, inPieces, rejectedIn }) => {
        const spared = worst.severity === "reject" && rejectedIn <= spoiltShare * pieces;
        return { ...worst, severity: spared ? "look" : worst.severity, message: pieces === 1 ? worst.message : `${worst.message.replace(/\.?$/, ".")} The like was found in ${inPieces} of the ${pieces} pieces in which the log was read` };
      }),
  };
}
