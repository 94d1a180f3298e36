import type { RunPlan } from "../campaign/campaign.ts";
import { quantities } from "../campaign/quantities.ts";
import type { RunKind } from "../campaign/rigSchema.ts";
import type { Severity } from "../core/finding.ts";
import type { Verdict } from "../core/fit.ts";
import { showUnit } from "../core/units.ts";
import type { FreeColumns } from "../campaign/campaign.ts";
import type { RunVerdict } from "../processing/dayResult.ts";
import { html } from "./html.ts";
import type { Html } from "./html.ts";

/** How a verdict is said: a sign, a word and what it asks for; colour only helps. Worst first. */
export const verdictWords: Readonly<Record<RunVerdict, { readonly sign: string; readonly word: string; readonly asks: string }>> = {
  repeat: { sign: "↻", word: "Repeat", asks: "run it again while the bed is there" },
  unread: { sign: "×", word: "Unread", asks: "mend the input, then reduce again" },
  look: { sign: "?", word: "Look", asks: "a person looks before it is used" },
  excluded: { sign: "–", word: "Excluded", asks: "left out by a person" },
  go: { sign: "✓", word: "Go", asks: "use it" },
};

export const verdictOrder = Object.keys(verdictWords) as RunVerdict[];

export const kindWords: Readonly<Record<RunKind, string>> = {
  traction: "Traction",
  hardFloor: "Hard floor",
  freeSpin: "Free spin",
  plate: "Plate",
  shear: "Shear",
  drop: "Drop",
  loadDeflection: "Load–deflection",
  sweep: "Slip sweep",
  obstacle: "Obstacle",
  footprint: "Footprint",
  endurance: "Endurance",
};

/** The kind of a run in words; a kind that was not understood says so. */
export function kindWord(kind: RunKind | null): string {
  return kind === null ? "Kind not understood" : kindWords[kind];
}

export const severityWords: Readonly<Record<Severity, string>> = { reject: "Reject", look: "Look", note: "Note" };

export const fitVerdictWords: Readonly<Record<Verdict, string>> = { determined: "determined", atLimit: "at a limit", undetermined: "not determined" };

export function verdictBadge(verdict: RunVerdict): Html {
  const { sign, word } = verdictWords[verdict];
  return html`<span class="badge v-${verdict}"><b aria-hidden="true">${sign}</b> ${word}</span>`;
}

export function severityBadge(severity: Severity): Html {
  return html`<span class="badge f-${severity}">${severityWords[severity]}</span>`;
}

/** The verdict of a fit and its sentence. */
export function fitVerdict(verdict: Verdict, sentence: string): Html {
  return html`<p class="fitline"><span class="badge t-${verdict}">${fitVerdictWords[verdict]}</span> ${sentence}</p>`;
}

/** A number that people set, as they wrote it: no more than six figures, no trailing zeros. */
export function plainNumber(value: number): string {
  return String(Number(value.toPrecision(6))).replace("-", "−");
}

/** What the run was meant to be: "60 N, slip 20 %, 50 mm/s". */
export function setPoints(plan: RunPlan): string {
  const parts: string[] = [];
  if (plan.setLoadN !== null) parts.push(`${plainNumber(plan.setLoadN)} N`);
  if (plan.setSlip !== null) parts.push(`slip ${plainNumber(plan.setSlip * 100)} %`);
  if (plan.setSpeedMps !== null) parts.push(`${plainNumber(plan.setSpeedMps * 1000)} mm/s`);
  if (plan.dropHeightM !== null) parts.push(`from ${plainNumber(plan.dropHeightM * 1000)} mm`);
  if (plan.plate !== null) parts.push(plan.plate.shape === "circle" ? `circle ⌀ ${plainNumber(plan.plate.widthM * 1000)} mm` : `rectangle ${plainNumber(plan.plate.widthM * 1000)} × ${plainNumber(plan.plate.lengthM * 1000)} mm`);
  if (plan.normalStressPa !== null) parts.push(`${plainNumber(plan.normalStressPa / 1000)} kPa`);
  if (plan.obstacle !== null) parts.push(`${plan.obstacle.edge === "rock" ? "rock" : `${plan.obstacle.edge} step`} of ${plainNumber(plan.obstacle.heightM * 1000)} mm`);
  if (plan.footprint !== null) parts.push(`on ${plan.footprint.ground === "flat" ? "flat ground" : `a ${plan.footprint.ground}`}, by ${plan.footprint.from}`);
  if (plan.contactAngleRad !== null) parts.push(`contact at ${plainNumber((plan.contactAngleRad * 180) / Math.PI)}°`);
  if (plan.pass !== null) parts.push(`pass ${plan.pass}`);
  if (plan.repeat !== null) parts.push(`repeat ${plan.repeat}`);
  return parts.join(", ");
}

/** Kind, wheel, bed and set points in one line. */
export function condition(plan: RunPlan): string {
  const place = [plan.wheel === null ? "" : `wheel ${plan.wheel}`, plan.bed === null ? "" : `bed ${plan.bed}`].filter((part) => part !== "");
  return [kindWord(plan.kind), ...place, setPoints(plan)].filter((part) => part !== "").join(" · ");
}

/** A camelCase name as words: "sinkageExponent" → "sinkage exponent". */
export function plainWords(name: string): string {
  return name.replace(/([a-z])([A-Z0-9])/g, (_, before: string, after: string) => `${before} ${after.toLowerCase()}`);
}

const namesInText = new RegExp(`\\b(${[...Object.keys(quantities), ...Object.keys(kindWords)].join("|")})\\b`, "g");

/** Text with drawbar's own names of quantities and kinds in words; what people wrote, ids above all, stays as it is. */
export function namesInWords(text: string): string {
  const words = text.replace(namesInText, (name) => (name in kindWords ? kindWords[name as RunKind] : quantities[name as keyof typeof quantities].label).toLowerCase());
  // A channel's own statement names the channel already.
  return words.replace(/statement for ([^,]+), \1$/, "statement for $1");
}

export function freeColumns(columns: FreeColumns): string {
  return Object.entries(columns)
    .map(([name, cell]) => `${name} ${"text" in cell ? cell.text : `${plainNumber(cell.value)} ${cell.unit === "1" ? "" : showUnit(cell.unit)}`.trim()}`)
    .join("; ");
}
