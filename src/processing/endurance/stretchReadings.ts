import type { Channel } from "../../core/recording.ts";
import type { Unit } from "../../core/units.ts";
import { addSums, noSums } from "../conditioning/wheelTicks.ts";
import type { TickSums } from "../conditioning/wheelTicks.ts";
import type { Reading } from "../measures/reading.ts";
import { doubtRows } from "../rolling.ts";
import type { EnduranceLog } from "./enduranceLog.ts";

/** What a long log gives, stretch by stretch: a stretch stands where another run has a revolution. */
export interface StretchReadings {
  /** path travelled to the middle of each stretch [m], and mean time [s] */
  readonly atM: readonly number[];
  readonly atS: readonly number[];
  /** along the wheel's rolling */
  readonly speed: Reading<"m/s">;
  readonly turning: Reading<"rad/s">;
  /** mean of a channel; null when it was not recorded. `along`: counted along the wheel's rolling, so that a drive back does not cancel a drive out */
  mean<U extends Unit>(name: string, unit: U, along: boolean): Reading<U> | null;
  /** standard deviation of a channel within a stretch */
  ripple<U extends Unit>(name: string, unit: U): Reading<U> | null;
  /** work of a torque over the angle, or of a force over the path, of the whole run [J] */
  work(name: string, over: "byAngle" | "byPath"): Reading<"J"> | null;
}

export function stretchReadings(log: EnduranceLog, run: string): StretchReadings {
  const { whole, total } = log.rolled;
  const all = noSums(log.names.length);
  for (const { sums } of whole) addSums(all, sums);
  const meanS = (sums: TickSums): number => sums.momentS2 / sums.runningS;
  const channelOf = (name: string): Channel | undefined => log.ends.channels.find((channel) => channel.name === name);
  const zero = (name: string, sums: TickSums): number => log.zeroLines.get(name)?.(meanS(sums)) ?? 0;

  function reading<U extends Unit>(name: string, unit: U, of: (sums: TickSums) => number, withOffset: boolean): Reading<U> {
    const channel = channelOf(name);
    const value = of(all);
    return { unit, value, perRevolution: whole.map(({ sums }) => of(sums)), rows: channel === undefined ? [] : doubtRows(channel, value, run, withOffset) };
  }

  return {
    atM: whole.map(({ sums, fromM }) => fromM + sums.travelledM / 2),
    atS: whole.map(({ sums }) => meanS(sums)),
    speed: reading("carriagePosition", "m/s", (sums) => sums.travelledM / sums.runningS, false),
    turning: reading("wheelAngle", "rad/s", (sums) => sums.turnedRad / sums.runningS, false),
    mean(name, unit, along) {
      const index = log.names.indexOf(name);
      if (index < 0) return null;
      return reading(name, unit, (sums) => ((sums[along ? "along" : "integrals"][index] as number) + zero(name, sums) * (along ? sums.directionS : sums.runningS)) / sums.runningS, true);
    },
    ripple(name, unit) {
      const index = log.names.indexOf(name);
      if (index < 0) return null;
      // Forces along the rolling change their sign with the direction, and that is no scatter.
      const way = name === "verticalLoad" ? "integrals" : "along";
      const within = (sums: TickSums): number => Math.sqrt(Math.max(0, (sums.squares[index] as number) / sums.runningS - ((sums[way][index] as number) / sums.runningS) ** 2));
      const perRevolution = whole.map(({ sums }) => within(sums));
      const value = Math.sqrt(perRevolution.reduce((sum, sd) => sum + sd * sd, 0) / perRevolution.length);
      const channel = channelOf(name);
      return { unit, value, perRevolution, rows: channel === undefined ? [] : doubtRows(channel, value, run, false) };
    },
    work(name, over) {
      const index = log.names.indexOf(name);
      if (index < 0) return null;
      const way = over === "byAngle" ? "signedRad" : "signedM";
      const rest = total[way] - all[way];
      const zeros = whole.reduce((sum, { sums }) => sum + zero(name, sums) * sums[way], 0) + zero(name, total) * rest;
      const value = (total[over][index] as number) + zeros;
      const channel = channelOf(name);
      const rows = channel === undefined ? [] : doubtRows({ ...channel, doubt: channel.doubt === null ? null : { ...channel.doubt, offset: channel.doubt.offset * total[way] } }, value, run, true);
      return { unit: "J", value, perRevolution: [], rows };
    },
  };
}
