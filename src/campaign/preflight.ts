/** A question that only people can answer: no recording shows it. */
export interface PreflightQuestion {
  /** number in the bench's list of pitfalls; null = general good practice */
  readonly pitfall: number | null;
  /** when: before the day, at each bed, at each run, after the day */
  readonly when: "before the day" | "at each bed" | "at each run" | "after the day";
  readonly ask: string;
  readonly why: string;
}

/** Asked because the data cannot tell. Printed by `drawbar check` and by the fault bench. */
export const preflightQuestions: readonly PreflightQuestion[] = [
  { pitfall: 2, when: "before the day", ask: "Is every wheel's radius in wheels.csv measured to the rim, and its lug height from the rim to the tips?", why: "A radius to the tips in one row shifts that wheel's slip by lug height over radius, and the ranking at low slip with it" },
];
