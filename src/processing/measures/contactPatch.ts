/** Where a footprint touches: a grid of cells, row by row, 1 = contact. */
export interface ContactMask {
  readonly rows: number;
  readonly columns: number;
  readonly contact: Uint8Array;
}

/** What a mask measures, in cells. */
export interface ContactPatch {
  readonly cells: number;
  /** sides of cells that part contact from no contact, the grid's edge included */
  readonly edgeSides: number;
  /** from the first to the last column and row that holds contact, specks left out */
  readonly acrossColumns: number;
  readonly acrossRows: number;
  /** connected pieces, and how many of them are specks */
  readonly pieces: number;
  readonly specks: number;
  readonly touchesEdge: boolean;
}

/** a piece with a smaller share of all contact is a speck: dust, a hair, one noisy cell */
const speck = 0.005;

/**
 * Size, edge and extent of a footprint.
 *
 *   area = cells · cell area;   extents over pieces (cells joined by sides) of at least 1/200 of all contact
 *
 * Specks count in the area and not in the extents. The edge counted in sides of cells is up to √2 too long where it runs
 * aslant, 4/π over all directions. [cells]
 *
 * @param mask   rows, columns and which cells are in contact
 * @returns      counts in cells and sides of cells; all 0 without contact
 * @source       common practice
 * @checked      tests/processing/measures/contactPatch.test.ts
 */
export function contactPatch({ rows, columns, contact }: ContactMask): ContactPatch {
  const at = (row: number, column: number): number => (row < 0 || column < 0 || row >= rows || column >= columns ? 0 : (contact[row * columns + column] as number));
  let cells = 0;
  let edgeSides = 0;
  let touchesEdge = false;
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      if (at(row, column) === 0) continue;
      cells++;
      edgeSides += 4 - at(row - 1, column) - at(row + 1, column) - at(row, column - 1) - at(row, column + 1);
      touchesEdge ||= row === 0 || column === 0 || row === rows - 1 || column === columns - 1;
    }
  }
  const pieces = piecesOf({ rows, columns, contact });
  const kept = pieces.filter((piece) => piece.cells >= speck * cells);
  const reach = (from: "firstRow" | "firstColumn", to: "lastRow" | "lastColumn"): number => (kept.length === 0 ? 0 : Math.max(...kept.map((piece) => piece[to])) - Math.min(...kept.map((piece) => piece[from])) + 1);
  return { cells, edgeSides, acrossColumns: reach("firstColumn", "lastColumn"), acrossRows: reach("firstRow", "lastRow"), pieces: pieces.length, specks: pieces.length - kept.length, touchesEdge };
}

interface Piece {
  cells: number;
  firstRow: number;
  lastRow: number;
  firstColumn: number;
  lastColumn: number;
}

/** Pieces joined by sides of cells, by filling them one after the other. */
function piecesOf({ rows, columns, contact }: ContactMask): Piece[] {
  const seen = new Uint8Array(contact.length);
  const pieces: Piece[] = [];
  const waiting: number[] = [];
  const visit = (index: number): void => {
    if (contact[index] === 1 && seen[index] === 0) {
      seen[index] = 1;
      waiting.push(index);
    }
  };
  for (let start = 0; start < contact.length; start++) {
    if (contact[start] === 0 || seen[start] === 1) continue;
    const piece: Piece = { cells: 0, firstRow: rows, lastRow: -1, firstColumn: columns, lastColumn: -1 };
    visit(start);
    for (let index = waiting.pop(); index !== undefined; index = waiting.pop()) {
      const row = Math.floor(index / columns);
      const column = index % columns;
      piece.cells++;
      piece.firstRow = Math.min(piece.firstRow, row);
      piece.lastRow = Math.max(piece.lastRow, row);
      piece.firstColumn = Math.min(piece.firstColumn, column);
      piece.lastColumn = Math.max(piece.lastColumn, column);
      if (row > 0) visit(index - columns);
      if (row < rows - 1) visit(index + columns);
      if (column > 0) visit(index - 1);
      if (column < columns - 1) visit(index + 1);
    }
    pieces.push(piece);
  }
  return pieces;
}
