import type { ContactMask } from "./contactPatch.ts";
import { contactPatch } from "./contactPatch.ts";
import { straightSides } from "./straightSides.ts";

/** An area by counting points, in squares of their grid; what may be off in it as standard uncertainties. */
export interface CountedArea {
  readonly points: number;
  /** how many points at the edge read too little to be counted, on average, and what is open of their number */
  readonly hidden: number;
  readonly hiddenDoubt: number;
  /** where the edge and its shorter straight sides run between the points */
  readonly edgeDoubt: number;
  /** where the longest straight side runs: it may lie anywhere between two lines of points */
  readonly longestSideDoubt: number;
}

/** variance of the number of points per length of a rounded edge, and that length over the sides of its points' squares */
const perLength = 0.0724;
const lengthPerSide = Math.PI / 4;
/** least and most that lies hidden, over what reads between one and four times the threshold */
const leastHidden = 0.85;
const mostHidden = 1.5;
const usualHidden = (leastHidden + mostHidden) / 2;
/** correlation of the counts at one and at four times the threshold: along the grid both take in a line of points at once */
const together = 0.25;
const twoCounts = (1 + usualHidden) ** 2 + usualHidden ** 2 - 2 * together * usualHidden * (1 + usualHidden);

/**
 * Corners of a grid's cells that have contact all round. A cell of a pressure pad reads as soon as a part of it is touched, so
 * these are the corners that lie in the contact itself.
 *
 * @param mask   which cells are in contact
 * @returns      which of the corners within the grid
 * @source       a convex region meets every cell around a point within it
 * @checked      tests/processing/measures/countedArea.test.ts
 */
export function innerCorners({ rows, columns, contact }: ContactMask): ContactMask {
  const corners = new Uint8Array(Math.max(0, rows - 1) * Math.max(0, columns - 1));
  for (let i = 0; i < corners.length; i++) {
    const cell = i + Math.floor(i / (columns - 1));
    corners[i] = (contact[cell] as number) & (contact[cell + 1] as number) & (contact[cell + columns] as number) & (contact[cell + columns + 1] as number);
  }
  return { rows: rows - 1, columns: columns - 1, contact: corners };
}

/**
 * Area of a region by the points of a grid that lie in it.
 *
 *   A = n + h     u²(edge) = f · 0.0724 (π/4) s + Σ L²/12     h = c (n(t) − n(4 t))     u(h) = h · 0.65/(2√3 c)
 *
 * s counts the sides of the points' squares along rounded edges, of which π/4 is their length; L is the length of a straight
 * side (see {@link straightSides}). A region set down at random on the grid is hit on average by as many points as its area
 * has squares. h: points near the edge that read less than the threshold t are not seen. How much a cell reads grows about
 * with the square of the depth to which a rounded edge reaches into it, so about as many lie below t as between t and 4 t:
 * c is 0.85 for a pressure that is even up to the edge, 1.5 for one that falls to nothing along a straight line; 1.175 is
 * taken. A is then (1 + c) n(t) − c n(4 t): f = (1 + c)² + c² − 2 c (1 + c)/4; it is 1 where nothing lies hidden.
 *
 * Holds for a region of several points' width and a threshold of up to a tenth of the pressure; a straight side's own points
 * are left out of h. [squares of the grid]
 *
 * @param points  which points are in contact
 * @param clear   which of them are at four times the threshold; null where a threshold hides none, as in a photograph
 * @returns       the points and the doubts
 * @source        D. G. Kendall, Quart. J. Math. 19 (1948) 1: mean square in proportion to the perimeter; its factor: H. J. G. Gundersen and E. B. Jensen, J. Microsc. 147 (1987) 229 (both from memory)
 * @checked       tests/processing/measures/countedArea.test.ts
 */
export function countedArea(points: ContactMask, clear: ContactMask | null): CountedArea {
  const { cells, edgeSides } = contactPatch(points);
  const straight = straightSides(points);
  const lengths = straight.map((side) => side.length).sort((a, b) => b - a);
  const lost = clear === null ? 0 : lostAtEdge(points, clear, new Set(straight.flat()));
  const round = Math.max(0, edgeSides - lengths.reduce((sum, length) => sum + length, 0));
  return {
    points: cells,
    hidden: usualHidden * lost,
    hiddenDoubt: ((mostHidden - leastHidden) * lost) / 2 / Math.sqrt(3),
    edgeDoubt: Math.hypot(Math.sqrt((lost > 0 ? twoCounts : 1) * perLength * lengthPerSide * round), ...lengths.slice(1).map((length) => length / Math.sqrt(12))),
    longestSideDoubt: (lengths[0] ?? 0) / Math.sqrt(12),
  };
}

/** Points along rounded edges that are marked and not clear. */
function lostAtEdge({ rows, columns, contact }: ContactMask, clear: ContactMask, straight: ReadonlySet<number>): number {
  const at = (row: number, column: number): number => (row < 0 || column < 0 || row >= rows || column >= columns ? 0 : (contact[row * columns + column] as number));
  let lost = 0;
  for (let i = 0; i < contact.length; i++) {
    if (contact[i] === 0 || clear.contact[i] === 1 || straight.has(i)) continue;
    const [row, column] = [Math.floor(i / columns), i % columns];
    if (at(row - 1, column) + at(row + 1, column) + at(row, column - 1) + at(row, column + 1) < 4) lost++;
  }
  return lost;
}
