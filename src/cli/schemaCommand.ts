import { mkdirSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { jsonSchemas } from "../campaign/schemas.ts";
import { resultsSchema } from "../report/resultsSchema.ts";
import { exitCodes } from "./exitCodes.ts";

export function schemaCommand(out: string): number {
  mkdirSync(out, { recursive: true });
  for (const [name, schema] of Object.entries({ ...jsonSchemas(), results: resultsSchema() })) {
    const path = resolve(join(out, `${name}.schema.json`));
    writeFileSync(path, `${JSON.stringify(schema, null, 2)}\n`);
    process.stdout.write(`${path}\n`);
  }
  return exitCodes.done;
}
