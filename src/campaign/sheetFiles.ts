/** Every file that people may write about a day, whichever of them are there. */
export const sheetFiles: readonly string[] = ["rig.yaml", ...["runs", "wheels", "beds", "cones", "surfaces", "inspections"].flatMap((table) => [`${table}.csv`, `${table}.xlsx`])];
