import type { Life } from "../../src/numerics/weibullFit.ts";

/** Hours to failure, ten units still running when the test was stopped at 500 h. NIST/SEMATECH e-Handbook of Statistical Methods, 8.4.1.3 (page seen). */
export const handbookLives: readonly Life[] = [
  ...[54, 187, 216, 240, 244, 335, 361, 373, 375, 386].map((value) => ({ value, failed: true })),
  ...Array.from({ length: 10 }, () => ({ value: 500, failed: false })),
];
