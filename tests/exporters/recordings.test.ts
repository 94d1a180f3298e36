import { execFileSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { DuckDBInstance } from "@duckdb/node-api";
import { tableFromIPC } from "apache-arrow";
import { afterAll, describe, expect, it } from "vitest";
import { recordingArrow } from "../../src/exporters/recordingArrow.ts";
import { recordingCsv } from "../../src/exporters/recordingCsv.ts";
import { recordingParquet } from "../../src/exporters/recordingParquet.ts";
import { made, readBack, times, wholeProvenance } from "./samples.ts";

const folder = mkdtempSync(join(tmpdir(), "drawbar-export-"));
afterAll(() => rmSync(folder, { recursive: true }));

const about = [["run", "R07"]] as const;
const [pull, torque] = made.channels.map(({ samples }) => [...samples]);

const ways = [["CSV", recordingCsv], ["Arrow IPC", recordingArrow], ["Parquet", recordingParquet]] as const;

describe.each(ways)("%s", (_, write) => {
  it("comes back through drawbar's own reader, to the last bit, with units and provenance", async () => {
    const table = await readBack(await write(made, about));
    expect([...table.timesS]).toEqual(times);
    expect(table.columns.map(({ name, unit, samples }) => [name, unit, [...samples]])).toEqual([["drawbarPull", "N", pull], ["wheelTorque", "N.m", torque]]);
    const found = new Map(table.metadata);
    for (const [key, value] of wholeProvenance) expect([key, found.get(key)]).toEqual([key, value]);
  });

  it("is the same bytes every time", async () => {
    expect(await write(made, about)).toEqual(await write(made, about));
  });

  it("gives way to a channel that is itself called time", async () => {
    const [first] = made.channels;
    const table = await readBack(await write({ ...made, channels: [...made.channels, { ...(first as (typeof made.channels)[0]), name: "time" }] }, about), "runTime");
    expect([...table.timesS]).toEqual(times);
    expect(table.metadata).toContainEqual(["time", "column runTime in s on the clock that all recordings of a run share"]);
  });
});

describe("other programs read", () => {
  it("the CSV: pandas, to the last bit", () => {
    const path = join(folder, "run.csv");
    writeFileSync(path, recordingCsv(made, about));
    const script = `import json, math, pandas
frame = pandas.read_csv(${JSON.stringify(path)}, comment="#", float_precision="round_trip")
print(json.dumps({name: [None if math.isnan(value) else value for value in frame[name]] for name in frame.columns}))`;
    // Debian's own Python, which carries pandas.
    const frame = JSON.parse(execFileSync("/usr/bin/python3", ["-c", script], { encoding: "utf8" })) as Record<string, (number | null)[]>;
    expect(Object.keys(frame)).toEqual(["time [s]", "drawbarPull [N]", "wheelTorque [N.m]"]);
    expect(frame["time [s]"]?.map(missing)).toEqual(times);
    expect(frame["drawbarPull [N]"]?.map(missing)).toEqual(pull);
    expect(frame["wheelTorque [N.m]"]?.map(missing)).toEqual(torque);
  }, 30_000);

  it("the Parquet: DuckDB, to the last bit, with its keys", async () => {
    const path = join(folder, "run.parquet");
    writeFileSync(path, await recordingParquet(made, about));
    const connection = await (await DuckDBInstance.create(":memory:")).connect();
    const rows = await connection.runAndReadAll(`select time, drawbarPull, wheelTorque from read_parquet('${path}')`);
    expect(rows.getColumns()).toEqual([times, pull, torque]);
    const keys = await connection.runAndReadAll(`select decode(key) as key, decode(value) as value from parquet_kv_metadata('${path}')`);
    expect(keys.getRows()).toContainEqual(["unit of wheelTorque", "N.m"]);
    expect(keys.getRows()).toContainEqual(["source 1", "logs/R07.txt"]);
  }, 30_000);

  it("the Arrow file: the Arrow library, with units in the fields and provenance in the schema", async () => {
    const table = tableFromIPC(await recordingArrow(made, about));
    expect(table.schema.fields.map((field) => [field.name, String(field.type), field.metadata.get("unit")])).toEqual([["time", "Float64", "s"], ["drawbarPull", "Float64", "N"], ["wheelTorque", "Float64", "N.m"]]);
    expect(table.schema.metadata.get("source 1")).toBe("logs/R07.txt");
    expect([...(table.getChild("wheelTorque")?.toArray() as Float64Array)]).toEqual(torque);
  });
});

describe("hostile names", () => {
  it("stay in their cell and on their line", () => {
    const [first] = made.channels;
    const text = new TextDecoder().decode(recordingCsv({ ...made, channels: [{ ...(first as (typeof made.channels)[0]), name: 'a,"b"' }] }, [["run", "R07\n1,2,3"]]));
    expect(text).toContain('time [s],"a,""b"" [N]"\n');
    expect(text).toContain("# run: R07 1,2,3\n");
  });
});

const missing = (value: number | null): number => value ?? Number.NaN;
