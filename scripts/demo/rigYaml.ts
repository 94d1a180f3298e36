import { enduranceYaml } from "./inspections.ts";
import { bridgeRange, decoupling, dropCarriageKg, encoder, gravity, massBelowSensorKg, pad, photo, pot, press, scan, stated } from "./rigTruth.ts";

/** The rig description of the invented rig; `whole` = with what a whole day asks for beside: the soil under the wheels, and endurance. */
export function rigYaml(filterClass: 600 | 1000, whole = false): string {
  const matrix = decoupling.map((row) => `    - [${row.join(", ")}]`).join("\n");
  return `# Invented data: no such laboratory, rig, rover (Tussock), wheel or simulant (SK-2) exists.
rig: Bench 2
laboratory: Skarvhamn Wheel Laboratory (invented)
gravity: ${gravity}
# slip is counted from the distance the wheel rolls on the hard floor at that load
slipRadius: { policy: effective, lugs: with }
zero: { state: wheelLifted, beforeS: 2, afterS: 2 }
massBelowSensor: ${massBelowSensorKg}
encoder: { countsPerRevolution: ${encoder.countsPerRevolution}, gear: ${encoder.gear}, rollover: ${encoder.rollover} }

loggers:
  # the six-axis sensor sits in the drive, its origin on the axle; torque includes the drag of hub and seal
  frame:
    files: logs/{run}_frame.txt
    kinds: [traction, sweep, hardFloor, freeSpin]
    encoding: latin1
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
      # the wire is drawn out as the hub sinks
      hubHeight: { column: Pot, unit: V, sign: -1, calibration: { gives: mm, gain: ${pot.gain}, offset: 0, date: 2026-10-01, certificate: POT-17 }, uncertainty: { relative: ${stated.pot}, offset: ${stated.potOffsetMm} }, range: [0, 300] }
      sync: { column: Sync, unit: V }
  drive:
    files: logs/{run}_drive.csv
    kinds: [traction, sweep, hardFloor, freeSpin]
    clock: { kind: elapsed, column: t, unit: s }
    channels:
      wheelAngle: { column: Enc, unit: count, sign: 1 }
      carriagePosition: { column: X, unit: mm, sign: 1, uncertainty: { relative: ${stated.carriage}, offset: ${stated.carriageOffsetMm} } }
      sync: { column: Trig, unit: V }
  press:
    files: logs/{run}_press.csv
    kinds: [plate, loadDeflection]
    runLabel: Run
    clock: { kind: elapsed, column: Time, unit: s }
    channels:
      pressForce: { column: Force, unit: V, sign: 1, calibration: { gives: N, gain: ${press.gain}, offset: ${press.offset}, date: 2026-09-28, certificate: PRS-8 }, uncertainty: { relative: ${stated.press}, offset: ${stated.pressOffsetN} }, range: [-100, 2400] }
      pressDisplacement: { column: Travel, unit: mm, sign: 1, uncertainty: { relative: ${stated.pressTravel}, offset: ${stated.pressTravelOffsetMm} }, range: [0, 150] }
  shear:
    files: logs/{run}_shear.csv
    kinds: [shear]
    runLabel: Run
    clock: { kind: elapsed, column: Time, unit: s }
    channels:
      normalForce: { column: Normal, unit: N, sign: 1, uncertainty: { relative: ${stated.normal}, offset: ${stated.shearOffsetN} }, range: [-10, 500] }
      shearForce: { column: Shear, unit: N, sign: 1, uncertainty: { relative: ${stated.shear}, offset: ${stated.shearOffsetN} }, range: [-10, 500] }
      shearDisplacement: { column: Travel, unit: mm, sign: 1, uncertainty: { relative: ${stated.shearTravel}, offset: ${stated.shearTravelOffsetMm} }, range: [-5, 100] }
  # the accelerometer reads zero at rest
  drop:
    files: logs/{run}_drop.csv
    kinds: [drop]
    runLabel: Run
    clock: { kind: elapsed, column: t, unit: s }
    channels:
      hubAcceleration: { column: Acc, unit: gn, sign: 1, uncertainty: { relative: ${stated.acceleration}, offset: ${stated.accelerationOffsetGn} }, range: [-200, 200] }
      dropHeight: { column: Height, unit: mm, sign: 1, uncertainty: { relative: ${stated.dropHeight}, offset: ${stated.dropHeightOffsetMm} }, range: [-100, 400] }
  # the lane with the step has a drive of its own; the accelerometer reads zero at rest
  lane:
    files: logs/{run}_lane.csv
    kinds: [obstacle]
    runLabel: Run
    clock: { kind: elapsed, column: Time, unit: s }
    channels:
      wheelTorque: { column: Torque, unit: N.m, sign: 1, uncertainty: { relative: ${stated.laneTorque}, offset: ${stated.laneTorqueOffsetNm} }, range: [-50, 50] }
      verticalLoad: { column: Load, unit: N, sign: 1, uncertainty: { relative: ${stated.laneLoad}, offset: ${stated.laneLoadOffsetN} }, range: [-500, 1000] }
      wheelAngle: { column: Angle, unit: deg, sign: 1 }
      carriagePosition: { column: Travel, unit: mm, sign: 1, uncertainty: { relative: ${stated.carriage}, offset: ${stated.carriageOffsetMm} } }
      hubHeight: { column: Hub, unit: mm, sign: 1, uncertainty: { relative: ${stated.pot}, offset: ${stated.potOffsetMm} }, range: [0, 300] }
      hubAcceleration: { column: Acc, unit: gn, sign: 1, uncertainty: { relative: ${stated.acceleration}, offset: ${stated.accelerationOffsetGn} }, range: [-10, 10] }
${whole ? tableYaml : ""}
sixAxis:
  logger: frame
  matrix:
${matrix}
  relativeUncertainty: ${stated.sixAxis}
  offsetUncertainty: ${stated.sixAxisOffset}
  date: 2026-09-20
  certificate: SIX-4
  range: [500, 500, 1000, 50, 50, 50]
  bridgeRange: ${bridgeRange}
  gives:
    # the sensor counts the carriage's push on the wheel, so pulling reads negative
    drawbarPull: { output: forceX, sign: -1 }
    sideForce: { output: forceY, sign: 1 }
    verticalLoad: { output: forceZ, sign: 1 }
    wheelTorque: { output: momentY, sign: 1 }

# a laser on the carriage, run along the lane before and after
surfaceScan: { relative: ${scan.relative}, offset: ${scan.offsetM}, slope: ${scan.slope}, date: 2026-09-29, certificate: SCN-2 }
alignment: { method: sharedEvents, reference: frame, channel: sync, level: 2.5 }
drop:
  filterClass: ${filterClass}
  filterStandard: SAE J211
  restS: 0.2
  carriageMass: ${dropCarriageKg}
  massUncertainty: 0.01
  shockSpectrum: { dampingRatio: 0.05, fromHz: 5, toHz: ${filterClass} }
  # drops that were not made: higher, and on the Moon
  predict:
    - { height: 0.3, gravity: ${gravity} }
    - { height: 0.2, gravity: 1.62 }
soil: { circularPlateWidth: radius${whole ? ", wheelModel: { plateTransfer: 0.3, shearTransfer: 4 }" : ""} }
${whole ? enduranceYaml : ""}footprint:
  pad: { files: "logs/{run}_pad.csv", along: rows, delimiter: ";", decimal: ",", unit: kPa, cell: [${pad.cellM}, ${pad.cellM}], cellUncertainty: ${stated.padCell}, contactAbove: 800, relativeUncertainty: ${stated.pad}, date: 2026-09-12, certificate: PAD-3 }
  # the glass plate, photographed from below
  image: { files: "logs/{run}_photo.png", along: rows, pixel: ${photo.pixelM}, pixelUncertainty: ${stated.photoPixel}, contact: dark, threshold: otsu }
`;
}

/** The bench of the endurance runs. */
const tableYaml = `  # the turning table of the endurance runs has the lane's sensors, and one of the pull
  table:
    files: logs/{run}_table.csv
    kinds: [endurance]
    runLabel: Run
    clock: { kind: elapsed, column: Time, unit: s }
    channels:
      wheelTorque: { column: Torque, unit: N.m, sign: 1, uncertainty: { relative: ${stated.laneTorque}, offset: ${stated.laneTorqueOffsetNm} }, range: [-50, 50] }
      verticalLoad: { column: Load, unit: N, sign: 1, uncertainty: { relative: ${stated.laneLoad}, offset: ${stated.laneLoadOffsetN} }, range: [-500, 500] }
      drawbarPull: { column: Pull, unit: N, sign: 1, uncertainty: { relative: ${stated.tablePull}, offset: ${stated.tablePullOffsetN} }, range: [-250, 250] }
      wheelAngle: { column: Angle, unit: deg, sign: 1 }
      carriagePosition: { column: Travel, unit: mm, sign: 1, uncertainty: { relative: ${stated.carriage}, offset: ${stated.carriageOffsetMm} } }
`;
