import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";

// A small complete day description of an invented laboratory: every kind of run once, two loggers for the wheel runs.
const rig = `rig: Bench 2
laboratory: Skarvhamn Wheel Laboratory (invented)
gravity: 9.819
slipRadius: { policy: effective, lugs: with }
zero: { state: wheelLifted, beforeS: 2, afterS: 2 }
massBelowSensor: 1.4
encoder: { countsPerRevolution: 4096, gear: 20, rollover: 65536 }
loggers:
  frame:
    files: logs/{run}_frame.txt
    kinds: [traction, hardFloor, freeSpin]
    runLabel: Run
    overload: [OVLD]
    clock: { kind: wall, column: Time, format: "dd.MM.yyyy HH:mm:ss,SSS", zone: UTC }
    channels:
      bridge1: { column: B1, unit: mV/V }
      bridge2: { column: B2, unit: mV/V }
      bridge3: { column: B3, unit: mV/V }
      bridge4: { column: B4, unit: mV/V }
      bridge5: { column: B5, unit: mV/V }
      bridge6: { column: B6, unit: mV/V }
      hubHeight:
        column: Pot
        unit: V
        sign: -1
        calibration: { gives: mm, gain: 30.02, offset: 0, date: 2026-10-01, certificate: POT-17 }
        uncertainty: { relative: 0.001, offset: 0.1 }
        range: [0, 300]
      sync: { column: Sync, unit: V }
  drive:
    files: logs/{run}_drive.csv
    kinds: [traction, hardFloor, freeSpin]
    clock: { kind: elapsed, column: t, unit: s }
    channels:
      wheelAngle: { column: Enc, unit: count, sign: 1 }
      carriagePosition: { column: X, unit: mm, sign: 1, uncertainty: { relative: 0.0005, offset: 0.2 } }
      boxTemperature: { column: T1, unit: °C, extra: true }
      sync: { column: Trig, unit: V }
  press:
    files: logs/{run}_press.csv
    kinds: [plate, loadDeflection]
    clock: { kind: rate, rateHz: 100 }
    channels:
      pressForce:
        column: F
        unit: V
        sign: 1
        calibration: { gives: kN, table: [[0, 0], [5, 0.25], [10, 0.5]], date: 2026-10-02, certificate: PRS-3 }
        uncertainty: { relative: 0.002, offset: 0.001 }
      pressDisplacement: { column: d, unit: mm, sign: 1, uncertainty: { relative: 0.0005, offset: 0.02 } }
  box:
    files: logs/{run}_box.csv
    kinds: [shear]
    clock: { kind: elapsed, column: t, unit: s }
    channels:
      normalForce: { column: N, unit: N, sign: 1 }
      shearForce: { column: S, unit: N, sign: 1 }
      shearDisplacement: { column: j, unit: mm, sign: 1 }
  tower:
    files: logs/{run}_drop.csv
    kinds: [drop]
    clock: { kind: rate, rateHz: 20000 }
    channels:
      hubAcceleration: { column: A, unit: gn, sign: 1, range: [-500, 500] }
      dropHeight:
        column: L
        unit: V
        sign: 1
        calibration: { gives: mm, polynomial: [-4, 100.5, 0.02], date: 2026-10-02, certificate: LAS-9 }
sixAxis:
  logger: frame
  matrix:
    - [500, 1, 0, 0, 2, 0]
    - [0, 500, 1, 2, 0, 0]
    - [1, 0, 1000, 0, 0, 1]
    - [0, 0, 0, 50, 0, 0.1]
    - [0, 0.1, 0, 0, 50, 0]
    - [0, 0, 0.1, 0, 0, 50]
  relativeUncertainty: 0.003
  offsetUncertainty: 0.15
  date: 2026-09-20
  certificate: SIX-4
  range: [500, 500, 1000, 50, 50, 50]
  bridgeRange: 2.0
  gives:
    drawbarPull: { output: forceX, sign: -1 }
    sideForce: { output: forceY, sign: 1 }
    verticalLoad: { output: forceZ, sign: 1 }
    wheelTorque: { output: momentY, sign: 1 }
alignment: { method: sharedEvents, reference: frame, channel: sync, level: 2.5 }
drop: { filterClass: 1000, filterStandard: SAE J211, restS: 0.2, carriageMass: 2.5 }
soil: { circularPlateWidth: radius }
`;

const runs = `run,kind,wheel,bed,load [N],slip [%],speed [mm/s],repeat,block,height [mm],plate,plate width [mm],plate length [mm],shear area [cm2],normal stress [kPa],remark,excluded,reason,operator
T01,traction,Birk,Bed 1,150,20,50,1,A,,,,,,,,,,IS
T02,traction,Alm,Bed 1,150,-10,50,1,A,,,,,,,dust in the rail,yes,carriage stuck,IS
H01,hard floor,Birk,,150,,50,,A,,,,,,,,,,IS
F01,free spin,Birk,,,,50,,A,,,,,,,,,,IS
P01,plate,,Bed 1,,,,1,B,,circle,100,,,,,,,IS
P02,plate,,Bed 1,,,,1,B,,rectangle,50,150,,,,,,IS
S01,shear,,Bed 1,,,,1,B,,,,,100,5,,,,IS
D01,drop,Alm,,,,,1,C,250,,,,,,,,,IS
L01,load deflection,Alm,,,,,1,C,,,,,,,,,,IS
`;

const wheels = `wheel,radius [mm],width [mm],mass [kg],lugs,lug height [mm],flexible,description,spoke thickness [mm],core fraction [%],core material
Birk,125,100,1.9,24,8,no,rigid reference,,,
Alm,130,110,1.6,0,,yes,hoop with spokes,1.2,35,cork
`;

const beds = `bed,density [g/cm3],moisture [%],target gradient [kPa/mm],remark,raked by
Bed 1,1.62,0.3,4.5,,IS
`;

const cones = `bed,position,depth [mm],index [kPa]
Bed 1,left,20,95
Bed 1,left,60,270
Bed 1,right,20,88
Bed 1,right,60,262
`;

export const exampleDay = { "rig.yaml": rig, "runs.csv": runs, "wheels.csv": wheels, "beds.csv": beds, "cones.csv": cones } as const;

/** Writes files into a fresh day folder and hands its path to `use`; the folder is gone afterwards. null leaves a file out. */
export function withDay<T>(changes: Readonly<Record<string, string | Uint8Array | null>>, use: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), "drawbar-day-"));
  try {
    for (const [file, content] of Object.entries({ ...exampleDay, ...changes })) {
      if (content === null) continue;
      mkdirSync(dirname(join(folder, file)), { recursive: true });
      writeFileSync(join(folder, file), content);
    }
    return use(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
