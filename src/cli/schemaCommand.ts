import { mkdirSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { jsonSchemas } from "../campaign/schemas.ts";
import { soilSchema } from "../campaign/soilFileSchema.ts";
import { resultsSchema } from "../report/resultsSchema.ts";
import { explained } from "../report/writeTogether.ts";
import { exitCodes } from "./exitCodes.ts";

export function schemaCommand(out: string): number {
  try {
    mkdirSync(out, { recursive: true });
    for (const [name, schema] of Object.entries({ ...jsonSchemas(), results: resultsSchema(), soil: soilSchema() })) {
      const path = resolve(join(out, `${name}.schema.json`));
      writeFileSync(path, `${JSON.stringify(schema, null, 2)}\n`);
      process.stdout.write(`${path}\n`);
    }
  } catch (error) {
    throw explained(error, out);
  }
  return exitCodes.done;
}
