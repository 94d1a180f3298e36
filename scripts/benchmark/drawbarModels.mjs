// The tasks of benchmarkModels.ts by the built package; prints {"seconds", "values"} as JSON. Usage: node drawbarModels.mjs TASKS
import { readFileSync } from "node:fs";
import { slipShape } from "../../dist/fitting/slipShapes.js";
import { rigidWheel, rigidWheelForces } from "../../dist/models/rigidWheel.js";
import { curveFit } from "../../dist/numerics/curveFit.js";

const tasks = JSON.parse(readFileSync(process.argv[2], "utf8"));
const wheel = { radiusM: tasks.wheel[0], widthM: tasks.wheel[1] };
const soilOf = ([stiffness, exponent, exponentBySlip, cohesionPa, frictionAngleRad, shearModulusM, stressAngle, stressAngleBySlip, rebound]) => ({ stiffness, exponent, exponentBySlip, cohesionPa, frictionAngleRad, shearModulusM, stressAngle, stressAngleBySlip, rebound });
const rows = tasks.rows.map((row) => ({ ...row, soil: soilOf(row.soil) }));
const draws = tasks.draws.map(soilOf);
const resamples = tasks.curve.resamples.map((pick) => ({ x: Float64Array.from(pick, (i) => tasks.curve.slip[i]), y: Float64Array.from(pick, (i) => tasks.curve.pull[i]) }));
const [seconds, values] = [{}, {}];

/** The least of several passes, as for the peer: what else the machine does only adds. */
function timed(name, items, work) {
  seconds[name] = Infinity;
  for (let pass = 0; pass < tasks.passes; pass++) {
    const started = process.hrtime.bigint();
    values[name] = items.map(work);
    seconds[name] = Math.min(seconds[name], Number(process.hrtime.bigint() - started) / 1e9);
  }
}
const numbers = ({ loadN, pullN, torqueNm }) => [loadN, pullN, torqueNm];
const shape = slipShape("saturating");

timed("fixed", rows, ({ soil, slip, sinkageM }) => numbers(rigidWheelForces(wheel, soil, slip, sinkageM)));
timed("solved", rows, ({ soil, slip, loadN }) => {
  const { sinkageM, pullN, torqueNm } = rigidWheel(wheel, soil, slip, loadN);
  return [sinkageM, pullN, torqueNm];
});
timed("draws", draws, (soil, i) => numbers(rigidWheelForces(wheel, soil, tasks.drawSlip, tasks.drawSinkages[i])));
timed("fits", resamples, ({ x, y }) => curveFit({ model: shape.value, jacobian: (s, p) => shape.slopes(s, p).byConstants, x, y, start: tasks.curve.start }).parameters);
process.stdout.write(JSON.stringify({ seconds, values }));
