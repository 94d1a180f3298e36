import { createServer } from "node:http";
import type { IncomingMessage, Server, ServerResponse } from "node:http";
import { UsageError } from "../../core/errors.ts";
import { page, pagePolicy } from "./page.ts";
import type { View } from "./view.ts";

const host = "127.0.0.1";
/** A sign of life, so that a lost connection is noticed. */
const heartbeatMs = 15_000;

export interface LiveServer {
  readonly address: string;
  readonly show: (view: View) => void;
  readonly close: () => Promise<void>;
}

/** Serves the live page on this machine alone; `port` 0 takes a free one. @throws UsageError when the port cannot be had */
export async function liveServer(port: number, first: View): Promise<LiveServer> {
  const instance = crypto.randomUUID();
  const listeners = new Set<ServerResponse>();
  let view = first;
  const server = createServer((request, response) => answer(request, response));
  const answer = (request: IncomingMessage, response: ServerResponse): void => {
    const own = portOf(server);
    response.setHeader("Cache-Control", "no-store");
    response.setHeader("X-Content-Type-Options", "nosniff");
    // A page from elsewhere that reaches this server under a name of its own gets nothing.
    if (![`${host}:${own}`, `localhost:${own}`].includes(request.headers.host ?? "")) return refuse(response, 421, "This server answers to its own address only.");
    if (request.method !== "GET" && request.method !== "HEAD") return refuse(response, 405, "Nothing can be changed here.");
    const path = (request.url ?? "").split("?")[0];
    if (path === "/") {
      const nonce = crypto.randomUUID();
      response.writeHead(200, { "Content-Type": "text/html; charset=utf-8", "Content-Security-Policy": pagePolicy(nonce) });
      response.end(request.method === "HEAD" ? undefined : page(view, instance, nonce));
      return;
    }
    if (path !== "/events" || request.method === "HEAD") return refuse(response, 404, "There is nothing under this address.");
    response.writeHead(200, { "Content-Type": "text/event-stream; charset=utf-8" });
    response.write(`retry: 1000\n${message(instance, view, null)}`);
    listeners.add(response);
    response.on("close", () => listeners.delete(response));
  };
  await new Promise<void>((done, failed) => {
    server.once("error", (error: NodeJS.ErrnoException) => failed(new UsageError(`--port ${port}: expected a port that is free, found ${error.code === "EADDRINUSE" ? "one in use" : (error.code ?? error.message)}. Take another, or leave --port out.`)));
    server.listen(port, host, done);
  });
  const beat = setInterval(() => listeners.forEach((listener) => listener.write(": \n\n")), heartbeatMs);
  return {
    address: `http://${host}:${portOf(server)}/`,
    show: (next) => {
      const text = message(instance, next, view);
      view = next;
      listeners.forEach((listener) => listener.write(text));
    },
    close: () =>
      new Promise((done) => {
        clearInterval(beat);
        server.close(() => done());
        server.closeAllConnections();
      }),
  };
}

/** One event: the pieces that differ from what was sent before, or all. */
export function message(instance: string, view: View, before: View | null): string {
  const old = new Map(before?.cards ?? []);
  const data = {
    instance,
    title: view.title,
    n: view.n,
    spoken: view.spoken,
    parts: Object.fromEntries(Object.entries(view.parts).filter(([id, part]) => before?.parts[id] !== part)),
    cards: Object.fromEntries(view.cards.filter(([run, card]) => old.get(run) !== card)),
    order: view.cards.map(([run]) => run),
  };
  return `data: ${JSON.stringify(data)}\n\n`;
}

function portOf(server: Server): number {
  const address = server.address();
  return typeof address === "object" && address !== null ? address.port : 0;
}

function refuse(response: ServerResponse, status: number, text: string): void {
  response.writeHead(status, { "Content-Type": "text/plain; charset=utf-8" });
  response.end(`${text}\n`);
}
