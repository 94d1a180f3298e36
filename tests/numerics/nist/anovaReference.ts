/** Certified one-way analysis of variance. */
export interface AnovaReference {
  readonly source: string;
  readonly between: number;
  readonly within: number;
  readonly f: number;
  readonly rSquared: number;
  readonly residualSd: number;
  readonly groups: readonly (readonly number[])[];
}
