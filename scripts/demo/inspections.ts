import { dice } from "./dice.ts";

/** What the made wheels lose and do over the distance: mass and radius in proportion, stiffness by the logarithm, pull in proportion. */
export const madeWear = { gramsPerKm: 0.35, mmPerKm: 0.008, stiffnessNmm: 14, stiffnessFall: 0.03, pull: 0.31, pullPerKm: -0.0009 };
const distancesKm = [0, 1, 3, 10, 20, 30];
/** How often a load's range is borne before the spokes break, and how far wheels of one make come: a Weibull distribution. */
export const lifeLine = { range: 120, cycles: 3500, exponent: 5 };
export const madeLives = { shape: 2.5, scaleKm: 40, missionKm: 50 };

/** Wheels of one make that were run until they broke, or until the mission was through. */
export const broken = ["K1", "K2", "K3", "K4", "K5", "K6"] as const;

/** The keys of rig.yaml that inspections are held against. */
export const enduranceYaml = `endurance:
  missionDistance: ${1000 * madeLives.missionKm}
  massUncertainty: 0.0003
  soilMassUncertainty: 0.0006
  radiusUncertainty: 0.00005
  stiffnessUncertainty: 60
  pullUncertainty: 0.004
  wearingDensity: 2700
  wearingDensityUncertainty: 15
  weibullShape: 2
  claim: { reliability: 0.9, confidence: 0.9 }
  lifeLine: { range: ${lifeLine.range}, cycles: ${lifeLine.cycles}, exponent: ${lifeLine.exponent}, cutOff: null, scatterFactor: 3 }
`;

/** inspections.csv of some wheels: soil sticks to them, every reading scatters, and one lug breaks late; behind them those that were run until they broke. */
export function inspectionSheet(wheels: readonly { readonly id: string; readonly massG: number; readonly radiusMm: number }[], seed: number, lives: readonly string[] = []): string {
  const random = dice(seed, "inspections");
  const rows = wheels.flatMap(({ id, massG, radiusMm }, index) =>
    distancesKm.map((km) => {
      const soil = km === 0 ? 0 : 20 + 10 * random.uniform();
      const weighed = massG - madeWear.gramsPerKm * km + soil + 0.3 * random.normal();
      const soilWeighed = km === 0 ? 0 : soil + 0.6 * random.normal();
      const stiffness = madeWear.stiffnessNmm * (1 - madeWear.stiffnessFall * Math.log1p(km)) + 0.06 * random.normal();
      const pull = madeWear.pull + madeWear.pullPerKm * km + 0.004 * random.normal();
      const radius = radiusMm - madeWear.mmPerKm * km + 0.05 * random.normal();
      const broken = index === 0 && km > 15 ? 1 : 0;
      return [id, km, weighed.toFixed(1), soilWeighed.toFixed(1), radius.toFixed(2), stiffness.toFixed(2), pull.toFixed(3), broken, "no", broken > 0 ? "one lug cracked at its root" : ""].join(",");
    }),
  );
  return ["wheel,distance [km],mass [g],soil mass [g],radius [mm],stiffness [N/mm],pull coefficient [1],broken elements,failed,remark", ...rows, ...lives.flatMap((id) => lifeRows(id, seed)), ""].join("\n");
}

/** Of such a wheel only its distance was written down: every 10 km, and where it broke. */
function lifeRows(id: string, seed: number): string[] {
  const { shape, scaleKm, missionKm } = madeLives;
  const lifeKm = scaleKm * (-Math.log(1 - dice(seed, `life ${id}`).uniform())) ** (1 / shape);
  const failed = lifeKm < missionKm;
  const endKm = failed ? Math.round(10 * lifeKm) / 10 : missionKm;
  const looks = [10, 20, 30, 40].filter((km) => km < endKm).map((km) => `${id},${km},,,,,,0,no,`);
  return [...looks, `${id},${endKm},,,,,,${failed ? "3,yes,spokes broken at the hub: the table stopped by itself" : "0,no,mission through"}`];
}
