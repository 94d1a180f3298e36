import { describe, expect, it } from "vitest";
import type { ClockFormat, ReadOptions } from "../../../src/importers/contract.ts";
import { mcap } from "../../../src/importers/mcap/mcap.ts";
import { expectTruth, formatFile, readFormat, refusalOf, truth } from "../formatTruth.ts";

const message = (stamp: "header" | "log" | "publish", epoch: "unix" | "boot" = "unix"): ClockFormat => ({ kind: "message", stamp, epoch });
const wrench: Partial<ReadOptions> = { columns: ["wrench.force.x", "wrench.force.z"], clock: message("header") };

describe("MCAP", () => {
  it("reads ROS 2 wrenches by the stamps of their headers", async () => {
    const table = await readFormat("mcap/log.mcap", wrench);
    expectTruth(table, ["Fx", "Fz"]);
    expect(table.startedAt).toBe("2026-10-01T08:00:00.000Z");
    expect(table.source.format).toBe("MCAP; zstd");
    expect(table.metadata).toContainEqual(["session.run", "R07"]);
    expect(table.evidence[1]).toContain('topic "/sensor/wrench"');
  });

  it("goes by the clock that is declared", async () => {
    const log = await readFormat("mcap/log.mcap", { ...wrench, clock: message("log") });
    expect(log.startedAt).toBe("2026-10-01T08:00:00.002Z");
    expect([...log.timesS]).toEqual(truth.t.map((_, i) => (i * 10_000_000 + (i % 3) * 250_000) / 1e9));
    const publish = await readFormat("mcap/log.mcap", { ...wrench, clock: message("publish") });
    expect(publish.startedAt).toBe("2026-10-01T08:00:00.001Z");
    expectTruth(publish, ["Fx", "Fz"]);
    const boot = await readFormat("mcap/boot.mcap", { ...wrench, clock: message("log", "boot") });
    expect(boot.startedAt).toBeNull();
  });

  it("does not take a clock for what it is not", async () => {
    expect(await refusalOf("mcap/boot.mcap", wrench)).toMatchObject([{ code: "not-unix-time", message: expect.stringContaining("found 5 s in the first message"), hint: expect.stringContaining("epoch: boot") }]);
    expect(await refusalOf("mcap/log.mcap", { part: "/joint_states", columns: ["effort.wheel"], clock: message("header") })).toMatchObject([{ code: "idle-stamp", message: expect.stringContaining("all of them zero") }]);
    expect(await refusalOf("mcap/log.mcap", { part: "/encoder", columns: ["data"], clock: message("header") })).toMatchObject([{ code: "no-such-stamp", message: 'expected a header stamp in every message of "/encoder", found only log and publish stamps' }]);
  });

  it("reads joints by their names wherever they stand, inertial units, counts and JSON", async () => {
    const joints = await readFormat("mcap/log.mcap", { columns: ["position.wheel", "position.steer"], clock: message("publish") });
    expect(joints.columns.map(({ samples }) => [...samples])).toEqual([truth.Enc, truth.Enc.map(() => -1)]);
    const imu = await readFormat("mcap/log.mcap", { part: "imu", columns: ["linear_acceleration.z", "angular_velocity.y", "orientation_covariance[4]"], clock: message("header") });
    expect(imu.columns.map(({ samples }) => [...samples])).toEqual([truth.Fz, truth.t.map((_, i) => i), truth.t.map(() => 0)]);
    expect(imu.columns.map(({ unit }) => unit)).toEqual([null, null, null]);
    const count = await readFormat("mcap/log.mcap", { part: "/encoder", columns: ["data"], clock: message("log") });
    expect([...(count.columns[0]?.samples ?? [])]).toEqual(truth.Enc);
    const json = await readFormat("mcap/log.mcap", { columns: ["Fx", "/bench.Fz"], clock: message("header") });
    expectTruth(json, ["Fx", "Fz"]);
    expectTruth(await readFormat("mcap/log.mcap", { part: "/bench", columns: ["Fx", "Fz"] }), ["Fx", "Fz"]);
  });

  it("names the message of a text among numbers, and refuses what it cannot decode", async () => {
    expect((await refusalOf("mcap/log.mcap", { part: "/bench", columns: ["state"] }))[0]).toMatchObject({ at: 'logs/R07 message 1 of /bench, column "state"', message: 'expected a number, found "run"' });
    expect(await refusalOf("mcap/log.mcap", { part: "/picture", columns: ["message"], clock: message("log") })).toMatchObject([{ code: "unreadable-column", message: expect.stringContaining("messages encoded as protobuf with a schema of protobuf, which drawbar does not decode") }]);
    expect(await refusalOf("mcap/log.mcap", { columns: ["Fx", "wrench.force.x"], clock: message("log") })).toMatchObject([{ code: "columns-of-two-parts", message: expect.stringContaining("expected all columns in one topic") }]);
    expect(await refusalOf("mcap/log.mcap", { part: "/nothing", columns: ["x"], clock: message("log") })).toMatchObject([{ code: "missing-part", message: expect.stringContaining('"/sensor/wrench", "/joint_states"') }]);
  });

  it("reads what was recorded before the power failed, and says so", async () => {
    const whole = formatFile("mcap/log.mcap");
    const table = await readFormat(whole.slice(0, 30_000), wrench);
    expect(table.timesS.length).toBeGreaterThan(20);
    expect([...table.timesS]).toEqual(truth.t.slice(0, table.timesS.length));
    expect(table.findings).toMatchObject([{ code: "cut-file", severity: "look" }]);
  });

  it("says what is inside", async () => {
    const contents = await mcap.contents?.(formatFile("mcap/log.mcap"), "log.mcap");
    expect(contents?.parts.map(({ name, remarks }) => [name, remarks.at(-1)])).toEqual([
      ["/sensor/wrench", "stamps: header, log, publish"],
      ["/joint_states", "stamps: header, log, publish"],
      ["/imu", "stamps: header, log, publish"],
      ["/encoder", "stamps: log, publish"],
      ["/bench", "stamps: header, log, publish"],
      ["/picture", "stamps: log, publish"],
    ]);
    expect(contents?.parts[0]?.columns).toContainEqual({ name: "wrench.force.x", unit: null, rows: 200, type: "number" });
  });
});
