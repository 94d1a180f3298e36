import { doWheelSoilJob } from "../fitting/wheelSoilJobs.ts";
import type { WheelSoilAnswer, WheelSoilJob } from "../fitting/wheelSoilJobs.ts";

/** Body of a thread: one job of the wheel–soil models. */
export default function fitTask(job: WheelSoilJob): WheelSoilAnswer {
  return doWheelSoilJob(job);
}
