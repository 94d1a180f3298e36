import { describe, expect, it } from "vitest";
import { InputError } from "../../src/core/errors.ts";
import { readCampaign } from "../../src/campaign/readCampaign.ts";
import { withDay } from "./exampleDay.ts";
it("t", () => {
  const c = withDay({}, readCampaign);
  console.log(JSON.stringify(c.runs, null, 0), JSON.stringify(c.issues), JSON.stringify(c.wheels), c.beds, c.cones, c.files);
});
