import type { Estimate } from "../core/estimate.ts";
import { convert, showUnit, unitKind } from "../core/units.ts";
import type { Unit } from "../core/units.ts";
import { expandedUncertainty } from "../processing/expandedUncertainty.ts";
import { html } from "./html.ts";
import type { Html } from "./html.ts";

/** An estimate in words, in the unit people read it in. */
export interface ShownEstimate {
  /** "0.312 ± 0.014", or "not determined" */
  readonly text: string;
  /** the unit, or "" for a pure number */
  readonly unit: string;
  /** "95 %, k = 2.20, ν = 11" or the sentence why there is no answer */
  readonly note: string;
  readonly determined: boolean;
}

/** The unit a reader expects for an SI unit: millimetres, kilopascals, degrees; a way of many metres stays in metres, one of many kilometres in kilometres. */
export function readingUnit(unit: Unit, value = 0): Unit {
  if (unit === "m" && Math.abs(value) >= 10) return Math.abs(value) >= 10_000 ? "km" : "m";
  const known: Partial<Record<Unit, Unit>> = { m: "mm", Pa: "kPa", rad: "deg", "Pa/m": "kPa/mm", "N/m": "N/mm", m2: "cm2", "m/s": "mm/s", "kg/m": "g/km", "m3/(N.m)": "mm3/(N.m)" };
  return known[unit] ?? unit;
}

/** An estimate rounded to what its expanded uncertainty allows: two figures of it, and the value to the same place. */
export function showEstimate(estimate: Estimate, unit: Unit = readingUnit(estimate.unit, estimate.value)): ShownEstimate {
  const shownUnit = unit === "1" ? "" : showUnit(unit);
  const scale = unitScale(estimate.unit, unit);
  const value = convert(estimate.value, estimate.unit, unit);
  const expanded = expandedUncertainty(estimate);
  if (expanded === null) {
    const best = Number.isFinite(value) ? `Best value ${roundSignificant(value, 2)}${shownUnit === "" ? "" : ` ${shownUnit}`}, without an uncertainty. ` : "";
    return { text: "not determined", unit: shownUnit, note: `${best}${whyNot(estimate)}`, determined: false };
  }
  const note = `95 %, k = ${expanded.k.toFixed(2)}, ν = ${showDegrees(estimate.degreesOfFreedom)}`;
  return { text: roundPair(value, expanded.half * scale), unit: shownUnit, note, determined: true };
}

/** The estimate as a table cell's content; the reason stands in the open, not only in a tooltip. */
export function estimateCell(estimate: Estimate, unit?: Unit): Html {
  const shown = showEstimate(estimate, unit);
  if (!shown.determined) return html`<span class="nd">not determined</span> <small>${shown.note}</small>`;
  return html`<span class="num" title="${shown.note}">${shown.text}${shown.unit === "" ? "" : ` ${shown.unit}`}</span>`;
}

/** Value and expanded uncertainty to the same decimal place; a power of ten stands outside when the place is above the units. */
export function roundPair(value: number, half: number): string {
  if (half === 0) return `${roundSignificant(value, 6)} ± 0`;
  // Rounding first decides the place: 0.0996 becomes 0.10, one place earlier than its own exponent says.
  const exponent = Math.floor(Math.log10(Number(half.toPrecision(2))));
  const place = exponent - 1;
  if (place > 0 || place < -7) {
    const power = Math.max(Math.floor(Math.log10(Math.max(Math.abs(value), half))), exponent);
    const decimals = Math.max(0, power - place);
    return `(${minus((value / 10 ** power).toFixed(decimals))} ± ${(half / 10 ** power).toFixed(decimals)})·10${superscript(power)}`;
  }
  return `${minus(value.toFixed(-place))} ± ${half.toFixed(-place)}`;
}

/** A number to so many figures, in plain notation where that stays short. */
export function roundSignificant(value: number, figures: number): string {
  if (!Number.isFinite(value)) return "–";
  if (value === 0) return "0";
  const rounded = Number(value.toPrecision(figures));
  const exponent = Math.floor(Math.log10(Math.abs(rounded)));
  if (exponent >= 6 || exponent < -5) return `${minus((rounded / 10 ** exponent).toFixed(figures - 1))}·10${superscript(exponent)}`;
  return minus(rounded.toFixed(Math.max(0, figures - 1 - exponent)));
}

export function showDegrees(degreesOfFreedom: number): string {
  if (degreesOfFreedom === Number.POSITIVE_INFINITY || degreesOfFreedom > 9999) return "∞";
  return degreesOfFreedom >= 10 ? degreesOfFreedom.toFixed(0) : degreesOfFreedom.toFixed(1).replace(/\.0$/, "");
}

/** Multiplier between two units of one kind, for differences (an uncertainty has no zero point). */
export function unitScale(from: Unit, to: Unit): number {
  if (unitKind(from) === "temperature") return 1;
  return convert(1, from, to) - convert(0, from, to);
}

function whyNot(estimate: Estimate): string {
  if (estimate.standardUncertainty !== null && Number.isFinite(estimate.value)) return `No degrees of freedom stand behind the uncertainty. ${estimate.method}`;
  return estimate.method === "" ? "No reason was recorded." : estimate.method;
}

function minus(text: string): string {
  return text.replace("-", "−");
}

function superscript(power: number): string {
  return [...String(power)].map((digit) => "⁰¹²³⁴⁵⁶⁷⁸⁹"[Number(digit)] ?? "⁻").join("");
}
