import { bedFaults } from "./bedFaults.ts";
import { clockFaults } from "./clockFaults.ts";
import { compareFaults } from "./compareFaults.ts";
import { dropFaults } from "./dropFaults.ts";
import { encoderFaults } from "./encoderFaults.ts";
import type { Fault } from "./fault.ts";
import { linkFaults } from "./linkFaults.ts";
import { radiusFaults } from "./radiusFaults.ts";
import { sensorFaults } from "./sensorFaults.ts";
import { signalFaults } from "./signalFaults.ts";
import { sinkageFaults } from "./sinkageFaults.ts";
import { stepFaults } from "./stepFaults.ts";
import { windowFaults } from "./windowFaults.ts";
import { zeroFaults } from "./zeroFaults.ts";

/** Every fault the bench can make, in the order of the list. A new family is added here. */
export const faults: readonly Fault[] = [...bedFaults, ...clockFaults, ...compareFaults, ...dropFaults, ...encoderFaults, ...linkFaults, ...radiusFaults, ...sensorFaults, ...signalFaults, ...sinkageFaults, ...stepFaults, ...windowFaults, ...zeroFaults].sort((a, b) => a.number - b.number);
