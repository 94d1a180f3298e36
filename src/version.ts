import { readFileSync } from "node:fs";

/** drawbar's version, from its package. */
export const version: string = (JSON.parse(readFileSync(new URL("../package.json", import.meta.url), "utf8")) as { version: string }).version;
