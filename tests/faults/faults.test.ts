import { existsSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { preflightQuestions, ruledOut } from "../../src/campaign/preflight.ts";
import { cleanDays, falseAlarms, runFault } from "../../scripts/faults/bench.ts";
import { faults } from "../../scripts/faults/registry.ts";

const days = cleanDays();

describe("the fault bench, small", () => {
  test.each(faults.map((fault) => [`${fault.number} ${fault.title}`, fault] as const))("%s", async (_, fault) => {
    const { strengths } = await runFault(fault, [11], days, [1, 2]);
    const [medium, strong] = strengths;
    expect(medium?.misled, "medium: the number is wrong by more than it admits and nothing says so").toBe(0);
    expect(strong?.caught, `caught by one of ${fault.caughtBy.join(", ")}`).toBe(1);
    // The strong strength must matter: the number is wrong by more than it admits, or is not given any more.
    if (strong !== undefined && strong.shift !== null) expect(strong.shift.ofClean).toBeGreaterThan(1);
  });

  test("clean days raise no alarm", async () => {
    // the first of the bench's own; elsewhere a bed may truly lie a tenth off its target
    const { byCode } = await falseAlarms(8, 1001);
    expect(Object.fromEntries(byCode)).toEqual({});
  });

  test("every fault names what catches it, in rising strengths", () => {
    for (const fault of faults) {
      expect(fault.caughtBy.length).toBeGreaterThan(0);
      expect(new Set(fault.strengths.map((strength) => strength.says)).size).toBe(3);
    }
    expect(faults.map((fault) => fault.title)).toEqual([...new Set(faults.map((fault) => fault.title))]);
  });

  test("each of the 54 is caught, ruled out or asked", () => {
    const known = new Set([...faults.map((fault) => fault.number), ...ruledOut.map(({ pitfall }) => pitfall), ...preflightQuestions.flatMap(({ pitfalls }) => pitfalls)]);
    expect(Array.from({ length: 54 }, (_, i) => i + 1).filter((number) => !known.has(number))).toEqual([]);
  });

  test("what proves a pitfall ruled out exists", () => {
    for (const { proof } of ruledOut) expect(existsSync(proof), proof).toBe(true);
  });
});
