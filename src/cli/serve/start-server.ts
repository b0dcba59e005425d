import { createServer, type IncomingMessage, type Server, type ServerResponse } from "node:http";
import { err, ok, type Result } from "../../base/index.ts";
import { answerRequest, type Site } from "./answer-request.ts";
import { textReply } from "./reply.ts";

/** A server that runs. */
export interface RunningServer {
  readonly port: number;
  /** Stops it and ends every connection. */
  readonly stop: () => Promise<void>;
}

const HOST = "127.0.0.1";
/** Ports tried after the usual one before any free one is taken. */
const NEIGHBOURS = 20;

/**
 * Starts serving on this computer only.
 *
 * @param site What is served.
 * @param port The port that must be used; undefined for the usual one or, where that is taken, the next free one.
 * @param usualPort The usual one.
 * @returns The running server, or why it cannot run.
 */
export async function startServer(
  site: Site,
  port: number | undefined,
  usualPort: number,
): Promise<Result<RunningServer, string>> {
  const next = Array.from({ length: NEIGHBOURS + 1 }, (_, step) => usualPort + step);
  const ports = port === undefined ? [...next, 0] : [port];
  let reason = "";
  for (const each of ports) {
    const server = createServer((request, response) => void serveOne(site, request, response));
    const started = await listen(server, each);
    if (started.ok) return ok({ port: started.value, stop: () => stop(server) });
    reason = started.error;
  }
  return err(reason);
}

function listen(server: Server, port: number): Promise<Result<number, string>> {
  return new Promise((resolve) => {
    server.once("error", (fault: NodeJS.ErrnoException) => {
      const words = new Map([
        ["EADDRINUSE", `port ${port} is in use`],
        ["EACCES", `port ${port} may not be used`],
      ]);
      resolve(err(words.get(fault.code ?? "") ?? fault.message));
    });
    server.listen(port, HOST, () => {
      const address = server.address();
      resolve(typeof address === "object" && address !== null ? ok(address.port) : err("no address was given"));
    });
  });
}

async function serveOne(site: Site, request: IncomingMessage, response: ServerResponse): Promise<void> {
  const { method, url: target = "", headers } = request;
  const reply = await answerRequest(site, { method, target, host: headers.host }).catch(() =>
    textReply(500, "The server failed."),
  );
  response.writeHead(reply.status, { ...reply.headers, "content-length": Buffer.byteLength(reply.body) });
  response.end(method === "HEAD" ? undefined : reply.body);
}

function stop(server: Server): Promise<void> {
  return new Promise((resolve) => {
    server.close(() => resolve());
    // A browser keeps connections open; waiting for them would keep the program from ending.
    server.closeAllConnections();
  });
}
