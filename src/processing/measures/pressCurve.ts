import type { Finding } from "../../core/finding.ts";
import { finding } from "../../core/finding.ts";
import type { PreparedRun } from "../preparedRun.ts";
import { contactPoint, staysFlat } from "./contactPoint.ts";
import { pairedSamples } from "./pairedSamples.ts";
import type { RecomputedCause } from "./recomputedRows.ts";

/** Force over displacement of a press, both counted from contact. */
export interface PressCurve {
  readonly timesS: readonly number[];
  /** [N], less what the sensor read before contact */
  readonly force: readonly number[];
  /** [m], from contact on */
  readonly displacement: readonly number[];
}

/** Names of the two channels of a press. */
export interface PressChannels {
  readonly force: "pressForce" | "shearForce";
  readonly displacement: "pressDisplacement" | "shearDisplacement";
}

/**
 * Channels of a press on soil or wheel.
 *
 * @source    names of the rig description
 * @checked   tests/processing/measures/pressCurve.test.ts
 */
export const normalPress: PressChannels = { force: "pressForce", displacement: "pressDisplacement" };
/**
 * Channels of a shear box or plate.
 *
 * @source    names of the rig description
 * @checked   tests/processing/shearRun.test.ts
 */
export const shearPress: PressChannels = { force: "shearForce", displacement: "shearDisplacement" };

/** A press log counted from contact. */
export interface PressReading {
  readonly curve: PressCurve;
  readonly causes: readonly RecomputedCause<PressCurve>[];
  /** whether every cause could be stated; the sentence why not */
  readonly unknownCause: string | null;
  readonly findings: readonly Finding[];
}

/**
 * What a press recorded, counted from contact, with the causes that make it doubtful: the contact, the zero of the
 * force, and the calibrations of both channels.
 *
 * Where the log begins in contact, force and displacement count from their own zeros as recorded; that is said in a
 * finding, and the contact's uncertainty is the displacement's stated offset uncertainty, or unknown. A force that stays flat is
 * rejected, and nothing read from it has an uncertainty.
 *
 * @param run        the prepared run
 * @param channels   which force [N] and displacement [m]; a shear box is read like a press, contact being where its force sets in
 * @returns          null when a channel is missing or fewer than 5 samples remain
 * @throws           UsageError when a channel has another unit
 * @source           common practice
 * @checked          tests/processing/measures/pressCurve.test.ts
 */
export function pressCurve(run: PreparedRun, channels: PressChannels): PressReading | null {
  const pairs = pairedSamples(run, { name: channels.force, unit: "N" }, { name: channels.displacement, unit: "m" });
  if (pairs === null || pairs.first.length < 5) return null;
  const contact = contactPoint(pairs.first, pairs.second);
  const from = contact?.index ?? 0;
  const forceZero = contact?.forceZero ?? 0;
  const start = contact?.displacement ?? 0;
  const curve = {
    timesS: pairs.timesS.slice(from),
    force: pairs.first.slice(from).map((value) => value - forceZero),
    displacement: pairs.second.slice(from).map((value) => value - start),
  };
  const findings: Finding[] = [];
  const contactDoubt = contact?.displacementUncertainty ?? pairs.secondDoubt?.offset ?? 0;
  const zeroDoubt = contact?.forceZeroUncertainty ?? pairs.firstDoubt?.offset ?? 0;
  const untouched = contact === null && staysFlat(pairs.first);
  if (untouched) {
    findings.push(finding("press-never-touches", "reject", "The force never rises clear of its noise: the press touched nothing, or the log ends before it did. Look whether the log is whole and the force's cable plugged in, and repeat", { channel: channels.force }));
  } else if (contact === null) {
    findings.push(finding("contact-not-recorded", "look", "The log begins in contact: force and displacement are counted from their own zeros as recorded. Start the log before the force sets in.", { channel: channels.force }));
  }
  const zeroKnown = contact !== null || (pairs.secondDoubt !== null && pairs.secondDoubt.offset > 0);
  const causes: RecomputedCause<PressCurve>[] = [
    ...shift(`contact point of ${run.plan.id}`, null, contactDoubt),
    ...shift("shape of the first contact", "shape of the first contact", contact?.shapeUncertainty ?? 0).map((cause) => ({ ...cause, shape: "rectangular" as const })),
    { cause: `zero of the force of ${run.plan.id}`, sharedBy: null, degreesOfFreedom: Infinity, move: (data, times) => ({ ...data, force: data.force.map((value) => value + times * zeroDoubt) }) },
    ...gain("force", pairs.firstDoubt),
    ...gain("displacement", pairs.secondDoubt),
  ];
  if (pairs.firstDoubt === null || pairs.secondDoubt === null) {
    findings.push(finding("calibration-doubt-not-stated", "note", "The rig description states no calibration uncertainty for force or displacement; the results carry none for it."));
  }
  return {
    curve,
    causes,
    unknownCause: untouched ? "the force never rises clear of its noise, so there is nothing to measure" : zeroKnown ? null : "the log begins in contact and no offset uncertainty of the displacement is stated, so the zero of the displacement has no known uncertainty",
    findings,
  };
}

/** The cause of a displacement counted from elsewhere. */
function shift(cause: string, sharedBy: string | null, doubt: number): RecomputedCause<PressCurve>[] {
  if (doubt === 0) return [];
  return [{ cause, sharedBy, degreesOfFreedom: Infinity, move: (data, times) => ({ ...data, displacement: data.displacement.map((value) => value + times * doubt) }) }];
}

/** The cause of one calibration: every reading of the axis scaled. */
function gain(axis: "force" | "displacement", doubt: { readonly relativeGain: number; readonly calibration: string } | null): RecomputedCause<PressCurve>[] {
  if (doubt === null || doubt.relativeGain === 0) return [];
  const cause = `calibration ${doubt.calibration}`;
  return [{ cause, sharedBy: cause, degreesOfFreedom: Infinity, move: (data, times) => ({ ...data, [axis]: data[axis].map((value) => value * (1 + times * doubt.relativeGain)) }) }];
}
