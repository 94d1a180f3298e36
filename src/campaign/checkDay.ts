import { loggersOf } from "./checkAlignment.ts";
import { list } from "./nearest.ts";
import type { RunPlan } from "./campaign.ts";
import type { Rig, RunKind } from "./rigSchema.ts";
import type { RigMistake } from "./yamlPlaces.ts";

/** What the run sheet needs of the rig description. Excluded runs need nothing. */
export function checkDay(rig: Rig, runs: readonly RunPlan[]): RigMistake[] {
  const mistakes: RigMistake[] = [];
  const byKind = new Map<RunKind, string[]>();
  for (const run of runs) if (run.kind !== null && run.excluded === null) byKind.set(run.kind, [...(byKind.get(run.kind) ?? []), run.id]);
  const need = (present: boolean, key: string, ids: readonly string[] | undefined, hint: string) => {
    if (present || ids === undefined) return;
    mistakes.push({ code: `missing-${key.toLowerCase()}`, path: [key], message: `expected ${key} for the runs ${list(ids)}, found nothing`, hint });
  };

  for (const [kind, ids] of byKind) {
    if (kind === "footprint" || loggersOf(rig, kind).length > 0) continue;
    mistakes.push({
      code: "kind-without-logger",
      path: ["loggers"],
      message: `expected a logger that records ${kind} runs (${list(ids)}), found none`,
      hint: `Add ${kind} to the kinds of the logger that recorded them.`,
    });
  }
  need(rig.zero !== undefined, "zero", byKind.get("traction"), "Write zero: { state: wheelLifted, beforeS: …, afterS: … }: without a zero block a traction run's forces have no origin.");
  need(rig.drop !== undefined, "drop", byKind.get("drop"), "Write drop: { filterClass: …, filterStandard: …, restS: …, carriageMass: … }: the filter class moves the peak, so there is no default.");
  for (const from of ["pad", "image"] as const) {
    const ids = runs.filter((run) => run.footprint?.from === from && run.excluded === null).map((run) => run.id);
    if (ids.length > 0 && rig.footprint?.[from] === undefined) mistakes.push({ code: `missing-footprint-${from}`, path: ["footprint"], message: `expected footprint: { ${from}: … } for the runs ${list(ids)}, found nothing`, hint: "Describe its files, which way the wheel rolls, the size of a cell or pixel, and from which level on there is contact." });
  }
  const circular = runs.filter((run) => run.plate?.shape === "circle" && run.excluded === null).map((run) => run.id);
  need(rig.soil !== undefined, "soil", circular.length > 0 ? circular : undefined, "Write soil: { circularPlateWidth: radius } or diameter: k_c differs twofold between the two, so there is no default.");
  return mistakes;
}
