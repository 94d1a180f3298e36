import type { ContactMask } from "./contactPatch.ts";

/** A run of places in a line, half-open. */
interface Run {
  readonly from: number;
  readonly to: number;
}

/** share of the run behind it from which on an outermost run is a straight side: of a rounded one it is √½ at most */
const straight = 0.75;

/**
 * Sides of a region that run straight along its grid: each lies anywhere between two lines of the grid as a whole, so that
 * its error does not average out along its length.
 *
 *   L₁ − 1 ≥ ¾ (L₂ + 1)
 *
 * L₁ of an outermost run of marked places, with none beyond it, L₂ of the run behind it. Of a rounded end, a parabola, chords
 * one line apart are at most as 1 to √2; the units are what counting may take and give. Notches and holes count likewise.
 *
 * @param mask   rows, columns and which places are marked
 * @returns      for each straight side the indices of the marked places along it
 * @source       geometry of a parabola's chords
 * @checked      tests/processing/measures/straightSides.test.ts
 */
export function straightSides({ rows, columns, contact }: ContactMask): number[][] {
  const views = [
    { lines: rows, places: columns, index: (line: number, place: number) => line * columns + place },
    { lines: columns, places: rows, index: (line: number, place: number) => place * columns + line },
  ];
  return views.flatMap(({ lines, places, index }) => {
    const at = (line: number, place: number): number => (line < 0 || line >= lines || place < 0 || place >= places ? 0 : (contact[index(line, place)] as number));
    // first the region from outside, then what is missing in it from inside
    return [1, 0].flatMap((inside) => {
      const runs = Array.from({ length: lines }, (_, line) => runsOf(places, (place) => at(line, place) === inside));
      return runs.flatMap((found, line) =>
        [-1, 1].flatMap((outwards) =>
          found
            .filter((run) => isStraight(run, (place) => at(line + outwards, place) === inside, runs[line - outwards] ?? []))
            .map(({ from, to }) => Array.from({ length: to - from }, (_, k) => index(inside === 1 ? line : line + outwards, from + k))),
        ),
      );
    });
  });
}

function runsOf(places: number, inside: (place: number) => boolean): Run[] {
  const found: Run[] = [];
  for (let from = 0; from < places; from++) {
    if (!inside(from)) continue;
    let to = from;
    while (to < places && inside(to)) to++;
    found.push({ from, to });
    from = to;
  }
  return found;
}

function isStraight({ from, to }: Run, beyond: (place: number) => boolean, behind: readonly Run[]): boolean {
  for (let place = from; place < to; place++) if (beyond(place)) return false;
  const touching = behind.filter((run) => run.from < to && run.to > from);
  const width = touching.length === 0 ? 0 : (touching.at(-1) as Run).to - (touching[0] as Run).from;
  return to - from - 1 >= straight * (width + 1);
}
