import type { DayResult, RunResult } from "../../processing/dayResult.ts";
import type { FootprintPicture } from "../../processing/footprintPicture.ts";
import { html, raw } from "../html.ts";
import type { Html } from "../html.ts";
import { plainNumber } from "../words.ts";
import { drawPlot } from "./drawPlot.ts";
import { footprintImage, pressureColor } from "./footprintImage.ts";

/** Every footprint as a picture with its scale in mm; pressures of one colour scale for all pads. */
export function footprintFigures(day: DayResult): Html {
  const taken = day.runs.flatMap((run) => (run.picture === null ? [] : [{ run, picture: run.picture }]));
  const greatest = taken.reduce((most, { picture }) => (picture.unit === "Pa" ? picture.values.reduce<number>((peak, value) => Math.max(peak, value ?? 0), most) : most), 0);
  return html`<div class="multiples">${taken.map(({ run, picture }) => figure(run, picture, greatest))}</div>${greatest > 0 && scale(greatest)}`;
}

function figure(run: RunResult, picture: FootprintPicture, greatest: number): Html {
  const [width, height] = [picture.widthM * 1000, picture.heightM * 1000];
  const inner = 300;
  const source = footprintImage(picture, greatest);
  const draw = (_: unknown, scales: { x: (v: number) => number; y: (v: number) => number }, __: unknown, ___: unknown, context: { document: { createElementNS(space: string, name: string): { setAttribute(name: string, value: string): void } } }): unknown => {
    const image = context.document.createElementNS("http://www.w3.org/2000/svg", "image");
    const box = { x: scales.x(0), y: scales.y(height), width: scales.x(width) - scales.x(0), height: scales.y(0) - scales.y(height) };
    for (const [name, value] of Object.entries(box)) image.setAttribute(name, String(value));
    image.setAttribute("href", source);
    image.setAttribute("preserveAspectRatio", "none");
    image.setAttribute("style", "image-rendering:pixelated");
    return image;
  };
  const ground = run.plan.footprint?.ground ?? "flat";
  return drawPlot({
    title: `${run.plan.id}: wheel ${run.plan.wheel ?? "–"}, ${ground === "flat" ? "flat ground" : ground}${run.plan.setLoadN === null ? "" : `, ${plainNumber(run.plan.setLoadN)} N`}`,
    description: `Footprint of run ${run.plan.id}, ${picture.unit === "Pa" ? "pressures as colours" : "photograph with the contact tinted"}, ${width.toFixed(0)} by ${height.toFixed(0)} mm`,
    width: inner + 66,
    height: Math.round((inner * height) / width) + 66,
    x: { label: `${picture.along === "rows" ? "along" : "across"} the travel [mm]`, domain: [0, width], grid: false },
    y: { label: `${picture.along === "rows" ? "across" : "along"} the travel [mm]`, domain: [0, height], grid: false },
    marks: [draw as never],
  });
}

/** What the colours mean. */
function scale(greatest: number): Html {
  const steps = [0, 0.25, 0.5, 0.75, 1];
  const boxes = steps.map((share) => `<i style="background:rgb(${pressureColor(share).join(",")})"></i>${plainNumber(Number(((share * greatest) / 1000).toPrecision(3)))} kPa`);
  return html`<p class="key">${raw(boxes.map((box) => `<span>${box}</span>`).join(""))}</p>`;
}
