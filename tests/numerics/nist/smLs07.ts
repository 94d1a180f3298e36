import type { AnovaReference } from "./anovaReference.ts";
import { smLs01 } from "./smLs01.ts";

/** The data of SmLs01 with 999 999 999 999 added. */
export const smLs07: AnovaReference = {
  ...smLs01,
  source: "NIST StRD, analysis of variance, SmLs07",
  groups: smLs01.groups.map((group) => group.map((value) => Number(String(value).replace("1.", "1000000000000.")))),
};
