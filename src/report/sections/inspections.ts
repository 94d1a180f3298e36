import type { InspectionRecord } from "../../campaign/campaign.ts";
import type { EnduranceResult, WheelEndurance } from "../../processing/enduranceResult.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { estimateCell } from "../showEstimate.ts";
import { table } from "../table.ts";
import type { Column } from "../table.ts";
import { plainNumber, severityBadge } from "../words.ts";

type Inspection = WheelEndurance["inspections"][number];

/** Each wheel's inspections as they were written down; of wheels of which nothing was measured, the last. */
export function inspectionsPart({ wheels }: EnduranceResult): Html {
  const measured = wheels.filter((one) => one.trends.length > 0 || one.inspections.length === 0);
  const others = wheels.filter((one) => !measured.includes(one));
  return html`${each(measured, wheelPart)}${others.length > 0 && html`<h4>Wheels of which only the distance was written down: their last inspection</h4>${table(others, [
    { heading: "Wheel", show: (one) => one.wheel },
    { heading: "Inspections", align: "right", show: (one) => String(one.inspections.length) },
    ...columns(others.map((one) => one.inspections.at(-1) as Inspection)).map(({ show, ...column }): Column<WheelEndurance> => ({ ...column, show: (one) => show(one.inspections.at(-1) as Inspection) })),
  ], { stack: true })}${each(others.filter((one) => one.findings.length > 0), findings)}`}`;
}

function wheelPart(one: WheelEndurance): Html {
  if (one.inspections.length === 0) return html`<p class="none">Wheel ${one.wheel}: none.</p>`;
  return html`<h4>Wheel ${one.wheel}</h4>${table(one.inspections, columns(one.inspections), { stack: true })}${one.findings.length > 0 && findings(one)}`;
}

function findings(one: WheelEndurance): Html {
  return html`<ul class="reasons">${each(one.findings, (found) => html`<li>${severityBadge(found.severity)} ${found.message}</li>`)}</ul>`;
}

/** What was never written down needs no column. */
function columns(rows: readonly Inspection[]): Column<Inspection>[] {
  const number = (heading: string, of: (record: InspectionRecord) => number | null, scale: number): Column<Inspection>[] => {
    const shown = rows.flatMap(({ record }) => (of(record) === null ? [] : [plainNumber((of(record) as number) * scale)]));
    // all to the decimals that one of them was written with
    const decimals = Math.max(0, ...shown.map((text) => text.split(".")[1]?.length ?? 0));
    const cell = (value: number | null): string => (value === null ? "–" : (value * scale).toFixed(decimals));
    return shown.length === 0 ? [] : [{ heading, align: "right", show: ({ record }) => cell(of(record)) }];
  };
  const weighed = rows.some(({ record }) => record.massKg !== null || record.cleanedMassKg !== null);
  return [
    { heading: "Distance [km]", align: "right", show: ({ record }) => plainNumber(record.distanceM / 1000) },
    ...number("Weighed [kg]", (record) => record.massKg, 1),
    ...number("Soil on it [g]", (record) => record.soilMassKg, 1000),
    ...(weighed ? [{ heading: "Mass without soil", align: "right" as const, show: ({ mass }: Inspection) => estimateCell(mass) }] : []),
    ...number("Radius [mm]", (record) => record.radiusM, 1000),
    ...number("Stiffness [N/mm]", (record) => record.stiffnessNm, 0.001),
    ...number("Pull coefficient [–]", (record) => record.pullCoefficient, 1),
    ...number("Broken elements", (record) => record.brokenElements, 1),
    ...(rows.some(({ record }) => record.run !== null) ? [{ heading: "Pull from run", show: ({ record }: Inspection) => record.run ?? "–" }] : []),
    { heading: "State", show: ({ record, refused }) => `${record.failed ? "failed" : "sound"}${refused === null ? "" : `; left out: ${refused}`}` },
    { heading: "Remark", align: "wrap", show: ({ record }) => record.remark },
  ];
}
