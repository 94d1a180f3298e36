import { describe, expect, it } from "vitest";
import { judge } from "../../scripts/fuzz/judge.ts";
import { trialOf } from "../../scripts/fuzz/target.ts";
import { targetNamed, targets } from "../../scripts/fuzz/targets.ts";
import { InputError } from "../../src/core/errors.ts";

const trials = 3;
const place = /^(logs\/|rig\.yaml|(runs|wheels|beds|cones)\.(csv|xlsx)|run )/;

describe("a few spoilt files of every reader; npm run fuzz tries very many", () => {
  for (const target of targets) {
    it(target.name, async () => {
      for (let seed = 1; seed <= trials; seed++) {
        const { sample, how, bytes } = await trialOf(target, seed);
        const verdict = await judge(() => sample.read(bytes), place);
        expect(verdict.kind, `seed ${seed}, ${sample.name}: ${how}: ${verdict.what}`).not.toBe("failure");
      }
    });
  }
});

it("a long table made wide stays small enough to be tried", async () => {
  const { how, bytes } = await trialOf(targetNamed("records"), 1_000_255);
  expect(how).toBe("100,000 lines, 100,000 columns");
  expect(bytes.length).toBeLessThan(2e7);
});

describe("the judge", () => {
  const verdict = (error: unknown) => judge(() => Promise.reject(error), place);
  const issue = { code: "a", at: "rig.yaml line 1", message: "expected a, found b", hint: "Write a" };

  it("takes a value and a refusal with a place", async () => {
    expect((await judge(() => Promise.resolve(), place)).kind).toBe("read");
    expect((await verdict(new InputError([issue]))).kind).toBe("refused");
  });

  it("takes no other error, no refusal without a place, a hint or an end", async () => {
    for (const wrong of [new TypeError("x is undefined"), "text", new InputError([]), new InputError([{ ...issue, at: "" }]), new InputError([{ ...issue, hint: "" }]), new InputError(Array.from({ length: 6000 }, () => issue))]) expect((await verdict(wrong)).kind).toBe("failure");
  });
});
