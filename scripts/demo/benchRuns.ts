import { dice } from "./dice.ts";
import type { PlannedRun } from "./dayPlan.ts";
import { press } from "./rigTruth.ts";
import type { SensorErrors } from "./rigTruth.ts";
import { shearAreaCm2 } from "./rigTruth.ts";
import type { BedTruth } from "./soilTruth.ts";
import { seated } from "./unknowns.ts";
import type { Seating } from "./unknowns.ts";
import { mark, putByte, putFixed, putText, reserve, textBytes, written } from "./textBytes.ts";
import { deflection, loadAtDeflection } from "./wheelTruth.ts";
import type { WheelTruth } from "./wheelTruth.ts";

export interface BenchLog {
  readonly bytes: Uint8Array;
  readonly truth: Readonly<Record<string, number | null>>;
}

const rateHz = 50;

/** The press logger: semicolons, decimal comma; force as the amplifier's volts. Rows from `state(time)` until it gives null. */
export function pressLog(seed: number, run: PlannedRun, errors: SensorErrors, state: (timeS: number) => { readonly forceN: number; readonly travelM: number } | null): Uint8Array {
  const random = dice(seed, `press ${run.id}`);
  const text = textBytes(40_000);
  putText(text, `Press logger (invented data)\r\nRun;${run.id}\r\nTime;Force;Travel\r\ns;V;mm\r\n`);
  const offsetN = 0.4 * random.normal();
  const offsetMm = 12 + random.uniform();
  for (let i = 0; ; i++) {
    const now = state(i / rateHz);
    if (now === null) return written(text);
    reserve(text, 60);
    putFixed(text, i / rateHz, 2, mark.comma);
    putByte(text, mark.semicolon);
    putFixed(text, (now.forceN * errors.press + offsetN + 0.3 * random.normal() - press.offset) / press.gain, 5, mark.comma);
    putByte(text, mark.semicolon);
    putFixed(text, now.travelM * 1000 * errors.pressTravel + offsetMm + 0.004 * random.normal(), 3, mark.comma);
    putByte(text, mark.return);
    putByte(text, mark.newline);
  }
}

/** A plate pressed into the bed at 1.5 mm/s and drawn out again. */
export function plateRun(seed: number, run: PlannedRun, bed: BedTruth, errors: SensorErrors, seating: Seating | null = null): BenchLog {
  const random = dice(seed, `plate ${run.id}`);
  const [widthM, lengthM] = run.plateM as readonly [number, number];
  // no two places of a bed are alike
  const place = 1 + 0.03 * random.normal();
  const stiffness = (bed.soil.kc / widthM + bed.soil.kphi) * place;
  const area = widthM * lengthM;
  const deepestM = 0.028;
  const speed = 0.0015;
  const approachM = 0.004;
  const pressure = (z: number): number => (z <= 0 ? 0 : stiffness * z ** bed.soil.n);
  const back = bed.soil.unloading * deepestM;
  const downS = (approachM + deepestM) / speed;
  const bytes = pressLog(seed, run, errors, (timeS) => {
    if (timeS < 1.5) return { forceN: 0, travelM: 0 };
    const t = timeS - 1.5;
    if (t <= downS) return { forceN: seated(area * pressure(t * speed - approachM), bed.soil.n, seating), travelM: t * speed };
    const up = (t - downS) * speed;
    if (up > 0.012) return null;
    return { forceN: area * Math.max(0, pressure(deepestM) - back * up), travelM: approachM + deepestM - up };
  });
  return { bytes, truth: { stiffnessPaPerMn: stiffness, exponent: bed.soil.n, deepestM, place, unloadingPaM: back } };
}

/** A wheel pressed on the steel table and let go, three times. Its truth is the state that every cycle after the first has a row of: the press turns between two rows. */
export function deflectionRun(seed: number, run: PlannedRun, wheel: WheelTruth, errors: SensorErrors, seating: Seating | null = null): BenchLog {
  const deepestM = deflection(wheel, 145);
  const speed = wheel.flexible ? 0.0012 : 0.00003;
  const approachM = wheel.flexible ? 0.001 : 0.00005;
  const top = loadAtDeflection(wheel, deepestM);
  const halfS = (approachM + deepestM) / speed;
  const cycleS = 2 * halfS + 0.6;
  const deepest = [0, 0, 0];
  const bytes = pressLog(seed, run, errors, (timeS) => {
    if (timeS < 1.5) return { forceN: 0, travelM: 0 };
    const cycle = Math.floor((timeS - 1.5) / cycleS);
    if (cycle >= 3) return timeS - 1.5 - 3 * cycleS < 0.6 ? { forceN: 0, travelM: 0 } : null;
    const t = timeS - 1.5 - cycle * cycleS;
    const down = t <= halfS;
    const travelM = Math.max(0, down ? t * speed : (2 * halfS - t) * speed);
    const d = Math.max(0, travelM - approachM);
    deepest[cycle] = Math.max(deepest[cycle] as number, d);
    const loading = loadAtDeflection(wheel, d);
    const part = top === 0 ? 0 : loading / top;
    return { forceN: seated(down ? loading : loading * (1 - wheel.hysteresis * 4 * part * (1 - part)), 1, seating), travelM };
  });
  const seen = Math.min(...deepest.slice(1));
  return { bytes, truth: { stiffnessNm: wheel.stiffnessNm, hardeningNm3: wheel.hardeningNm3, deepestM: seen, largestLoadN: loadAtDeflection(wheel, seen) } };
}

/** A shear box: the normal load rests, then the plate advances at 2 mm/s. Its own logger, in newtons. */
export function shearRun(seed: number, run: PlannedRun, bed: BedTruth, errors: SensorErrors, seating: Seating | null = null): BenchLog {
  const random = dice(seed, `shear ${run.id}`);
  const area = shearAreaCm2 * 1e-4;
  const normalPa = (run.normalStressPa as number) * (1 + 0.005 * random.normal());
  const place = 1 + 0.012 * random.normal();
  const strengthPa = (bed.soil.cohesionPa + normalPa * Math.tan(bed.soil.frictionRad)) * place;
  const modulusM = bed.soil.shearModulusM * (1 + 0.04 * random.normal());
  const speed = 0.002;
  const restS = 2;
  const endM = 0.08;
  const text = textBytes(80_000);
  putText(text, `Shear logger (invented data)\r\nRun;${run.id}\r\nTime;Normal;Shear;Travel\r\ns;N;N;mm\r\n`);
  const bias = 0.05 * random.normal();
  for (let i = 0; i / rateHz <= restS + endM / speed; i++) {
    reserve(text, 80);
    const travelM = Math.max(0, i / rateHz - restS) * speed;
    const j = Math.max(0, travelM - (seating?.playM ?? 0));
    putFixed(text, i / rateHz, 2, mark.comma);
    putByte(text, mark.semicolon);
    putFixed(text, normalPa * area * errors.normal + (seating?.normalZeroN ?? 0) + 0.05 * random.normal(), 2, mark.comma);
    putByte(text, mark.semicolon);
    putFixed(text, seated(strengthPa * (1 - Math.exp(-j / modulusM)) * area, 1, seating) * errors.shear + bias + 0.06 * random.normal(), 2, mark.comma);
    putByte(text, mark.semicolon);
    putFixed(text, travelM * 1000 * errors.shearTravel + 0.003 * random.normal(), 3, mark.comma);
    putByte(text, mark.return);
    putByte(text, mark.newline);
  }
  return { bytes: written(text), truth: { normalStressPa: normalPa, strengthPa, shearModulusM: modulusM, cohesionPa: bed.soil.cohesionPa, frictionRad: bed.soil.frictionRad, place } };
}
