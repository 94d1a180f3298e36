/** An invented wheel as it truly is. Lengths in metres, unless the name says otherwise. */
export interface WheelTruth {
  readonly id: string;
  readonly description: string;
  readonly radiusM: number;
  readonly widthM: number;
  readonly massKg: number;
  readonly lugs: number;
  readonly lugHeightM: number;
  readonly flexible: boolean;
  readonly spokeThicknessMm: number | null;
  readonly coreFractionPercent: number;
  readonly coreMaterial: string;
  /** load = stiffness · deflection + hardening · deflection³ */
  readonly stiffnessNm: number;
  readonly hardeningNm3: number;
  /** share of the loading force that is missing half way back */
  readonly hysteresis: number;
  /** rolling loss: torque over load and radius */
  readonly rollingLoss: number;
  /** where between unloaded and loaded the rolling radius lies */
  readonly radiusShare: number;
  /** dissipation of the impact, growing with speed [s/m] */
  readonly impactLoss: number;
  /** damping ratio of the viscous part at rest on the floor */
  readonly dampingRatio: number;
  /** the wheel that is this one without its core */
  readonly bareFrame: string | null;
  /** stiffness at the angle θ from the mark: times 1 + unevenness · cos(θ − 0.7 rad) */
  readonly unevenness: number;
  /** what every loading adds to the deflection, and what a tenfold time under load adds [m] */
  readonly settlingM: number;
  readonly creepM: number;
  /** friction of the rim on the edge of a step */
  readonly edgeFriction: number;
  /** drag of hub and seal: drag0 + drag1 · speed [N·m, N·m·s] */
  readonly drag0: number;
  readonly drag1: number;
}

const hub = { drag0: 0.052, drag1: 0.0105 };
const rigid = { bareFrame: null, unevenness: 0, settlingM: 0, creepM: 0, edgeFriction: 0.74 };
const spokes = { bareFrame: null, unevenness: 0.02, settlingM: 4e-6, creepM: 8e-6, edgeFriction: 0.84 };

export const wheels: readonly WheelTruth[] = [
  { id: "W1", description: "rigid drum, control wheel", radiusM: 0.1, widthM: 0.08, massKg: 1.12, lugs: 24, lugHeightM: 0.005, flexible: false, spokeThicknessMm: null, coreFractionPercent: 0, coreMaterial: "none", stiffnessNm: 420e3, hardeningNm3: 0, hysteresis: 0.1, rollingLoss: 0.008, radiusShare: 0.35, impactLoss: 0.28, dampingRatio: 0.095, ...rigid, ...hub },
  { id: "W2", description: "rigid open rim", radiusM: 0.1, widthM: 0.1, massKg: 0.86, lugs: 18, lugHeightM: 0.007, flexible: false, spokeThicknessMm: null, coreFractionPercent: 0, coreMaterial: "none", stiffnessNm: 300e3, hardeningNm3: 0, hysteresis: 0.1, rollingLoss: 0.009, radiusShare: 0.35, impactLoss: 0.36, dampingRatio: 0.125, ...rigid, ...hub, drag0: 0.047 },
  { id: "W3", description: "flexible spokes, thin", radiusM: 0.101, widthM: 0.09, massKg: 0.78, lugs: 24, lugHeightM: 0.004, flexible: true, spokeThicknessMm: 0.8, coreFractionPercent: 20, coreMaterial: "cork grit", stiffnessNm: 11e3, hardeningNm3: 70e6, hysteresis: 0.16, rollingLoss: 0.02, radiusShare: 0.33, impactLoss: 0.1, dampingRatio: 0.075, ...spokes, ...hub, drag0: 0.055 },
  { id: "W4", description: "flexible spokes, thick", radiusM: 0.101, widthM: 0.09, massKg: 0.93, lugs: 24, lugHeightM: 0.004, flexible: true, spokeThicknessMm: 1.2, coreFractionPercent: 20, coreMaterial: "cork grit", stiffnessNm: 21e3, hardeningNm3: 160e6, hysteresis: 0.14, rollingLoss: 0.017, radiusShare: 0.36, impactLoss: 0.12, dampingRatio: 0.065, ...spokes, ...hub },
  { id: "W5", description: "flexible spokes, thin, full core", radiusM: 0.101, widthM: 0.09, massKg: 1.06, lugs: 24, lugHeightM: 0.004, flexible: true, spokeThicknessMm: 0.8, coreFractionPercent: 60, coreMaterial: "cork grit", stiffnessNm: 15e3, hardeningNm3: 110e6, hysteresis: 0.32, rollingLoss: 0.034, radiusShare: 0.31, impactLoss: 0.42, dampingRatio: 0.1, ...spokes, bareFrame: "W6", unevenness: 0.035, settlingM: 25e-6, creepM: 40e-6, ...hub, drag0: 0.058 },
];

/** Those above, and what only stood under the press: the thin wheel before it was filled. */
export const pressedWheels: readonly WheelTruth[] = [
  ...wheels,
  { ...(wheels[2] as WheelTruth), id: "W6", description: "flexible spokes, thin, before filling", massKg: 0.71, coreFractionPercent: 0, coreMaterial: "none", stiffnessNm: 9.2e3, hardeningNm3: 58e6, hysteresis: 0.09 },
];

/** Radius to the lugs' tips, unloaded. */
export function tipRadius(wheel: WheelTruth): number {
  return wheel.radiusM + wheel.lugHeightM;
}

export function loadAtDeflection(wheel: WheelTruth, deflectionM: number): number {
  return wheel.stiffnessNm * deflectionM + wheel.hardeningNm3 * deflectionM ** 3;
}

/** Deflection under a load on a hard floor [m], by bisection. */
export function deflection(wheel: WheelTruth, loadN: number): number {
  let low = 0;
  let high = Math.max(0, loadN / wheel.stiffnessNm);
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (loadAtDeflection(wheel, middle) < loadN) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Distance per radian on a hard floor at that load [m]. */
export function rollingRadius(wheel: WheelTruth, loadN: number): number {
  return tipRadius(wheel) - wheel.radiusShare * deflection(wheel, loadN);
}

/** Torque the hub and its seal need [N·m]. */
export function drag(wheel: WheelTruth, speedRadS: number): number {
  return speedRadS === 0 ? 0 : wheel.drag0 + wheel.drag1 * speedRadS;
}
