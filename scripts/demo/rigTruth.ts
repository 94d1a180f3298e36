import { dice } from "./dice.ts";

export const gravity = 9.819;
export const massBelowSensorKg = 1.4;
export const dropCarriageKg = 2.5;
export const encoder = { countsPerRevolution: 4096, gear: 20, rollover: 65536 } as const;
export const bridgeRange = 2;
export const pot = { gain: 30.02, mmAtSurface: 120 } as const;
export const press = { gain: 250, offset: -125 } as const;
export const pad = { rows: 40, columns: 44, cellM: 0.004 } as const;
export const photo = { rows: 320, columns: 400, pixelM: 0.0004 } as const;
export const shearAreaCm2 = 100;
/** what the carriage's scale reads where the wheel touches */
export const carriageStartMm = 152.4;
/** scanner of the lanes: what is stated of it, and its noise */
export const scan = { relative: 0.01, offsetM: 0.00015, slope: 0.0003, noiseM: 0.0001 } as const;

/** Decoupling matrix of the certificate: N and N·m per mV/V. Neighbouring bridges talk into each other by 1 to 3 %. */
export const decoupling: readonly (readonly number[])[] = [
  [252.4, -3.1, 5.2, 1.4, 6.3, -0.8],
  [2.7, 251.1, -4.4, -5.8, 1.1, 0.9],
  [-7.9, 6.2, 498.6, 3.3, -2.6, 4.1],
  [0.21, -0.35, 0.44, 24.93, 0.31, -0.28],
  [-0.39, 0.18, -0.52, 0.27, 25.12, 0.22],
  [0.12, 0.29, -0.17, -0.33, 0.25, 24.87],
];

/** Relative standard uncertainties as the certificates state them. */
export const stated = { sixAxis: 0.003, sixAxisOffset: 0.15, pot: 0.001, potOffsetMm: 0.1, carriage: 0.0005, carriageOffsetMm: 0.2, press: 0.004, pressOffsetN: 0.4, pressTravel: 0.001, pressTravelOffsetMm: 0.02, shear: 0.003, shearOffsetN: 0.1, normal: 0.003, shearTravel: 0.001, shearTravelOffsetMm: 0.02, acceleration: 0.01, accelerationOffsetGn: 0.05, dropHeight: 0.001, dropHeightOffsetMm: 0.05, laneTorque: 0.004, laneTorqueOffsetNm: 0.02, laneLoad: 0.003, laneLoadOffsetN: 0.3, tablePull: 0.003, tablePullOffsetN: 0.2, pad: 0.04, padCell: 0.002, photoPixel: 0.004 } as const;

/** What the certificates cannot know: each sensor's true gain over its stated one, drawn once for the whole day. */
export interface SensorErrors {
  readonly sixAxis: readonly number[];
  readonly pot: number;
  readonly carriage: number;
  readonly press: number;
  readonly pressTravel: number;
  readonly shear: number;
  readonly normal: number;
  readonly shearTravel: number;
  readonly acceleration: number;
  readonly dropHeight: number;
  readonly laneTorque: number;
  readonly laneLoad: number;
  readonly tablePull: number;
  readonly pad: number;
}

export function sensorErrors(seed: number): SensorErrors {
  const random = dice(seed, "certificates");
  const gain = (relative: number): number => 1 + relative * random.normal();
  const lane = dice(seed, "lane certificates");
  // one certificate, one shared gain error: the sensor's reference was that much off
  const sixAxis = gain(stated.sixAxis);
  return {
    sixAxis: [sixAxis, sixAxis, sixAxis, sixAxis, sixAxis, sixAxis],
    pot: gain(stated.pot),
    carriage: gain(stated.carriage),
    press: gain(stated.press),
    pressTravel: gain(stated.pressTravel),
    shear: gain(stated.shear),
    normal: gain(stated.normal),
    shearTravel: gain(stated.shearTravel),
    acceleration: gain(stated.acceleration),
    dropHeight: gain(stated.dropHeight),
    laneTorque: 1 + stated.laneTorque * lane.normal(),
    laneLoad: 1 + stated.laneLoad * lane.normal(),
    pad: 1 + stated.pad * lane.normal(),
    tablePull: 1 + stated.tablePull * lane.normal(),
  };
}

/** Inverse of a square matrix by elimination with pivots. */
export function inverse(matrix: readonly (readonly number[])[]): number[][] {
  const size = matrix.length;
  const work = matrix.map((row, i) => [...row, ...row.map((_, j) => (i === j ? 1 : 0))]);
  for (let column = 0; column < size; column++) {
    let pivot = column;
    for (let row = column + 1; row < size; row++) if (Math.abs(work[row]![column]!) > Math.abs(work[pivot]![column]!)) pivot = row;
    [work[column], work[pivot]] = [work[pivot]!, work[column]!];
    const lead = work[column]!;
    const divisor = lead[column]!;
    for (let j = 0; j < 2 * size; j++) lead[j] = lead[j]! / divisor;
    for (let row = 0; row < size; row++) {
      if (row === column) continue;
      const other = work[row]!;
      const factor = other[column]!;
      for (let j = 0; j < 2 * size; j++) other[j] = other[j]! - factor * lead[j]!;
    }
  }
  return work.map((row) => row.slice(size));
}
