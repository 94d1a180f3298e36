import { expect, it } from "vitest";
import { showContents } from "../../src/cli/showContents.ts";
import type { PartContents } from "../../src/importers/contract.ts";
import { numberCandidate } from "../../src/importers/timeCandidate.ts";

const names = { shown: "t", declared: "t", bare: "t" };
const inWords = (candidate: PartContents["timeCandidates"]): string => showContents({ file: "R07.h5", bytes: 9, sha256: "0", format: "HDF5", partWord: "group", metadata: [], remarks: [], parts: [{ name: "run", columns: [{ name: "t", unit: "ms", rows: 5, type: "float" }], timeCandidates: candidate, remarks: [] }] });

it("prints the intervals of what may be the time below its part", () => {
  const time = numberCandidate(names, "ms", Float64Array.of(0, 1, 2, 5, 6));
  expect(inWords(time === null ? [] : [time])).toContain(["  May be the time", "    t: rises throughout, and its unit is ms; about 1000 samples per second over 0.006 s", "      intervals: median 1 ms; 1 % to 99 %: 1 to 2.94 ms; shortest 1, longest 3 ms; no jitter", "      1 gap with 2 samples missing", '      clock: {"kind":"elapsed","column":"t","unit":"ms"}'].join("\n"));
});

it("says how a log without a time is declared", () => {
  expect(inWords([])).toContain("No column may be the time; if the log has a fixed rate, declare clock: { kind: rate");
});
