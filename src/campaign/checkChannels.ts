import { unitKind, unitsOfKind } from "../core/units.ts";
import type { Unit } from "../core/units.ts";
import { checkBridge } from "./checkBridge.ts";
import { isQuantity, quantities } from "./quantities.ts";
import { list, nearest, show } from "./nearest.ts";
import { channelSchema } from "./rigSchema.ts";
import type { RigChannel } from "./rigSchema.ts";
import type { KeyPath, RigMistake } from "./yamlPlaces.ts";

const identifier = /^[A-Za-z][A-Za-z0-9_.-]{0,59}$/;

type Group = Readonly<Record<string, unknown>>;
const group = (value: unknown): Group => (typeof value === "object" && value !== null && !Array.isArray(value) ? (value as Group) : {});

/** What the schema cannot see in single channels. Works on the file as written, so that one mistake elsewhere hides none here. */
export function checkChannels(written: unknown): RigMistake[] {
  const hasEncoder = group(written)["encoder"] !== undefined;
  return Object.entries(group(group(written)["loggers"])).flatMap(([logger, settings]) => {
    const named = identifier.test(logger) ? [] : [badName("logger", logger, ["loggers", logger])];
    const channels = Object.entries(group(group(settings)["channels"])).flatMap(([name, value]) => {
      const path = ["loggers", logger, "channels", name];
      const channel = channelSchema.safeParse(value);
      const names = identifier.test(name) ? [] : [badName("channel", name, path)];
      if (!isQuantity(name) && group(value)["extra"] !== true) names.push(unknownChannel(name, path));
      return channel.success ? [...names, ...checkChannel(name, channel.data, path, hasEncoder)] : names;
    });
    return [...named, ...channels];
  });
}

function badName(what: string, name: string, path: KeyPath): RigMistake {
  return { code: "bad-name", path, message: `expected a ${what} name of letters, digits, _ . - that begins with a letter, found ${show(name)}`, hint: "Rename it." };
}

function unknownChannel(name: string, path: KeyPath): RigMistake {
  const guess = nearest(name, Object.keys(quantities));
  const start = guess === null ? "" : `Did you mean ${guess}? `;
  const end = guess === null ? ` Known: ${list(Object.keys(quantities), 40)}.` : "";
  return {
    code: "unknown-channel",
    path,
    message: `expected a quantity drawbar computes with, found ${show(name)}`,
    hint: `${start}Add extra: true if it is only to be carried along.${end}`,
  };
}

/** How a unit of the right kind looks, for messages: `a unit of force like N, mN or kN`. */
export function unitLike(wanted: Unit): string {
  const examples = unitsOfKind(unitKind(wanted)).slice(0, 3);
  return `a unit of ${unitKind(wanted)} like ${examples.join(", ")}`;
}

function checkChannel(name: string, channel: RigChannel, path: KeyPath, hasEncoder: boolean): RigMistake[] {
  const mistakes: RigMistake[] = [];
  const add = (code: string, key: string, message: string, hint: string) => mistakes.push({ code, path: key === "" ? path : [...path, ...key.split(".")], message, hint });

  const calibration = channel.calibration;
  const given = calibration?.gives ?? channel.unit;
  if (isQuantity(name)) {
    const quantity = quantities[name];
    const wantsAngle = name === "wheelAngle" && given === "count";
    if (channel.extra === true) add("not-extra", "extra", `expected no extra: true, found it on ${name}, which drawbar computes with`, "Remove extra: true, or rename the channel.");
    if (quantity.positive !== null && channel.sign === undefined) add(
      "missing-sign",
      "",
      `expected sign: 1 or -1, found nothing`,
      `Write sign: 1 if the column grows when ${quantity.positive}, else sign: -1.`,
    );
    if (wantsAngle && !hasEncoder) add(
      "missing-encoder",
      "unit",
      "expected an encoder description for a wheel angle in counts, found none",
      "Add encoder: { countsPerRevolution: …, gear: …, rollover: … }.",
    );
    const weighed = unitKind(given) === "mass" && unitKind(quantity.unit) === "force";
    if (weighed && channel.massAsForce === undefined) add(
      "mass-for-force",
      calibration === undefined ? "unit" : "calibration.gives",
      `expected ${unitLike(quantity.unit)} for ${name}, found ${given}, which is a mass`,
      "A scale shows a mass for a force. Write massAsForce: standardGravity if its kg are kgf (its lb lbf), or massAsForce: localGravity if it was adjusted with masses in this laboratory.",
    );
    if (!wantsAngle && !weighed && unitKind(given) !== unitKind(quantity.unit)) add(
      "wrong-dimension",
      calibration === undefined ? "unit" : "calibration.gives",
      `expected ${unitLike(quantity.unit)} for ${name}, found ${given} (${unitKind(given)})`,
      calibration === undefined ? "Correct the unit, or add the calibration that leads to the right one." : "Correct the unit the calibration gives.",
    );
  }
  if (channel.massAsForce !== undefined && !(isQuantity(name) && unitKind(quantities[name].unit) === "force" && unitKind(given) === "mass")) add(
    "not-a-mass",
    "massAsForce",
    `expected massAsForce on a force that is read in a unit of mass, found it on ${name} in ${given}`,
    "Remove massAsForce.",
  );
  if (calibration !== undefined) {
    mistakes.push(...checkBridge(calibration, channel.unit, [...path, "calibration"]));
    const ways = (["gain", "polynomial", "table", "sensitivity", "strainGauge"] as const).filter((way) => calibration[way] !== undefined);
    if (ways.length !== 1) add(
      "calibration-way",
      "calibration",
      `expected exactly one of gain, polynomial, table, sensitivity and strainGauge, found ${ways.length === 0 ? "none" : ways.join(" and ")}`,
      "Keep the one the certificate states.",
    );
    if (calibration.offset !== undefined && calibration.gain === undefined) add(
      "calibration-way",
      "calibration.offset",
      "expected offset beside gain only, found it without gain",
      "State the gain, or put the offset into the polynomial or table.",
    );
    if (calibration.gain === 0) add("calibration-flat", "calibration.gain", "expected a gain other than 0, found 0", "Copy the gain from the certificate.");
    const table = calibration.table ?? [];
    const fall = table.findIndex((pair, index) => index > 0 && pair[0] <= (table[index - 1] as [number, number])[0]);
    if (fall > 0) add(
      "table-not-rising",
      `calibration.table.${fall}`,
      `expected readings that rise from pair to pair, found ${table[fall]?.[0]} after ${table[fall - 1]?.[0]}`,
      "Sort the pairs by reading and keep one pair a reading.",
    );
  }
  if (channel.range !== undefined && channel.range[0] >= channel.range[1]) add(
    "range-order",
    "range",
    `expected the lower end first, found [${channel.range.join(", ")}]`,
    "Swap the two, in the unit after calibration.",
  );
  return mistakes;
}
