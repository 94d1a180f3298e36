import { expect, test } from "vitest";
import type { RunPlan } from "../../src/campaign/campaign.ts";
import { finding } from "../../src/core/finding.ts";
import { judge, reduceRun } from "../../src/processing/reduceRun.ts";
import { rigWith, wheel } from "./recordings.ts";

const plan: RunPlan = { id: "R1", sheetId: "R1", kind: "traction", wheel: "W1", bed: "B1", setLoadN: 60, setSlip: 0.2, setSpeedMps: null, repeat: null, pass: null, block: null, dropHeightM: null, plate: null, shearAreaM2: null, normalStressPa: null, contactAngleRad: null, obstacle: null, footprint: null, remark: "", excluded: null, line: 2, more: {} };
const noReferences = { rollingRadii: [], drags: [], deflections: [] };

test("a fault of the program itself costs its run, not the day, and is called what it is", async () => {
  const result = await reduceRun(plan, wheel, rigWith(), noReferences, () => {
    throw new RangeError("made to fail");
  });
  expect(result.verdict).toBe("unread");
  expect(result.issues).toMatchObject([{ code: "own-fault", at: "run R1", message: expect.stringContaining("made to fail") }]);
});

test("the verdict follows the worst finding, a person's exclusion comes first, wrong input before findings", () => {
  const look = finding("a", "look", "look at it");
  const reject = finding("b", "reject", "repeat it");
  const issue = { code: "c", at: "logs/R1.csv", message: "expected x, found y", hint: "Mend it" };
  expect(judge(plan, [], [])).toEqual({ verdict: "go", reasons: [] });
  expect(judge(plan, [finding("n", "note", "noted")], []).verdict).toBe("go");
  expect(judge(plan, [look, reject], [])).toEqual({ verdict: "repeat", reasons: ["repeat it", "look at it"] });
  expect(judge(plan, [reject], [issue]).verdict).toBe("unread");
  expect(judge({ ...plan, excluded: "a tool fell in" }, [reject], [issue])).toMatchObject({ verdict: "excluded", reasons: ["a tool fell in", expect.any(String), "repeat it"] });
});
