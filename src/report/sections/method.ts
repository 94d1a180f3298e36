import { tolerancesSchema } from "../../campaign/tolerances.ts";
import type { Tolerances } from "../../campaign/tolerances.ts";
import { preflightQuestions } from "../../campaign/preflight.ts";
import type { Rig } from "../../campaign/rigSchema.ts";
import { quantities } from "../../campaign/quantities.ts";
import { showUnit } from "../../core/units.ts";
import type { DayResult } from "../../processing/dayResult.ts";
import { each, html } from "../html.ts";
import type { Html } from "../html.ts";
import { table } from "../table.ts";
import { plainNumber } from "../words.ts";

/** Formulas as text, each with the words that keep it from being misread. */
const formulas: readonly (readonly [string, string, string])[] = [
  ["Slip, driven wheel", "s = 1 − v / (r·ω)", "v ≤ r·ω; positive"],
  ["Skid, braked wheel", "s_b = 1 − r·ω / v", "v > r·ω; counted from the carriage’s speed, not the wheel’s, so a locked wheel has 1; drawn left of zero beside driven slip"],
  ["Rolling radius", "r = distance / (2π · revolutions)", "from hard-floor runs at that load"],
  ["Weight below a tilted sensor", "P + w·(sin α − sin α₀),   L + w·(cos α − cos α₀)", "where rig.yaml describes tare; turned into the horizontal and vertical where its axes are level"],
  ["Inertia", "F_pull = P + m·a,   T − I·α", "where rig.yaml states it; a and α from the speeds of single revolutions"],
  ["Ropes", "F = n·m·(g + n·a),   W = M·(g + z̈) − F·cos θ", "load or pull set by a hanging mass, where no sensor measures it"],
  ["Pull coefficient", "μ = F_pull / W", "means over whole wheel revolutions"],
  ["Gross traction ratio", "μ_g = T / (r·W)", "torque less free-spin drag"],
  ["Motion resistance ratio", "μ_r = μ_g − μ", ""],
  ["Tractive efficiency", "η = F_pull·v / (T·ω)", "for a wheel that is driven and pulls"],
  ["Power number", "P = T·ω / (W·v)", ""],
  ["Energy per distance", "E = T·ω / v", "one wheel"],
  ["Sinkage", "z = hub drop from first touch − deflection at the load", "deflection as measured on a hard plate; a wheel recorded as rigid and not measured has none"],
  ["Scanned bed", "F_pull′ = F_pull·cos β + W·sin β,   W′ = W·cos β − F_pull·sin β;   rut = mean(z_before − z_after)", "β: slope of the scan under the window against the rails, uphill positive; sinkage then counts from the scanned surface; without a declared scan nothing is turned"],
  ["Restitution", "e = v₂/v₁;   e = g·t_flight / (2·v₁);   e = √(h₂/h₁)", "from velocities, flight time, heights, where each is available"],
  ["Absorbed share", "1 − e²", "first contact only"],
  ["Contact force", "F = m·(a + g)", "what falls moves as one rigid mass with the hub; a after the declared filter"],
  ["Compression", "d = v₁·t − ∬ a dt²", "from first touch; anchored by the contact speed alone, so lift-off and the height channel are checks"],
  ["Absorbed energy", "ΔW = ∮ F dd = ½·m·(v₁² − v₂²) + m·g·d₂", "d₂: compression at lift-off"],
  ["Equivalent damping", "c = 2·ΔW·t_c / (π²·d_m²);   ζ = ΔW / (2π·U)", "the contact taken as half a harmonic cycle"],
  ["Shock response", "ramp-invariant recursion; pseudo-velocity = ω·max|relative displacement|", "declared damping ratio and range; first contact against free fall"],
  ["Contact of a wheel", "F/m = A·(d/d₀)^p·(1 + β·ḋ/v₀) + 2ζ·√(A/d₀)·ḋ", "hard ground, one blow straight down"],
  ["Damping ratio", "ζ = δ / √(4π² + δ²),   δ = ln(x₀/xₙ)/n", "one lightly damped mode, viscous"],
  ["Stiffness", "k_sec = F/δ;   k_tan = dF/dδ;   ΔW = ∮F dδ;   loss factor = ΔW/(2π·U)", "on the loading branch, conditioning cycles left out; U under the line halfway between loading and unloading"],
  ["Creep", "δ = δ₁ + C·log₁₀(t/t₁), or δ = δ₀ + A·(1 − e^(−t/τ))", "while the load is held; the law that describes it clearly better, and none beyond the dwell"],
  ["Footprint", "A = cells in contact · cell area;   p̄ = ∫p dA/A, or W/A;   ∫p dA held against W", "threshold as declared; edge in doubt by half a cell"],
  ["Conformity index", "A / (L·b)", "contact area over contact length times rim width: the share of the footprint’s box that bears; one definition for flat ground, step and rock; against flat ground: ratio of the two, and of the contact areas, of one wheel at one load by one recorder"],
  ["Round the wheel", "y = ȳ + a·cos θ + b·sin θ,   amplitude √(a² + b²)", "told from chance by an F test at 95 %"],
  ["Getting over", "P = 1/(1 + e^((h − h₅₀)/s))", "maximum likelihood; intervals by profile likelihood"],
  ["Step, statics", "T = W·√(2rh − h²) + D·(r − h);   μ = √(2rh − h²)/(r − h)", "lone rigid wheel, rigid sharp edge, slow"],
  ["Pressure–sinkage", "p = (k_c/b + k_φ)·zⁿ", "weighted by p²; k_c and k_φ only from two plate widths or more"],
  ["Cone", "CI = ∫CI dz / (z₂ − z₁);   G = dCI/dz;   uneven: s/CI between profiles", "ASABE S313, from memory: 30° cone, index = force over base area; straight lines between readings, the range of depths in rig.yaml (coneIndexDepth); a bed’s value is the mean of its profiles, its doubt their scatter"],
  ["Shear strength", "τ_max = c + σ·tan φ", ""],
  ["Shear curve", "τ = τ_max·(1 − e^(−j/K))", ""],
  ["Wear", "y = y₀ + Δ·g(x);   k = (Δm/x)/ρ · Σx / Σ F·x·s/(1 − s)", "g: a straight line, or a logarithm where it foretells inspections left out twice as well; slip stands for all sliding"],
  ["Damage", "D = Σ nᵢ/Nᵢ,   N = N₀·(S/S₀)^(−m)", "rain-flow counts of the vertical load; linear sum, mean load and order left out"],
  ["Lives", "F = 1 − e^(−(x/η)^β);   R = (1 − C)^(1/Σ L^β)", "maximum likelihood with wheels still sound; R: without a failure, at an assumed β"],
  ["Uncertainty", "u² = Σ effect²;   U = k·u,   k = t(97.5 %, ν)", "equal causes added with their signs first; ν by Welch–Satterthwaite"],
];

export function methodSection(day: DayResult): Html {
  const { rig } = day.campaign;
  const facts: (readonly [string, string])[] = [
    ["Slip radius", `${{ unloaded: "unloaded radius from the wheel record", loaded: "radius less the deflection at the load", effective: "rolling radius from hard-floor runs at the load" }[rig.slipRadius.policy]}, ${rig.slipRadius.lugs === "with" ? "to the lugs’ tips" : "without lugs"}`],
    ["Gravity", `${plainNumber(rig.gravity)} m/s²`],
    ["Zero", rig.zero === undefined ? "no zero blocks stated" : `${rig.zero.state === "wheelLifted" ? "wheel lifted, hub and wheel hanging" : "sensor bare, nothing below it"}; ${plainNumber(rig.zero.beforeS)} s before, ${plainNumber(rig.zero.afterS)} s after, drift interpolated between`],
    ["Mass below the sensor", rig.massBelowSensor === undefined ? "not stated" : `${plainNumber(rig.massBelowSensor)} kg, wheel excepted`],
    ["Clocks", clocks(rig)],
    ["Taken into the forces", loadPath(rig)],
    ["Drop filter", rig.drop === undefined ? "not stated" : `class ${rig.drop.filterClass}, ${rig.drop.filterStandard}, forwards and backwards (no phase shift)`],
    ["Width of a circular plate", rig.soil?.circularPlateWidth === undefined ? "not stated" : `b is the ${rig.soil.circularPlateWidth}`],
    ["Six-axis sensor", rig.sixAxis === undefined ? "none" : `certificate ${rig.sixAxis.certificate}, ${rig.sixAxis.date}`],
  ];
  return html`<section id="method"><h2>Method</h2>
<p>Every channel keeps its own time base. Loggers are put on one clock; the window is cut on the wheel's angle at whole revolutions; each channel is averaged over the window on its own samples. Nothing is resampled for a measure.</p>
<p>Intervals: 95 %, written to two figures. The factor k is Student's t at the estimate's effective degrees of freedom (JCGM 100, G.4); greater where few degrees of freedom stand beside stated doubts, which that formula makes too little of, and smaller where a cause of which only the bounds are known weighs most. “Not determined” is a result, and its reason stands beside it.</p>
<h3>Conventions of this rig</h3>${table(facts, [
    { heading: "What", show: ([name]) => name },
    { heading: "Here", align: "wrap", show: ([, value]) => value },
  ])}
<details class="day"><summary>Which way is positive</summary>${table(Object.values(quantities).filter((quantity) => quantity.positive !== null), [
    { heading: "Quantity", show: (quantity) => quantity.label },
    { heading: "Positive when", align: "wrap", show: (quantity) => quantity.positive },
    { heading: "Kept in", show: (quantity) => showUnit(quantity.unit) },
  ])}</details>
<h3>Formulas</h3>${table(formulas, [
    { heading: "Quantity", show: ([name]) => name },
    { heading: "Formula", show: ([, formula]) => html`<span class="formula">${formula}</span>` },
    { heading: "Holds", align: "wrap", show: ([, , note]) => note },
  ], { stack: true })}
<h3>Limits of the checks</h3>${tolerances(rig.tolerances)}
<details class="day"><summary>What no recording shows: questions for the people at the rig</summary>${table(preflightQuestions, [
    { heading: "When", show: ({ when }) => when },
    { heading: "Question", align: "wrap", show: ({ ask }) => ask },
    { heading: "Why", align: "wrap", show: ({ why }) => why },
    { heading: "What lets a check look", align: "wrap", show: ({ record }) => record ?? "nothing" },
  ])}</details></section>`;
}

/** Every limit used today, beside the default it replaces or is. */
function tolerances(used: Tolerances): Html {
  const defaults = tolerancesSchema.parse({});
  const names = Object.keys(defaults) as (keyof Tolerances)[];
  return table(names, [
    { heading: "Check", align: "wrap", show: (name) => (tolerancesSchema.shape[name].description ?? name).replace(/ Default .*$/, "") },
    { heading: "Look / reject", align: "right", show: (name) => limits(used[name]) },
    { heading: "Where from", show: (name) => (limits(used[name]) === limits(defaults[name]) ? "default: common practice" : html`<b>this rig’s own</b> <small>default ${limits(defaults[name])}</small>`) },
  ]);
}

function limits(value: Tolerances[keyof Tolerances]): string {
  return typeof value === "number" ? plainNumber(value) : `${plainNumber(value.look)} / ${plainNumber(value.reject)}`;
}

export interface OutputFile {
  readonly name: string;
  readonly sha256: string;
}

/** Everything read and written, by hash. Logs stand with their runs. */
export function filesSection(day: DayResult, outputs: readonly OutputFile[]): Html {
  const logs = day.runs.flatMap((run) => run.sources.map((source) => ({ run: run.plan.id, source })));
  return html`<section id="files"><h2>Files</h2><h3>Written by people</h3>${table(day.campaign.files, [
    { heading: "File", show: (file) => file.file },
    { heading: "SHA-256", show: (file) => html`<code class="hash">${file.sha256}</code>` },
  ])}
<details class="day"><summary>Logs: ${logs.length} files</summary>${table(logs, [
    { heading: "Run", show: ({ run }) => run },
    { heading: "File", show: ({ source }) => source.file },
    { heading: "SHA-256", show: ({ source }) => html`<code class="hash">${source.sha256}</code>` },
  ])}</details>
${outputs.length > 0 && html`<h3>Written beside this report</h3>${table(outputs, [
    { heading: "File", show: (file) => file.name },
    { heading: "SHA-256", show: (file) => html`<code class="hash">${file.sha256}</code>` },
  ])}`}</section>`;
}

const cautions: readonly string[] = [
  "Moving carriage and turning wheel: keep hands, hair and clothing clear; know where the emergency stop is before the carriage moves.",
  "Obstacle lanes: a wheel that slips off an edge falls back or throws the obstacle; stay out of its way, fix the obstacle, and stop the drive before touching either.",
  "Drop rig and hanging loads: never stand or reach below; secure the wheel mechanically before touching it.",
  "Simulants and sands may hold respirable crystalline silica: keep dust down, ventilate, and wear the protection your assessment asks for.",
  "Local rules and licensed practice come first. This report helps to judge measurements; it is not a safety device and approves nothing for use.",
];

export function cautionsSection(): Html {
  return html`<section id="cautions"><h2>Cautions</h2><ul>${each(cautions, (caution) => html`<li>${caution}</li>`)}</ul></section>`;
}

function clocks({ alignment }: Rig): string {
  if (alignment === undefined) return "one clock, or none stated";
  const by = { sharedEvents: "shared events", commonChannel: "common channel", trigger: "triggers" }[alignment.method];
  return `${by}${alignment.method === "trigger" ? "" : ` on ${alignment.channel}`}, reference ${alignment.reference}`;
}

function loadPath({ carriageFriction, tare, inertia, offLoad, hangingPull }: Rig): string {
  const parts = [
    carriageFriction === undefined ? "" : "friction of the carriage by speed and direction",
    tare === undefined ? "" : `weight below the sensor by ${tare.readings === undefined ? "scale and ruler" : `the sensor's readings at ${tare.readings.at.length} attitudes`}, ${tare.axes === "level" ? "forces horizontal and vertical" : "forces along and square to the carriage"}`,
    inertia === undefined ? "" : `inertia of ${plainNumber(inertia.mass)} kg beside the wheel${inertia.turning === undefined ? "" : ", and of what turns with it"}`,
    offLoad === undefined ? "" : `off-loading by ${plainNumber(offLoad.mass)} kg on a rope`,
    hangingPull === undefined ? "" : `pull by a hanging mass of ${plainNumber(hangingPull.mass)} kg`,
  ].filter((part) => part !== "");
  return parts.length === 0 ? "nothing beyond zero and free-spin drag" : parts.join("; ");
}
