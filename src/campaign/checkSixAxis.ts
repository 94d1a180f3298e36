import { unitKind } from "../core/units.ts";
import { list, nearest, show } from "./nearest.ts";
import { quantities } from "./quantities.ts";
import type { Rig, SixAxis } from "./rigSchema.ts";
import type { RigMistake } from "./yamlPlaces.ts";

const bridges = ["bridge1", "bridge2", "bridge3", "bridge4", "bridge5", "bridge6"] as const;

/** The six-axis sensor against the loggers: its bridges recorded, its outputs used once and for the right kind, its matrix invertible. */
export function checkSixAxis(rig: Rig, sixAxis: SixAxis): RigMistake[] {
  const mistakes: RigMistake[] = [];
  const add = (code: string, key: string, message: string, hint: string) => mistakes.push({ code, path: ["sixAxis", ...key.split(".")], message, hint });

  const names = Object.keys(rig.loggers);
  const logger = Object.hasOwn(rig.loggers, sixAxis.logger) ? rig.loggers[sixAxis.logger] : undefined;
  if (logger === undefined) {
    const guess = nearest(sixAxis.logger, names);
    add(
      "unknown-logger",
      "logger",
      `expected one of the loggers ${list(names)}, found ${show(sixAxis.logger)}`,
      guess === null ? "Name the logger that records the bridges." : `Did you mean ${guess}?`,
    );
  } else {
    const absent = bridges.filter((bridge) => !Object.hasOwn(logger.channels, bridge));
    if (absent.length > 0) add(
      "missing-channel",
      "logger",
      `expected the channels bridge1 … bridge6 in logger ${sixAxis.logger}, found no ${absent.join(", ")}`,
      "Describe the six bridges under that logger's channels.",
    );
  }

  const taken = new Map<string, string>();
  for (const [quantity, use] of Object.entries(sixAxis.gives)) {
    const key = `gives.${quantity}`;
    const wanted = unitKind(quantities[quantity as keyof typeof sixAxis.gives].unit);
    const found = use.output.startsWith("force") ? "force" : "torque";
    if (wanted !== found) add(
      "wrong-dimension",
      `${key}.output`,
      `expected a ${wanted === "force" ? "force" : "moment"} output for ${quantity}, found ${use.output}`,
      wanted === "force" ? "Choose forceX, forceY or forceZ." : "Choose momentX, momentY or momentZ.",
    );
    const other = taken.get(use.output);
    if (other !== undefined) add("output-twice", `${key}.output`, `expected each output for one quantity, found ${use.output} for ${other} and ${quantity}`, "Correct one of the two.");
    taken.set(use.output, quantity);
    const clash = Object.entries(rig.loggers).find(([, candidate]) => Object.hasOwn(candidate.channels, quantity) && (logger === undefined || candidate.kinds.some((kind) => logger.kinds.includes(kind))));
    if (clash !== undefined) add(
      "channel-twice",
      key,
      `expected ${quantity} from one place, found it also among the channels of logger ${clash[0]}`,
      "Keep the better one; give the other a name of its own and extra: true.",
    );
  }
  if (Object.keys(sixAxis.gives).length === 0) add(
    "gives-nothing",
    "gives",
    "expected at least one quantity that the sensor gives, found none",
    "Say which output is drawbarPull, verticalLoad, sideForce or wheelTorque.",
  );
  if (isSingular(sixAxis.matrix)) add(
    "singular-matrix",
    "matrix",
    "expected a matrix whose rows are independent, found one with an output that the others already fix (or that is all zeros)",
    "Copy the matrix from the certificate once more.",
  );
  return mistakes;
}

/** Whether elimination with pivoting, after scaling each row to 1, meets a pivot below 1e-10: no sensor is that badly made. */
function isSingular(matrix: readonly (readonly number[])[]): boolean {
  const rows = matrix.map((row) => {
    const largest = Math.max(...row.map(Math.abs));
    return row.map((value) => (largest > 0 ? value / largest : 0));
  });
  for (let column = 0; column < rows.length; column++) {
    const size = (row: number) => Math.abs((rows[row] as number[])[column] as number);
    let pivot = column;
    for (let row = column + 1; row < rows.length; row++) if (size(row) > size(pivot)) pivot = row;
    if (size(pivot) < 1e-10) return true;
    const top = rows[pivot] as number[];
    rows[pivot] = rows[column] as number[];
    rows[column] = top;
    for (let row = column + 1; row < rows.length; row++) {
      const current = rows[row] as number[];
      const factor = (current[column] as number) / (top[column] as number);
      rows[row] = current.map((value, index) => value - factor * (top[index] as number));
    }
  }
  return false;
}
