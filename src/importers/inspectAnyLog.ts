import { basename } from "node:path";
import { InputError } from "../core/errors.ts";
import type { LogContents } from "./contract.ts";
import { inspectBytes, openedFile } from "./inspectLog.ts";
import type { LogInspection } from "./inspectLog.ts";
import { formatOf, unknownFormat } from "./registry.ts";

const headBytes = 65_536;

/** What a log is, whatever its format, without a description. @throws InputError if it is empty, of no known format or cannot be opened */
export async function inspectAnyLog(path: string): Promise<LogInspection | LogContents> {
  const bytes = openedFile(path);
  const name = basename(path);
  if (bytes.length === 0) return inspectBytes(bytes, name);
  const head = bytes.subarray(0, headBytes);
  const format = formatOf(head, name);
  if (format === undefined) throw new InputError([unknownFormat(head, name)]);
  const { contents } = await format.load();
  return contents === null ? inspectBytes(bytes, name) : contents(bytes, name);
}
