import { describe, expect, test } from "vitest";
import type { Finding } from "../../../src/core/finding.ts";
import { dropBand } from "../../../src/processing/checks/dropBand.ts";
import { dropEvents } from "../../../src/processing/conditioning/dropEvents.ts";
import { dropSignal } from "../../../src/processing/conditioning/dropSignal.ts";
import { shapedDrop } from "../shapedDrop.ts";

/** The check on a drop of 10 ms contacts, with ringing of one frequency [Hz] and size [m/s²] added to the first 10 ms of each. */
function found(rateHz: number, ringHz: number, size: number): Finding[] {
  const run = shapedDrop({ rateHz });
  const { signal } = dropSignal(run);
  if (signal === null) throw new Error("no signal");
  const { events } = dropEvents(signal);
  if (events === null) throw new Error("no events");
  const touchS = events.contacts[0]?.from.timeS ?? 0;
  const acceleration = signal.acceleration.map((value, i) => value + (Math.abs((signal.timesS[i] as number) - touchS - 0.005) < 0.005 ? size * Math.sin(2 * Math.PI * ringHz * (signal.timesS[i] as number)) : 0));
  return dropBand({ ...signal, acceleration }, events, run.rig.tolerances.dropBand);
}

describe("the upper third of the sampled band", () => {
  test("holds next to nothing of a clean blow", () => expect(found(20000, 0, 0)).toEqual([]));
  test("ringing above half the rate folds into it and is found; far below, it is the blow's own", () => {
    // 11.3 kHz sampled at 20 kHz shows at 8.7 kHz
    expect(found(20000, 11300, 30)).toMatchObject([{ code: "drop-unfiltered", severity: "look", channel: "hubAcceleration" }]);
    expect(found(20000, 11300, 300)).toMatchObject([{ severity: "reject" }]);
    expect(found(20000, 2000, 30)).toEqual([]);
  });
});
