import type { FootprintGrid } from "./footprintGrid.ts";
import type { ContactMask } from "./measures/contactPatch.ts";

/** What is left of a footprint for drawing: thinned, row by row. */
export interface FootprintPicture {
  readonly rows: number;
  readonly columns: number;
  /** of the whole grid, along a row and across the rows */
  readonly widthM: number;
  readonly heightM: number;
  /** Pa: pressures; 1: brightness from 0 to 255 */
  readonly unit: "Pa" | "1";
  /** which way the wheel rolls */
  readonly along: "rows" | "columns";
  readonly values: readonly (number | null)[];
  readonly contact: readonly boolean[];
}

/** cells kept along the longer side of a picture */
const kept = 200;

/** What is left of a footprint for drawing: means over blocks of cells, and whether half of a block or more is in contact. */
export function footprintPicture(grid: FootprintGrid, mask: ContactMask, unit: "Pa" | "1", along: "rows" | "columns"): FootprintPicture {
  const block = Math.max(1, Math.ceil(Math.max(grid.rows, grid.columns) / kept));
  const rows = Math.ceil(grid.rows / block);
  const columns = Math.ceil(grid.columns / block);
  const values: (number | null)[] = [];
  const contact: boolean[] = [];
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      let [sum, read, touching, count] = [0, 0, 0, 0];
      for (let y = row * block; y < Math.min(grid.rows, (row + 1) * block); y++) {
        for (let x = column * block; x < Math.min(grid.columns, (column + 1) * block); x++) {
          const value = grid.values[y * grid.columns + x] as number;
          count++;
          touching += mask.contact[y * grid.columns + x] as number;
          if (Number.isNaN(value)) continue;
          sum += value;
          read++;
        }
      }
      values.push(read === 0 ? null : sum / read);
      contact.push(2 * touching >= count);
    }
  }
  return { rows, columns, widthM: grid.columns * grid.cellM[0], heightM: grid.rows * grid.cellM[1], unit, along, values, contact };
}
