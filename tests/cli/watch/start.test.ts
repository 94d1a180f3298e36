import { createServer, request } from "node:http";
import type { AddressInfo } from "node:net";
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { expect, test } from "vitest";
import { emptyDay, startWatch } from "./watching.ts";

test("a day whose sheets cannot be used yet: the page says where, and takes them when they are mended", async () => {
  const day = emptyDay();
  const runs = join(day, "runs.csv");
  writeFileSync(runs, "run;kind\nR001;no such heading row\n\n;;;\n");
  const rig = join(day, "rig.yaml");
  writeFileSync(rig, "rig: [");
  const watching = await startWatch(day);
  const page = async (): Promise<string> => (await fetch(watching.address)).text();
  expect(await page()).toMatch(/No usable run sheet yet[\s\S]*rig\.yaml line 1/);
  const whole = emptyDay();
  for (const file of ["runs.csv", "rig.yaml"]) writeFileSync(join(day, file), readFileSync(join(whole, file)));
  await expect.poll(page, { timeout: 15_000 }).toContain("Next: R001");
  expect(await watching.end()).toBe(0);
  for (const folder of [day, whole]) rmSync(dirname(folder), { recursive: true });
});

test("a port that is taken is said", async () => {
  const day = emptyDay();
  const other = createServer();
  await new Promise<void>((done) => void other.listen(0, "127.0.0.1", done));
  const { port } = other.address() as AddressInfo;
  await expect(startWatch(day, ["--port", String(port)])).rejects.toThrow(`--port ${port}: expected a port that is free, found one in use`);
  other.close();
  rmSync(dirname(day), { recursive: true });
});

test("only the address of this machine is answered", async () => {
  const day = emptyDay();
  const watching = await startWatch(day);
  const status = await new Promise<number | undefined>((done) => request(watching.address, { headers: { Host: "rebound.example" } }, (response) => done(response.statusCode)).end());
  expect(status).toBe(421);
  expect(await watching.end()).toBe(0);
  rmSync(dirname(day), { recursive: true });
});
