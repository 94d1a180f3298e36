import { conversion, showUnit } from "../../core/units.ts";
import type { RunResult, Trace } from "../../processing/dayResult.ts";
import { embedJson, html } from "../html.ts";
import type { Html } from "../html.ts";
import { readingUnit } from "../showEstimate.ts";

const steps = 65534;
/** the step that stands for "missing" */
const missing = 65535;

/** Where a run's traces are drawn when its part is opened, and their numbers as inert JSON. */
export function traceBlock(run: RunResult): Html {
  if (run.traces.length === 0) return html`<p class="none">No traces: nothing of this run could be read.</p>`;
  const packed = {
    traces: run.traces.map(packTrace),
    shades: run.segments.map((segment) => ({ kind: segment.kind, from: segment.fromS, to: segment.toS })),
    events: run.findings.flatMap((finding) =>
      finding.fromS === null ? [] : [{ at: finding.fromS, to: finding.toS, severity: finding.severity, channel: finding.channel, label: finding.code }],
    ),
  };
  return html`<div class="traces"><noscript>The traces need JavaScript; every number of the run stands below without it.</noscript></div><script type="application/json" class="tracedata">${embedJson(packed)}</script>`;
}

/** A trace in 16-bit steps of its own range: finer than a screen can show, and a fifth of the bytes. */
function packTrace(trace: Trace): object {
  const unit = readingUnit(trace.unit);
  const { factor, summand } = conversion(trace.unit, unit);
  const values = trace.values.map((value) => (value === null ? null : value * factor + summand));
  return { label: trace.label, channel: trace.channel, unit: showUnit(unit), count: trace.timesS.length, x: pack(trace.timesS), y: pack(values) };
}

export function pack(values: readonly (number | null)[]): { readonly low: number; readonly high: number; readonly base64: string } {
  let low = Infinity;
  let high = -Infinity;
  for (const value of values) {
    if (value === null || !Number.isFinite(value)) continue;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  if (low > high) [low, high] = [0, 0];
  const scale = high > low ? steps / (high - low) : 0;
  const bytes = Buffer.alloc(values.length * 2);
  values.forEach((value, index) => {
    bytes.writeUInt16LE(value === null || !Number.isFinite(value) ? missing : Math.round((value - low) * scale), index * 2);
  });
  return { low, high, base64: bytes.toString("base64") };
}
