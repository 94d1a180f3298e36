import type { Circumference, DayResult } from "../../processing/dayResult.ts";
import { html } from "../html.ts";
import type { Html } from "../html.ts";
import { extent, usableRuns, wheelOrder } from "../pick.ts";
import { drawPlot, lineMark, Plot, pointMarks, seriesStyle, zeroLine } from "./drawPlot.ts";
import type { Bar } from "./drawPlot.ts";

/** Load against deflection on a hard plate: all wheels over each other, then wheel by wheel with every run. */
export function deflectionFigures(day: DayResult): Html {
  const wheels = wheelOrder(day, day.deflections.map((curve) => curve.wheel));
  const pressed = usableRuns(day, "loadDeflection");
  const rows = (curve: DayResult["deflections"][number]) => curve.loadN.map((load, i) => ({ x: (curve.deflectionM[i] as number) * 1000, y: load, xHalf: 2000 * (curve.uncertaintyM[i] as number), kept: true, title: curve.runs.join(", ") }));
  const xDomain = extent([0, ...day.deflections.flatMap((curve) => curve.deflectionM.map((value) => value * 1000))]);
  const yDomain = extent([0, ...day.deflections.flatMap((curve) => curve.loadN)]);
  const axes = { height: 220, x: { label: "deflection [mm]", domain: xDomain }, y: { label: "load [N]", domain: yDomain } };
  const drawn = day.deflections.map((curve) => ({ curve, style: seriesStyle(wheels.indexOf(curve.wheel)) }));
  const all = drawPlot({
    ...axes,
    title: "All wheels",
    description: `Load against deflection of ${wheels.length} wheels on a hard plate, over each other`,
    legend: drawn.map(({ curve, style }) => ({ label: curve.wheel, style })),
    marks: [zeroLine(), ...drawn.flatMap(({ curve, style }) => [lineMark(rows(curve), style), ...pointMarks(rows(curve), style)])],
  });
  return html`<div class="multiples">${day.deflections.length > 1 && all}${drawn.map(({ curve, style }) => {
    const single = pressed.filter((run) => curve.runs.includes(run.plan.id)).map((run) => (run.fits[0]?.points ?? []).filter((point) => point.kept).map((point) => ({ x: point.y * 1000, y: point.x })));
    return drawPlot({
      ...axes,
      title: `Wheel ${curve.wheel}`,
      description: `Load against deflection of wheel ${curve.wheel} on a hard plate, ${curve.runs.length} ${curve.runs.length === 1 ? "run" : "runs"}`,
      marks: [zeroLine(), ...(single.length > 1 ? single.map((line) => Plot.line(line, { x: "x", y: "y", stroke: style.color, strokeWidth: 0.8, strokeOpacity: 0.5 })) : []), lineMark(rows(curve), style), ...pointMarks(rows(curve), style)],
      note: `${curve.runs.length === 1 ? `Run ${curve.runs.join(", ")}` : `Thin lines: runs ${curve.runs.join(", ")}; points: their mean`}. Joined by straight lines, no fit.`,
    });
  })}</div>`;
}

/** Stiffness round each wheel that was pressed at several contact angles. */
export function circumferenceFigures(day: DayResult): Html {
  const rounds = day.circumferences.filter((round) => round.measure === "secantStiffness");
  const domain = extent(rounds.flatMap((round) => anglePoints(round).flatMap((point) => [point.y - (point.yHalf ?? 0), point.y + (point.yHalf ?? 0)])));
  return html`<div class="multiples">${rounds.map((round, index) => {
    const style = seriesStyle(index);
    const wave = round.wave.map(({ angleRad, value }) => ({ x: (angleRad * 180) / Math.PI, y: value / 1000 }));
    return drawPlot({
      title: `Wheel ${round.wheel}${round.setLoadN === null ? "" : `, ${round.setLoadN} N`}`,
      description: `Secant stiffness of wheel ${round.wheel} against the contact angle`,
      height: 220,
      x: { label: "contact angle from the wheel’s mark [°]", domain: [0, 360], ticks: [0, 90, 180, 270, 360] },
      y: { label: "secant stiffness [N/mm]", domain },
      marks: [lineMark(wave, round.fit.verdict === "determined" ? style : { ...style, color: "var(--faint)" }), ...pointMarks(anglePoints(round), style)],
      note: round.fit.verdict === "determined" ? "Line: one wave a turn." : "Grey line: one wave a turn, not told from chance.",
    });
  })}</div>`;
}

function anglePoints(round: Circumference): Bar[] {
  return round.fit.points.map((point) => {
    const degrees = (((point.x * 180) / Math.PI) % 360 + 360) % 360;
    return { x: degrees, y: point.y / 1000, yHalf: point.yUncertainty === null ? null : (2 * point.yUncertainty) / 1000, kept: point.kept, title: `${point.run}${point.kept ? "" : `: not used, ${point.reason}`}` };
  });
}
