import type { Fault } from "./fault.ts";
import { encoderFaults } from "./encoderFaults.ts";
import { zeroFaults } from "./zeroFaults.ts";

/** Every fault the bench can make, in the order of the list. A new family is added here. */
export const faults: readonly Fault[] = [...encoderFaults, ...zeroFaults].sort((a, b) => a.number - b.number);
