// Makes a day folder with one endurance run of an invented laboratory, its log as long as asked for, and inspections of two wheels.
// Usage: npx tsx scripts/makeEnduranceLog.ts FOLDER [--gigabytes 10]
import { closeSync, mkdirSync, openSync, writeFileSync, writeSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { enduranceYaml, inspectionSheet, madeWear } from "./demo/inspections.ts";

const { values, positionals } = parseArgs({ allowPositionals: true, options: { gigabytes: { type: "string", default: "10" } } });
const [folder] = positionals;
if (folder === undefined) throw new Error("expected a folder");
const wantedBytes = Number(values.gigabytes) * 1e9;

/** What the made wheel does: 1 kHz, legs of 8 m out and home with 20 s of rest between, slip and pull changing slowly with the path. */
const rateHz = 1000;
const legM = 8;
const restS = 20;
const liftS = 5;
const radiusM = 0.1;
const wheelRadS = 1;
const perKm = { slip: 0.01, pullN: -0.2 };

mkdirSync(join(folder, "logs"), { recursive: true });
writeFileSync(join(folder, "rig.yaml"), `rig: Endurance bench
gravity: 9.81
slipRadius: { policy: unloaded, lugs: without, uncertainty: 0.0002 }
zero: { state: wheelLifted, beforeS: 4, afterS: 4 }
${enduranceYaml}loggers:
  frame:
    files: logs/{run}.csv
    kinds: [endurance]
    clock: { kind: elapsed, column: t, unit: s }
    channels:
      verticalLoad: { column: Fz, unit: N, sign: 1, range: [-250, 250], uncertainty: { relative: 0.002, offset: 0.1 } }
      drawbarPull: { column: Fx, unit: N, sign: 1, range: [-250, 250], uncertainty: { relative: 0.002, offset: 0.1 } }
      sideForce: { column: Fy, unit: N, sign: 1 }
      wheelTorque: { column: My, unit: N.m, sign: 1, uncertainty: { relative: 0.002, offset: 0.01 } }
      wheelAngle: { column: Angle, unit: deg, sign: 1 }
      carriagePosition: { column: X, unit: mm, sign: 1, uncertainty: { relative: 0.0005, offset: 0.2 } }
`);
writeFileSync(join(folder, "runs.csv"), "run,kind,wheel,bed,load [N],slip [%],repeat,remark,excluded,reason\nE001,endurance,W1,,70,20,1,,,\n");
writeFileSync(join(folder, "wheels.csv"), "wheel,radius [mm],width [mm],mass [kg],lugs,lug height [mm],flexible\nW1,100,80,1.12,24,5,no\nW2,100,80,1.12,24,5,no\n");
writeFileSync(join(folder, "inspections.csv"), inspectionSheet([{ id: "W1", massG: 1120, radiusMm: 100 }, { id: "W2", massG: 1120, radiusMm: 100 }], 20261126));

const rowRoom = 256;
const buffer = Buffer.allocUnsafe(1 << 22);
let at = 0;

/** A number with a fixed count of decimals; toFixed would take most of the time. */
function put(value: number, decimals: number, end: number): void {
  let whole = Math.round(Math.abs(value) * 10 ** decimals);
  if (value < 0 && whole > 0) buffer[at++] = 45;
  let digits = decimals + 1;
  for (let limit = 10 ** digits; limit <= whole; limit *= 10) digits++;
  let p = at + digits + (decimals > 0 ? 1 : 0);
  at = p;
  for (let digit = 0; digit < digits; digit++) {
    if (digit === decimals && decimals > 0) buffer[--p] = 46;
    const rest = Math.floor(whole / 10);
    buffer[--p] = 48 + (whole - rest * 10);
    whole = rest;
  }
  buffer[at++] = end;
}

// Noise from a table: Gaussian enough as a sum of twelve, and the same in every making.
let seed = 20261126;
const chance = (): number => (seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0) / 2 ** 32;
const noise = Float64Array.from({ length: 1 << 16 }, () => Array.from({ length: 12 }, chance).reduce((sum, one) => sum + one, -6));

const fd = openSync(join(folder, "logs", "E001.csv"), "w");
let written = writeSync(fd, "t [s],Fz [N],Fx [N],Fy [N],My [N.m],Angle [deg],X [mm],Z [mm],I [A]\n");
let angle = 0;
let position = 0;
let travelled = 0;
let way = 1;
let inLegM = 0;
let restUntil = 0;
let row = 0;
let lastRows = Infinity;
while (lastRows > 0) {
  const t = row / rateHz;
  const lifted = t < liftS || lastRows < Infinity;
  const rolls = !lifted && t >= restUntil;
  const slip = 0.2 + (perKm.slip * travelled) / 1000;
  if (rolls) {
    const step = (wheelRadS * radiusM * (1 - slip)) / rateHz;
    angle += (way * wheelRadS) / rateHz;
    position += way * step;
    travelled += step;
    inLegM += step;
    if (inLegM >= legM) {
      inLegM = 0;
      way = -way;
      restUntil = t + restS;
    }
  }
  const noisy = (k: number): number => noise[(row * 7 + k * 8191) & 0xffff] as number;
  const along = rolls ? way : 0;
  put(t, 3, 44);
  put((lifted ? 0 : 70 + (rolls ? 3 * Math.sin(24 * angle) : 0)) - 11 + 0.3 * noisy(1), 4, 44);
  put(along * (14 + (perKm.pullN * travelled) / 1000 + Math.sin(24 * angle)) + 0.3 * noisy(2), 4, 44);
  put(0.2 * noisy(3), 4, 44);
  put(along * 2.1 + 0.02 * noisy(4), 5, 44);
  put((angle * 180) / Math.PI, 3, 44);
  put(position * 1000 + 0.02 * noisy(5), 3, 44);
  put(-12 + 0.1 * noisy(6), 4, 44);
  put(0.8 + 0.02 * noisy(7), 4, 10);
  row++;
  if (lastRows < Infinity) lastRows--;
  if (at < buffer.length - rowRoom && lastRows > 0) continue;
  written += writeSync(fd, buffer, 0, at);
  at = 0;
  if (lastRows === Infinity && written >= wantedBytes) lastRows = liftS * rateHz;
}
closeSync(fd);
process.stdout.write(`${folder}: ${(written / 1e9).toFixed(2)} GB, ${row} rows, ${(row / rateHz / 3600).toFixed(1)} h, ${travelled.toFixed(1)} m; slip 0.2 and ${perKm.slip} more a km, pull 14 N and ${perKm.pullN} N a km, load 70 N, torque 2.1 N·m; wear ${madeWear.gramsPerKm} g a km\n`);
