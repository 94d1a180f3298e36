// ml-regression 6 ships no types; only what lineFit.ts uses is declared.
declare module "ml-regression" {
  export class TheilSenRegression {
    constructor(x: readonly number[], y: readonly number[]);
    readonly slope: number;
  }
}
