/** Factors by which a number is off when a unit was mistaken, and the mistake in words. */
const slips = {
  force: [[9.80665, "kilogram-force and newton mistaken for each other"], [4.448222, "pound-force and newton mistaken for each other"], [10, "a factor of ten"], [1000, "newton and kilonewton mistaken for each other"]],
  torque: [[9.80665, "kilogram-force metre and newton metre mistaken for each other"], [8.850746, "pound-force inch and newton metre mistaken for each other"], [1.355818, "pound-force foot and newton metre mistaken for each other"], [10, "a factor of ten"], [100, "newton centimetre and newton metre mistaken for each other"], [1000, "newton millimetre and newton metre mistaken for each other"]],
  length: [[10, "millimetre and centimetre mistaken for each other"], [25.4, "inch and millimetre mistaken for each other"], [2.54, "inch and centimetre mistaken for each other"], [3.28084, "foot and metre mistaken for each other"], [1000, "millimetre and metre mistaken for each other"]],
  speed: [[3.6, "kilometre per hour and metre per second mistaken for each other"], [60, "per minute and per second mistaken for each other"], [10, "a factor of ten"], [25.4, "inch and millimetre mistaken for each other"], [3.28084, "foot and metre mistaken for each other"], [1000, "millimetre and metre mistaken for each other"]],
  turning: [[2, "edges of the encoder counted twice or once"], [4, "edges of the encoder counted fourfold or once"], [57.29578, "degree and radian mistaken for each other"], [6.283185, "turns and radians mistaken for each other"], [9.549297, "turns per minute and radians per second mistaken for each other"], [60, "per minute and per second mistaken for each other"]],
} as const satisfies Record<string, readonly (readonly [factor: number, says: string])[]>;

export type SlipKind = keyof typeof slips;

/** A ratio this near to a factor is taken to be it (common practice): wider than a wheel's or a load's own scatter. */
const near = 0.08;

/**
 * What a ratio of found to expected suggests: a mistaken unit, edges counted fourfold, a gear left out.
 *
 * @param more   further factors that this rig could be off by: its gear, its counts
 * @returns      a sentence, or "" when no known factor lies near
 */
export function likelyUnit(ratio: number, kind: SlipKind, more: readonly (readonly [number, string])[] = []): string {
  const size = Math.abs(ratio);
  if (!(size > 0) || !Number.isFinite(size)) return "";
  const off = size > 1 ? size : 1 / size;
  if (off < 1.3) return "";
  const known = [...slips[kind], ...more].map(([factor, says]) => ({ says, factor, away: Math.abs(off / factor - 1) })).sort((a, b) => a.away - b.away);
  const best = known[0];
  if (best === undefined || best.away > near) return "";
  return ` It is off by ${off.toPrecision(3)}, near ${Number(best.factor.toPrecision(4))}: ${best.says}?`;
}
