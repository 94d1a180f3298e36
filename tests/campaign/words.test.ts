import { describe, expect, it } from "vitest";
import { logPath } from "../../src/campaign/logPath.ts";
import { editDistance, list, nearest, show } from "../../src/campaign/nearest.ts";

describe("editDistance", () => {
  it.each([
    ["kitten", "sitting", 3],
    ["wheel", "wheel", 0],
    ["", "abc", 3],
    ["weel", "wheel", 1],
    ["knid", "kind", 1],
  ])("%s → %s = %i", (a, b, distance) => expect([editDistance(a, b), editDistance(b, a)]).toEqual([distance, distance]));
});

describe("nearest", () => {
  it("ignores capitals, spaces and hyphens", () => expect(nearest("Hub_height", ["hubHeight", "tilt"])).toBe("hubHeight"));
  it("prefers the nearer", () => expect(nearest("bridge7x", ["bridge1", "bridge7"])).toBe("bridge7"));
  it("keeps quiet when nothing is near", () => expect(nearest("operator", ["run", "kind"])).toBeNull());
  it("does not take one short word for another", () => expect(nearest("N", ["m", "s"])).toBeNull());
});

describe("show and list", () => {
  it("cut what is long", () => {
    expect(show("x".repeat(100))).toBe(`"${"x".repeat(60)}…"`);
    expect(list(["a", "b", "c"], 2)).toBe("a, b … (3 in all)");
  });
  it("say nothing for nothing", () => expect([show(undefined), show(""), show([1, 2])]).toEqual(["nothing", "nothing", "a list of 2"]));
});

describe("logPath", () => {
  it("fills the id in, as it is", () => {
    expect(logPath({ files: "logs/{run}/{run}_a.txt" }, "T01")).toBe("logs/T01/T01_a.txt");
    expect(logPath({ files: "{run}.txt" }, "$&")).toBe("$&.txt");
  });
});
