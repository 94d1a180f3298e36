import { describe, expect, it } from "vitest";
import { anchor, embedJson, escapeText, html, raw } from "../../src/report/html.ts";

describe("html", () => {
  it("escapes every inserted text and leaves finished HTML alone", () => {
    expect(html`<p title="${'"x'}">${"<b>&'"}${raw("<i>")}${null}${false}${[html`<u>`, "<"]}${3}</p>`.html).toBe('<p title="&quot;x">&lt;b&gt;&amp;&#39;<i><u>&lt;3</p>');
  });
  it("shows control characters as the replacement mark", () => {
    expect(escapeText("a\u0000b\u001b")).toBe("a\ufffdb\ufffd");
  });
  it("makes anchors that differ whenever the texts differ", () => {
    const texts = ["a b", "a_b", "a_20_b", "a-b", "ä", "<", "", "A b"];
    expect(new Set(texts.map((text) => anchor("run", text))).size).toBe(texts.length);
    for (const text of texts) expect(anchor("run", text)).toMatch(/^run-[A-Za-z0-9_-]*$/);
  });
  it("embeds JSON that cannot end its script element and reads back the same", () => {
    const value = { name: "</script><!-- <script> & \u2028\u2029" };
    const text = embedJson(value).html;
    expect(text).not.toMatch(/[<>&\u2028\u2029]/);
    expect(JSON.parse(text)).toEqual(value);
  });
});
