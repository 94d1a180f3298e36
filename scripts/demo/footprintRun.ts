import { encode } from "fast-png";
import { dice } from "./dice.ts";
import type { PlannedRun } from "./dayPlan.ts";
import { pad, photo } from "./rigTruth.ts";
import type { SensorErrors } from "./rigTruth.ts";
import { asStated } from "./unknowns.ts";
import type { GridUnknowns } from "./unknowns.ts";
import { mark, putByte, putFixed, reserve, textBytes, written } from "./textBytes.ts";
import { deflection, tipRadius } from "./wheelTruth.ts";
import type { WheelTruth } from "./wheelTruth.ts";

/** Where a wheel touches and how hard: on flat ground an ellipse as long as the flattened rim, on a step its front half, on a rock the middle. */
interface Touch {
  readonly halfLengthM: number;
  readonly halfWidthM: number;
  /** part of the ellipse that stands on something, along the travel, from −1 to 1 */
  readonly from: number;
  readonly to: number;
}

function touchOf(wheel: WheelTruth, run: PlannedRun): Touch {
  const loadN = run.loadN as number;
  const d = deflection(wheel, loadN) + 0.0006;
  const r = tipRadius(wheel);
  const half = Math.sqrt(2 * r * d - d ** 2);
  const ground = run.footprint?.ground;
  return { halfLengthM: half, halfWidthM: 0.48 * wheel.widthM, from: ground === "step" ? 0 : ground === "rock" ? -0.4 : -1, to: ground === "rock" ? 0.4 : 1 };
}

/** Share of the full height of pressure at a place of the ellipse: a rounded box. */
function shape({ halfLengthM, halfWidthM, from, to }: Touch, x: number, y: number): number {
  const along = x / halfLengthM;
  if (along < from || along > to) return 0;
  const inside = 1 - along ** 2 - (y / halfWidthM) ** 2;
  return inside <= 0 ? 0 : inside ** 0.25;
}

/** Area, length and load of the shape, by a fine sum. */
function sums(touch: Touch): { readonly areaM2: number; readonly volume: number; readonly lengthM: number } {
  const step = 0.00025;
  let [area, volume] = [0, 0];
  for (let x = -touch.halfLengthM; x <= touch.halfLengthM; x += step) {
    for (let y = -touch.halfWidthM; y <= touch.halfWidthM; y += step) {
      const value = shape(touch, x, y);
      area += value > 0 ? step ** 2 : 0;
      volume += value * step ** 2;
    }
  }
  return { areaM2: area, volume, lengthM: touch.halfLengthM * (touch.to - touch.from) };
}

export interface FootprintFile {
  readonly bytes: Uint8Array;
  readonly truth: Readonly<Record<string, number>>;
}

/** The pad's matrix: kilopascals, semicolons, decimal comma; each cell is the mean over its area. */
export function padRun(seed: number, run: PlannedRun, wheel: WheelTruth, errors: SensorErrors, { cellShare }: GridUnknowns = asStated): FootprintFile {
  const random = dice(seed, `pad ${run.id}`);
  const touch = touchOf(wheel, run);
  const { areaM2, volume, lengthM } = sums(touch);
  const loadN = run.loadN as number;
  const fullPa = loadN / volume;
  // a hand sets the wheel down anywhere within a cell
  const place = [random.uniform(), random.uniform()];
  const text = textBytes(40_000);
  let peak = 0;
  const fine = 24;
  const cellM = pad.cellM * cellShare;
  for (let row = 0; row < pad.rows; row++) {
    for (let column = 0; column < pad.columns; column++) {
      let sum = 0;
      for (let i = 0; i < fine; i++) for (let j = 0; j < fine; j++) sum += shape(touch, ((column + (i + 0.5) / fine - pad.columns / 2 + place[0]!) * cellM), ((row + (j + 0.5) / fine - pad.rows / 2 + place[1]!) * cellM));
      const pressure = (fullPa * sum) / fine ** 2;
      peak = Math.max(peak, pressure);
      reserve(text, 20);
      if (column > 0) putByte(text, mark.semicolon);
      putFixed(text, Math.max(0, (pressure * errors.pad) / 1000 + 0.12 * random.normal()), 2, mark.comma);
    }
    putByte(text, mark.return);
    putByte(text, mark.newline);
  }
  return { bytes: written(text), truth: { areaM2, lengthM, meanPressurePa: loadN / areaM2, peakPressurePa: peak, loadN } };
}

/** A photograph of the glass plate from below: contact dark on a light ground, a little uneven light, noise. */
export function photoRun(seed: number, run: PlannedRun, wheel: WheelTruth, { cellShare, placeCells }: GridUnknowns = asStated): FootprintFile {
  const random = dice(seed, `photo ${run.id}`);
  const touch = touchOf(wheel, run);
  const { areaM2, lengthM } = sums(touch);
  const pixelM = photo.pixelM * cellShare;
  const data = new Uint8Array(photo.columns * photo.rows);
  for (let row = 0; row < photo.rows; row++) {
    for (let column = 0; column < photo.columns; column++) {
      const x = (column + 0.5 - photo.columns / 2 + placeCells[0]) * pixelM;
      const y = (row + 0.5 - photo.rows / 2 + placeCells[1]) * pixelM;
      const ground = 205 + (12 * column) / photo.columns;
      const level = shape(touch, x, y) > 0 ? 62 : ground;
      data[row * photo.columns + column] = Math.max(0, Math.min(255, Math.round(level + 6 * random.normal())));
    }
  }
  const bytes = encode({ width: photo.columns, height: photo.rows, data, channels: 1, depth: 8 });
  return { bytes, truth: { areaM2, lengthM, meanPressurePa: (run.loadN as number) / areaM2 } };
}
