import type { Dataset, Group } from "h5wasm";
import { plainColumn } from "../columnLog.ts";
import type { ColumnLog, LogColumn, LogPart } from "../columnLog.ts";
import { columnImporter } from "../columnTable.ts";
import { heading } from "../headings.ts";
import { isHdf5 } from "../signatures.ts";
import { attributesOf } from "./attributes.ts";
import { datasetColumns, fieldValues, obstacleOf, typeName, typeObstacle } from "./datasets.ts";
import type { DatasetSide } from "./datasets.ts";
import { isDataset, isGroup, openFile, plainly } from "./openFile.ts";

const deepest = 32;
const mostDatasets = 20_000;
/** A dataset with more columns than this is no table of channels. */
const mostSides = 256;

/** HDF5 files: datasets in groups, with their units, packed or not; tables of several fields. */
export const hdf5 = columnImporter("HDF5", isHdf5, openHdf5);

async function openHdf5(bytes: Uint8Array): Promise<ColumnLog> {
  const { file, close } = await openFile(bytes);
  try {
    const parts: LogPart[] = [];
    const metadata: [string, string][] = [];
    walk(file, "", parts, metadata, { datasets: mostDatasets });
    return { format: "HDF5", partWord: "group", partMark: "/", joined: true, parts, metadata, evidence: ["HDF5: the file's mark"], findings: [], close };
  } catch (error) {
    close();
    throw error;
  }
}

function walk(group: Group, name: string, parts: LogPart[], metadata: [string, string][], budget: { datasets: number }, depth = 0): void {
  if (depth > deepest) throw new Error(`groups within groups, more than ${deepest} deep: a group that holds itself?`);
  const columns: LogColumn[] = [];
  parts.push(partNamed(name, columns));
  for (const [key, value] of attributesOf(group)) metadata.push([name === "" ? key : `${name}/${key}`, String(value)]);
  for (const key of plainly(() => group.keys())) {
    if (--budget.datasets < 0) throw new Error(`more than ${mostDatasets} datasets and groups`);
    const path = name === "" ? key : `${name}/${key}`;
    const child = plainly(() => group.get(key));
    if (isGroup(child)) walk(child, path, parts, metadata, budget, depth + 1);
    else if (isDataset(child)) {
      if (child.metadata.type === 6) parts.push(tablePart(path, child));
      else columns.push(...columnsOf(key, child));
    } else columns.push(plainColumn({ name: key, unit: null, rows: 0, type: "a link", obstacle: "a link that leads to nothing in this file", values: () => ({ kind: "numbers", values: new Float64Array(0) }) }));
  }
}

function partNamed(name: string, columns: readonly LogColumn[]): LogPart {
  return { name, columns, clocks: {}, rowName: (row) => `row ${row + 1}`, findings: [] };
}

function columnsOf(name: string, dataset: Dataset): LogColumn[] {
  const shape = dataset.shape ?? [];
  const [rows, columns] = shape;
  const flat = shape.length <= 1 || columns === undefined;
  const tooWide = !flat && (shape.length > 2 || columns > mostSides);
  const obstacle = obstacleOf(dataset) ?? (tooWide ? `an array of ${shape.join("×")}` : null);
  const whole: DatasetSide = { name, ranges: shape.map((size) => [0, size] as const), count: shape.reduce((product, size) => product * size, 1) };
  const sides = flat || obstacle !== null ? [whole] : Array.from({ length: columns }, (_, j): DatasetSide => ({ name: columns === 1 ? name : `${name}[:,${j}]`, ranges: [[0, rows as number], [j, j + 1]], count: rows as number }));
  return datasetColumns(dataset, sides, obstacle, heading(name).unit);
}

/** A dataset whose rows have fields is a table. */
function tablePart(path: string, dataset: Dataset): LogPart {
  const rows = dataset.shape?.[0] ?? 0;
  const obstacle = obstacleOf(dataset) ?? ((dataset.shape ?? []).length === 1 ? null : `an array of ${(dataset.shape ?? []).join("×")} records`);
  const members = dataset.metadata.compound_type?.members ?? [];
  return partNamed(path, members.map((member, index) => plainColumn({ name: member.name, unit: heading(member.name).unit, rows, type: typeName(member), obstacle: obstacle ?? typeObstacle(member), values: () => fieldValues(dataset, index, rows) })));
}
