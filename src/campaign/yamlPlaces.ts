import { isAlias, isMap, isNode, isScalar, isSeq } from "yaml";
import type { Document, LineCounter, Node } from "yaml";

export type KeyPath = readonly PropertyKey[];

/** A mistake at a key of the rig description; readRig adds the line. */
export interface RigMistake {
  readonly code: string;
  readonly path: KeyPath;
  readonly message: string;
  readonly hint: string;
}

/** `loggers.frame.channels.pull.unit`, `sixAxis.matrix.0.3` */
export function showPath(path: KeyPath): string {
  return path.map(String).join(".");
}

/** `rig.yaml line 12, loggers.frame.channels.pull.unit`; for a missing key the line of what should hold it. */
export function yamlPlace(file: string, document: Document, lines: LineCounter, path: KeyPath): string {
  const line = lineOf(document, lines, path);
  return `${file}${line === null ? "" : ` line ${line}`}${path.length === 0 ? "" : `, ${showPath(path.map(short))}`}`;
}

/** A key can be as long as the file. */
function short(segment: KeyPath[number]): KeyPath[number] {
  return typeof segment === "string" && segment.length > 80 ? `${segment.slice(0, 80)}…` : segment;
}

function lineOf(document: Document, lines: LineCounter, path: KeyPath): number | null {
  let node: unknown = document.contents;
  let offset: number | null = null;
  for (const segment of path) {
    if (isAlias(node)) node = node.resolve(document);
    if (isMap(node)) {
      const pair = node.items.find((item) => String(isScalar(item.key) ? item.key.value : item.key) === String(segment));
      if (pair === undefined) break;
      offset = startOf(pair.key) ?? offset;
      node = pair.value;
    } else if (isSeq(node)) {
      node = node.items[Number(segment)];
      offset = startOf(node) ?? offset;
    } else break;
  }
  return offset === null ? null : lines.linePos(offset).line;
}

function startOf(node: unknown): number | null {
  return isNode(node) ? ((node as Node).range?.[0] ?? null) : null;
}
