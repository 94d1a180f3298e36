import { each, html, raw } from "../../report/html.ts";
import { styles } from "../../report/styles.ts";
import { pageScript } from "./pageScript.ts";
import { pageStyles } from "./pageStyles.ts";
import type { View } from "./view.ts";

/** Only our own script runs, known by the number made for this one answer, and it talks to nobody but the server it came from. */
export function pagePolicy(nonce: string): string {
  return `default-src 'none'; style-src 'unsafe-inline'; img-src data:; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; script-src 'nonce-${nonce}'`;
}

/** The live page as it is when it is opened; what changes afterwards comes as events. */
export function page(view: View, instance: string, nonce: string): string {
  const part = (id: string) => html`<div id="${id}">${raw(view.parts[id] ?? "")}</div>`;
  return html`<!doctype html>
<html lang="en" data-instance="${instance}" data-n="${view.n}"><head><meta charset="utf-8"><meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark"><title>${view.title}</title><link rel="icon" href="data:,"><style>${raw(styles)}${raw(pageStyles)}</style></head>
<body><div class="live"><header>${part("top")}<p id="line" class="line" role="status">connecting</p></header>
<p id="spoken" class="sr" aria-live="assertive"></p>
<main>${part("latest")}${part("act")}${part("mistakes")}<div class="columns"><div><h2 class="sr">Runs</h2><div id="cards">${each(view.cards, ([, card]) => raw(card))}</div></div><aside aria-label="Still to run">${part("next")}${part("beside")}${part("unclaimed")}</aside></div></main></div>
<script nonce="${nonce}">${raw(pageScript)}</script></body></html>
`.html;
}
