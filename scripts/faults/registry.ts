import { bedFaults } from "./bedFaults.ts";
import { encoderFaults } from "./encoderFaults.ts";
import type { Fault } from "./fault.ts";
import { radiusFaults } from "./radiusFaults.ts";
import { sensorFaults } from "./sensorFaults.ts";
import { windowFaults } from "./windowFaults.ts";
import { zeroFaults } from "./zeroFaults.ts";

/** Every fault the bench can make, in the order of the list. A new family is added here. */
export const faults: readonly Fault[] = [...bedFaults, ...encoderFaults, ...radiusFaults, ...sensorFaults, ...windowFaults, ...zeroFaults].sort((a, b) => a.number - b.number);
