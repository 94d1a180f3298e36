import { Worker } from "node:worker_threads";
import type { WorkerOptions } from "node:worker_threads";

/** Starts a thread whose body is a file of this folder. It stands as .js in the built package and as .ts in the sources, where the thread loads its loader first. */
export function startWorker(body: "guardBody" | "textLaneBody", options: WorkerOptions): Worker {
  const built = !import.meta.url.endsWith(".ts");
  const url = new URL(`./${body}.${built ? "js" : "ts"}`, import.meta.url);
  if (built) return new Worker(url, options);
  return new Worker(`import(${JSON.stringify(import.meta.resolve("tsx/esm/api"))}).then(({ register }) => (register(), import(${JSON.stringify(url.href)})))`, { ...options, eval: true });
}
