import { expect, test } from "vitest";
import { namesInWords, plainWords } from "../../src/report/words.ts";

test("names of quantities and kinds are said in words, what people wrote stays", () => {
  expect(namesInWords("calibration SIX-4, verticalLoad")).toBe("calibration SIX-4, vertical load");
  expect(namesInWords("calibration statement for carriagePosition, carriagePosition")).toBe("calibration statement for carriage position");
  expect(namesInWords("hardFloor, 70 N, 250 mm/s")).toBe("hard floor, 70 N, 250 mm/s");
  // a run's id may look like a name of ours, but is none
  expect(namesInWords("zero of wheelTorque, runA7 verticalLoad2")).toBe("zero of wheel torque, runA7 verticalLoad2");
});

test("stretches of a run in words", () => {
  expect(["preZero", "freeFall", "steady"].map(plainWords)).toEqual(["pre zero", "free fall", "steady"]);
});
