import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { seededRandom } from "../../src/numerics/random.ts";

/** The files of a day folder by their paths inside it. */
export type DayFiles = Record<string, string | Uint8Array>;

const rig = `rig: Tiny rig
gravity: 9.81
slipRadius: { policy: effective, lugs: with }
zero: { state: wheelLifted, beforeS: 2, afterS: 2 }
loggers:
  box:
    files: logs/{run}.csv
    kinds: [traction, hardFloor]
    clock: { kind: elapsed, column: t, unit: s }
    channels:
      verticalLoad: { column: W, unit: N, sign: 1, calibration: { gives: N, gain: 1, offset: 0, date: 2026-10-01, certificate: LC-1 }, uncertainty: { relative: 0.002, offset: 0.1 }, range: [-100, 500] }
      drawbarPull: { column: P, unit: N, sign: 1, calibration: { gives: N, gain: 1, offset: 0, date: 2026-10-01, certificate: LC-2 }, uncertainty: { relative: 0.002, offset: 0.1 }, range: [-200, 200] }
      wheelAngle: { column: A, unit: rad, sign: 1 }
      carriagePosition: { column: X, unit: mm, sign: 1, uncertainty: { relative: 0.0005, offset: 0.2 } }
`;

const runs = `run,kind,wheel,bed,load [N],slip [%],remark
H1,hard floor,W1,,70,,
T1,traction,W1,B1,70,10,
T2,traction,W1,B1,70,20,
`;

const wheels = `wheel,radius [mm],width [mm],mass [kg],lugs,flexible
W1,100,80,1.1,0,no
`;

const beds = `bed,density [kg/m3]
B1,1650
`;

const rateHz = 50;
const lengthS = 20;
const startS = 4;
const stopS = 16;
const speedMps = 0.25;
const radiusM = 0.1;
/** what the lifted wheel of 1.1 kg pulls on the sensor */
const hangingN = -10.79;

/** A run by plain formulas: lifted for 2.5 s, lowered, standing, 12 s of driving, raised, lifted again for 2.5 s. */
export function tinyLog(slip: number, pullN: number): string {
  const random = seededRandom(Math.round(1000 * slip) + 1);
  const lines = ["t [s],W [N],P [N],A [rad],X [mm]"];
  for (let i = 0; i <= lengthS * rateHz; i++) {
    const t = i / rateHz;
    const onGround = Math.min(1, Math.max(0, t < 10 ? t - 2.5 : 17.5 - t));
    const driven = Math.min(Math.max(t - startS, 0), stopS - startS);
    const travelM = speedMps * driven;
    const angle = travelM / (radiusM * (1 - slip));
    const rolling = driven > 0 && t < stopS ? 1 : 0;
    // a ripple once per turn, and a little noise
    const ripple = 0.3 * rolling * Math.sin(angle);
    const noise = (): number => 0.1 * (random.uniform() - 0.5);
    const row = [t.toFixed(2), (hangingN + 70 * onGround + ripple + noise()).toFixed(3), (pullN * rolling + ripple / 2 + noise()).toFixed(3), angle.toFixed(5), (travelM * 1000 + noise()).toFixed(3)];
    lines.push(row.join(","));
  }
  return `${lines.join("\n")}\n`;
}

/** A small day without a mistake: a hard-floor run and two traction runs on one logger. */
export function tinyFiles(): DayFiles {
  return { "rig.yaml": rig, "runs.csv": runs, "wheels.csv": wheels, "beds.csv": beds, "logs/H1.csv": tinyLog(0, -1), "logs/T1.csv": tinyLog(0.1, 8), "logs/T2.csv": tinyLog(0.2, 14) };
}

const made: string[] = [];

/** Writes a day into a new folder of the machine's temporary folder. */
export function writeDay(files: DayFiles): string {
  const folder = mkdtempSync(join(tmpdir(), "drawbar-tiny-"));
  made.push(folder);
  for (const [path, content] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), content);
  }
  return folder;
}

/** For a test file's afterAll. */
export function removeDays(): void {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true });
}
