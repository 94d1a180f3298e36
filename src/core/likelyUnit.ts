/** A factor by which a number is off when a unit was mistaken, and the mistake in words. */
type Slip = readonly [factor: number, says: string];

const tenfold: Slip = [10, "a factor of ten"];
const pounds: Slip = [4.448222, "pound-force and newton mistaken for each other"];
const kilograms: Slip = [9.80665, "kilogram-force and newton mistaken for each other"];
const degrees: Slip = [57.29578, "degree and radian mistaken for each other"];
const minutes: Slip = [60, "per minute and per second mistaken for each other"];

const slips = {
  force: [kilograms, pounds, [2.204623, "pound-force and kilogram-force mistaken for each other"], tenfold, [1000, "newton and kilonewton mistaken for each other"], [9806.65, "gram-force and newton mistaken for each other"]],
  torque: [[9.80665, "kilogram-force metre and newton metre mistaken for each other"], [8.850746, "pound-force inch and newton metre mistaken for each other"], [1.355818, "pound-force foot and newton metre mistaken for each other"], tenfold, [100, "newton centimetre and newton metre mistaken for each other"], [1000, "newton millimetre and newton metre mistaken for each other"]],
  length: [tenfold, [2, "diameter and radius mistaken for each other"], [25.4, "inch and millimetre mistaken for each other"], [2.54, "inch and centimetre mistaken for each other"], [3.28084, "foot and metre mistaken for each other"], [1000, "millimetre and metre mistaken for each other"]],
  speed: [[3.6, "kilometre per hour and metre per second mistaken for each other"], minutes, tenfold, [25.4, "inch and millimetre mistaken for each other"], [3.28084, "foot and metre mistaken for each other"], [1000, "millimetre and metre mistaken for each other"]],
  acceleration: [[9.80665, "multiples of standard gravity and metre per second squared mistaken for each other"], tenfold, [3.28084, "foot and metre mistaken for each other"], [1000, "millimetre and metre mistaken for each other"]],
  turning: [[2, "edges of the encoder counted twice or once"], [4, "edges of the encoder counted fourfold or once"], degrees, [6.283185, "turns and radians mistaken for each other"], [9.549297, "turns per minute and radians per second mistaken for each other"], minutes],
  mass: [[9.80665, "a weight in newton and a mass in kilogram mistaken for each other"], [2.204623, "pound and kilogram mistaken for each other"], [35.27396, "ounce and kilogram mistaken for each other"], tenfold, [1000, "gram and kilogram mistaken for each other"]],
  pressure: [[6.894757, "psi and kilopascal mistaken for each other"], [9.80665, "kilogram-force and newton mistaken for each other"], tenfold, [100, "bar and kilopascal mistaken for each other"], [1000, "kilopascal and megapascal, or pascal and kilopascal, mistaken for each other"]],
} as const satisfies Record<string, readonly Slip[]>;

export type SlipKind = keyof typeof slips;

/** A ratio this near to a factor is taken to be it (common practice): wider than a wheel's or a load's own scatter. */
const near = 0.08;

/**
 * What a ratio of found to expected suggests: a mistaken unit, edges counted fourfold, a gear left out.
 *
 * @param more   further factors that this rig could be off by: its gear, its counts
 * @returns      a sentence, or "" when no known factor lies near
 */
export function likelyUnit(ratio: number, kind: SlipKind, more: readonly Slip[] = []): string {
  const size = Math.abs(ratio);
  if (!(size > 0) || !Number.isFinite(size)) return "";
  const off = size > 1 ? size : 1 / size;
  if (off < 1.3) return "";
  const known = [...slips[kind], ...more].map(([factor, says]) => ({ says, factor, away: Math.abs(off / factor - 1) })).sort((a, b) => a.away - b.away);
  const best = known[0];
  if (best === undefined || best.away > near) return "";
  // Kilogram-force and a factor of ten lie within a wheel's scatter of each other: both are named, the nearer one first.
  const alike = known[1] !== undefined && known[1].away <= near ? ` (or ${known[1].says})` : "";
  return ` It is off by ${off.toPrecision(3)}, near ${Number(best.factor.toPrecision(4))}: ${best.says}${alike}?`;
}
