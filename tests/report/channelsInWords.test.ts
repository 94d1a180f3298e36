import { expect, test } from "vitest";
import { quantities } from "../../src/campaign/quantities.ts";
import { channelsInWords } from "../../src/report/channelsInWords.ts";

test.each([
  ["bridge3 is cut off at its top", "Bridge 3 (channel bridge3) is cut off at its top"],
  ["No logger records hubAcceleration; without hubAcceleration no drop", "No logger records hub acceleration (channel hubAcceleration); without hub acceleration no drop"],
  ["A line stands in wheelTorque and drawbarPull", "A line stands in wheel torque (channel wheelTorque) and drawbar pull (channel drawbarPull)"],
  ["stood at another tilt; look at temperature and sync", "stood at another tilt; look at temperature and sync"],
  ["bridge31, my_bridge3 and wheelTorques are no channels of ours", "bridge31, my_bridge3 and wheelTorques are no channels of ours"],
  ["", ""],
])("%s", (message, words) => expect(channelsInWords(message)).toBe(words));

test("a channel's words are said of every key that is no word", () => {
  for (const [name, { label }] of Object.entries(quantities)) expect(channelsInWords(name)).toBe(/[A-Z0-9]/.test(name) ? `${label} (channel ${name})` : name);
});
