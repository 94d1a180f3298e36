import { z } from "zod";

const place = z.strictObject({ forward: z.number().describe("ahead of the sensor's origin, along the level carriage [m]"), up: z.number().describe("above it [m]") });

const rope = {
  mass: z.number().positive().describe("mass that hangs on the rope [kg]"),
  massUncertainty: z.number().nonnegative().describe("standard uncertainty of that mass [kg]"),
  ratio: z.number().positive().describe("rope forces on the carriage or slide per rope force on the mass: 1 for a plain pulley, 2 for a loose one"),
  friction: z.number().min(0).lt(1).describe("largest share of the rope force that the pulleys take or add, either way: from a both-way load test"),
};

/** Weight below a sensor that hangs under a carriage whose attitude changes. */
export const tareSchema = z
  .strictObject({
    axes: z.enum(["carriage", "level"]).describe("carriage: pull and load are wanted along and square to the carriage, as where rails and bed slope together; level: horizontal and vertical, as where the carriage tilts over a level bed"),
    axle: place.optional().describe("where the wheel's axle is, from the sensor's origin; needed for the torque of a six-axis sensor"),
    stated: z
      .strictObject({
        massUncertainty: z.number().nonnegative().describe("standard uncertainty of massBelowSensor and the wheel's mass together [kg]"),
        centreOfMass: place.optional().describe("centre of massBelowSensor, the wheel excepted"),
        centreUncertainty: z.number().nonnegative().optional().describe("standard uncertainty of each of its two coordinates [m]"),
      })
      .optional()
      .describe("what hangs below the sensor, by the scale and the ruler"),
    readings: z
      .strictObject({
        wheelMass: z.number().nonnegative().describe("mass of the wheel that was on [kg]; 0 = none"),
        forceUncertainty: z.number().positive().describe("standard uncertainty of one force reading, offset excepted [N]"),
        torqueUncertainty: z.number().positive().optional().describe("standard uncertainty of one torque reading, offset excepted [N·m]"),
        at: z
          .array(z.strictObject({ tilt: z.number().describe("[°], nose up positive"), drawbarPull: z.number().describe("[N]"), verticalLoad: z.number().describe("[N]"), wheelTorque: z.number().optional().describe("[N·m]") }))
          .min(3),
      })
      .optional()
      .describe("what hangs below the sensor, by its own readings at three or more attitudes with the wheel lifted and at rest; signs as everywhere"),
    attitude: z
      .strictObject({ zero: z.number().describe("tilt during the zero [°], nose up positive"), run: z.number().describe("tilt during the run [°]"), uncertainty: z.number().nonnegative().describe("standard uncertainty of each [°]") })
      .optional()
      .describe("where no logger records the tilt"),
  })
  .describe("weight of what hangs below the pull and load sensor, taken off where the attitude of the run is not that of the zero");

/** What gains speed with the wheel, beyond the sensor. */
export const inertiaSchema = z
  .strictObject({
    mass: z.number().nonnegative().describe("what gains speed along the way on the wheel's side of the pull sensor, the wheel itself excepted [kg]; with the sensor on the carriage's side this is the carriage"),
    massUncertainty: z.number().nonnegative().describe("standard uncertainty of that mass [kg]"),
    turning: z.record(z.string(), z.number().nonnegative()).optional().describe("moment of inertia about the axle of all that the torque sensor turns, by wheel [kg·m²]"),
    turningUncertainty: z.number().nonnegative().optional().describe("standard uncertainty of each moment of inertia, as a share"),
  })
  .describe("inertia taken out of pull and torque where the speed changes while they are averaged");

/** Load off a dead weight and a rope that lifts, where no sensor measures it. */
export const offLoadSchema = z
  .strictObject({
    ...rope,
    weighed: z.number().positive().describe("mass that rests on the ground through the wheel while the rope is off, wheel and slide included [kg]"),
    weighedUncertainty: z.number().nonnegative().describe("standard uncertainty of it [kg]"),
    ropeAngle: z.number().min(0).lt(90).describe("angle of the rope from the vertical during the run [°]"),
    ropeAngleUncertainty: z.number().nonnegative().describe("standard uncertainty of that angle [°]"),
  })
  .describe("counterweight that takes load off the wheel: the load where no logger records verticalLoad, else what it is held against");

/** Pull of a hanging mass on the carriage, where no sensor measures it. */
export const hangingPullSchema = z
  .strictObject({ ...rope, pulls: z.enum(["backwards", "forwards"]).describe("which way the rope pulls the carriage; backwards = the wheel pulls against it") })
  .describe("dead weight over a pulley that sets the pull: the pull where no logger records drawbarPull");
