/** What a thread can be asked to do. */
export interface ThreadTask {
  readonly body: "run" | "hash" | "fit";
  readonly task: unknown;
}

/**
 * From the sources the thread first gets the loader that the program itself was started with; all else is loaded after it, so
 * that every part is loaded once and in one way. The built package needs no loader.
 */
const loader: Promise<unknown> = import.meta.url.endsWith(".ts") ? sourceLoader("tsx/esm/api") : Promise.resolve();

/** Body of every thread of the pool. */
export default async function threadBody({ body, task }: ThreadTask): Promise<unknown> {
  await loader;
  if (body === "run") return (await import("./runWorker.ts")).default(task as Parameters<typeof import("./runWorker.ts").default>[0]);
  if (body === "hash") return (await import("./hashWorker.ts")).default(task as Parameters<typeof import("./hashWorker.ts").default>[0]);
  return (await import("./fitWorker.ts")).default(task as Parameters<typeof import("./fitWorker.ts").default>[0]);
}

async function sourceLoader(name: string): Promise<unknown> {
  return ((await import(name)) as { register: () => unknown }).register();
}
