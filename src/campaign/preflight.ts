/** A question that only people can answer: no recording shows it, or shows it only when something else was recorded too. */
export interface PreflightQuestion {
  /** numbers in the fault bench's list that it stands for; none = general good practice */
  readonly pitfalls: readonly number[];
  readonly when: "before the day" | "at each bed" | "at each run" | "after the day";
  readonly ask: string;
  readonly why: string;
  /** what to write down so that a check can look; null = nothing would */
  readonly record: string | null;
}

/** Asked because the data cannot tell. Printed by `drawbar check --questions` and by the fault bench. */
export const preflightQuestions: readonly PreflightQuestion[] = [
  {
    pitfalls: [2],
    when: "before the day",
    ask: "Is every wheel's radius measured to the rim, and its lug height from the rim to the tips, by one person with one gauge?",
    why: "A record whose radius already reaches to the tips shifts that wheel's slip; without a hard-floor run of that wheel nothing shows it",
    record: "a hard-floor run of every wheel",
  },
  {
    pitfalls: [6],
    when: "before the day",
    ask: "Turn the wheel by hand through exactly one turn: does the logger count countsPerRevolution times gear?",
    why: "A ratio that is a percent off looks like slip; lugs' ripple shows it only where it is clear",
    record: "a hard-floor run of every wheel",
  },
  {
    pitfalls: [11],
    when: "before the day",
    ask: "Is the carriage level, and does the zero block happen at the same place and attitude as the run?",
    why: "A degree of tilt moves a sixtieth of the weight below the sensor into the pull, and without a tilt channel no record shows it",
    record: "a tilt channel",
  },
  {
    pitfalls: [12, 15],
    when: "before the day",
    ask: "Hang a known mass on the sensor along each axis: does drawbar's reading agree within the certificate, and are the other axes quiet?",
    why: "A matrix or gain of another sensor, or one that is two percent off, gives numbers that fit together and are wrong",
    record: null,
  },
  {
    pitfalls: [16],
    when: "before the day",
    ask: "Tow the empty carriage at each speed both ways: what does the pull read?",
    why: "Friction between sensor and carriage that is small against the load stands in every pull; hard-floor runs at two loads show only larger ones",
    record: "carriageFriction in rig.yaml; hard-floor runs at two loads",
  },
  {
    pitfalls: [18],
    when: "before the day",
    ask: "With the off-loading connected, raise and lower the hub by hand over its stroke: does the load stay?",
    why: "Pulley friction holds the load up on the way down and down on the way up; a run only ever goes one way",
    record: null,
  },
  {
    pitfalls: [22],
    when: "before the day",
    ask: "How deep is the soil, and how far is the wheel's side from the wall?",
    why: "A floor or wall that is too near makes every wheel look firmer",
    record: "`soil depth [mm]` and `side clearance [mm]` in beds.csv",
  },
  {
    pitfalls: [23],
    when: "at each bed",
    ask: "Was this bed loosened to full depth and levelled since the last wheel ran here, and does each run have a lane of its own?",
    why: "A rut pulls more and sinks less; repeats of one set point on one bed show it, single runs do not",
    record: "one row of beds.csv a preparation, its name on every run; a control wheel first and last in each block",
  },
  {
    pitfalls: [24, 27],
    when: "at each bed",
    ask: "How long did the bed wait, who walked beside it, how moist is it and how dry is the air?",
    why: "Soil settles, dries and charges; a trend can be told from chance only with a control wheel in every block",
    record: "`moisture [%]` in beds.csv; a control wheel in every block",
  },
  {
    pitfalls: [25],
    when: "at each bed",
    ask: "Were the cone readings taken beside the wheel's path, at least two cone widths away?",
    why: "A hole in the path is a soft spot; one that is small against the lugs' ripple stays unseen",
    record: "`position` in cones.csv",
  },
  {
    pitfalls: [26],
    when: "before the day",
    ask: "Which cone is on the rod, what does its base measure, and at what rate is it pushed?",
    why: "Force over the wrong area, or at the wrong rate, shifts every gradient alike: beds compare, laboratories do not",
    record: "`cone diameter [mm]` and `cone rate [mm/s]` in beds.csv",
  },
  {
    pitfalls: [28],
    when: "at each bed",
    ask: "How many passes has this soil had, and when was it last mixed and sieved?",
    why: "Fines sink, drift away or break under the wheel over weeks; a day shows none of it",
    record: "a free column in beds.csv, e.g. `passes [1]`, and a sieve record beside the day",
  },
  {
    pitfalls: [30, 31],
    when: "before the day",
    ask: "Does every logger filter against folding below half its rate, the accelerometer's too, and was that filter on?",
    why: "What folds before it is sampled looks like signal; a slow beat in the pull and a changed peak show it only where it is large",
    record: null,
  },
  {
    pitfalls: [33],
    when: "before the day",
    ask: "Do all loggers get the shared event over the same wire, without a relay or filter in one of them, at start and end of every run?",
    why: "A line that is late in one logger by the same time at both ends leaves the clocks' rates alike; only torque before turning shows it, and only when it is large",
    record: "two events on a shared line in every run",
  },
  {
    pitfalls: [37],
    when: "at each run",
    ask: "Read wheel, bed and run aloud from the rig, not from the sheet: do they stand so on the sheet?",
    why: "Two wheels of equal mass, or two beds of equal softness, can be exchanged without a trace",
    record: "each run's id inside its own file (`runLabel`)",
  },
  {
    pitfalls: [39],
    when: "before the day",
    ask: "Where does each channel end: at the sensor's range, the amplifier's or the converter's, whichever comes first?",
    why: "A channel cut off inside its stated range is found only when it stays there for several samples",
    record: "`range` and `bridgeRange` in rig.yaml",
  },
  {
    pitfalls: [40],
    when: "before the day",
    ask: "Switch the motor on with the wheel lifted and standing: does any zero move?",
    why: "Pickup that is rectified in an amplifier shifts the mean; the line in the spectrum that betrays it may lie above the logger's rate",
    record: null,
  },
  {
    pitfalls: [43],
    when: "at each bed",
    ask: "Was the surface scanned along the whole way before the run, against the rails?",
    why: "A hub that falls along a sloping bed cannot be told from a wheel that keeps digging in",
    record: "a surfaceHeight channel, or the scan beside the day",
  },
  {
    pitfalls: [45],
    when: "after the day",
    ask: "Was each wheel lifted, emptied and weighed after its runs, and the soil out of it too?",
    why: "Soil that falls out before the zero after the run has no trace in the record",
    record: "the zero block after each run, taken before the wheel is touched",
  },
  {
    pitfalls: [46],
    when: "before the day",
    ask: "Is each wheel square to the rails, within half a degree?",
    why: "Side force shows toe, and a side slope of the bed as well; its part along the way stands in the pull",
    record: "sideForce in rig.yaml",
  },
  {
    pitfalls: [47],
    when: "before the day",
    ask: "Is torque measured at the wheel? If it is the motor's current: was the drive warm before the first run?",
    why: "A cold gearbox takes current that no wheel sees",
    record: "motorCurrent and temperature beside a torque sensor; free-spin runs before and after each block",
  },
  {
    pitfalls: [48, 49],
    when: "before the day",
    ask: "Were wheels drawn by lot within blocks, all at one speed, with a control wheel in each block?",
    why: "What changes from morning to evening is otherwise the wheel's",
    record: "`block`, `speed` and `repeat` on the run sheet",
  },
  {
    pitfalls: [],
    when: "at each run",
    ask: "Is the obstacle fixed, is everybody out of the way of a wheel that falls back, and can the drive be stopped from there?",
    why: "A wheel that loses an edge falls or throws the obstacle; a drive that stalls against it winds up",
    record: "`climbed` on the run sheet, written down before the next trial",
  },
  {
    pitfalls: [50],
    when: "after the day",
    ask: "Was one wheel pressed before the first and after the last run?",
    why: "Spokes wear and cores settle; without a second press run nothing says when",
    record: "two load–deflection runs of every flexible wheel",
  },
  {
    pitfalls: [51, 52],
    when: "before the day",
    ask: "Which comparisons are the question? Write them down before the first run",
    why: "The best of many designs looks better than it is, and one of twenty comparisons differs by chance; drawbar gives every wheel with its uncertainty and names no winner",
    record: "the plan's comparisons, in the remark of the run sheet or beside the day",
  },
];

/** Pitfalls that cannot happen to a day because of how drawbar counts, and where that is proved. */
export const ruledOut: readonly { readonly pitfall: number; readonly how: string; readonly proof: string }[] = [
  { pitfall: 4, how: "slip of a driven wheel and skid of a braked one are two measures, chosen by which speed is greater, so that neither runs away", proof: "tests/processing/tractionRun.test.ts" },
  { pitfall: 8, how: "speeds are least-squares slopes over whole revolutions; samples are never differenced, and one count of the encoder is a stated uncertainty", proof: "tests/processing/conditioning/window.test.ts" },
  { pitfall: 29, how: "the window is cut on the wheel's angle: whole revolutions only", proof: "tests/processing/conditioning/window.test.ts" },
  { pitfall: 32, how: "a run's n is its revolutions, fewer where they depend on each other; samples are never counted", proof: "tests/processing/measures/reading.test.ts" },
  { pitfall: 53, how: "radius, drag, deflection and pull are not carried beyond the loads, speeds and slips measured (a tenth of them at most): the number is withheld with the reason", proof: "tests/processing/references.test.ts" },
];
