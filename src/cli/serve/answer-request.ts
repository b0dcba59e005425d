import { readFile, realpath } from "node:fs/promises";
import { join, sep } from "node:path";
import { fileReply, textReply, type Reply } from "./reply.ts";
import { wantedPath } from "./wanted-path.ts";

/** What is served: a folder of files, and the machine the screen asks for first. */
export interface Site {
  readonly folder: string;
  /** The harness document, read anew so that an edited file shows when the page is loaded again; undefined if it cannot be read. */
  readonly machine: () => Promise<Uint8Array | undefined>;
}

/** What of a request matters. */
export interface Request {
  readonly method: string | undefined;
  readonly target: string;
  readonly host: string | undefined;
}

/** Where the screen looks for its machine. */
const MACHINE_PATH = "machine.ohm.json";

/**
 * Answers one request.
 *
 * Only this computer is served, and only under its own names: a page of some other site that makes a browser ask here under a name of
 * its own is turned away.
 *
 * @param site What is served.
 * @param request The request.
 */
export async function answerRequest(site: Site, request: Request): Promise<Reply> {
  if (!isOwnHost(request.host)) return textReply(403, "This server answers to 127.0.0.1 and localhost only.");
  if (request.method !== "GET" && request.method !== "HEAD") {
    return textReply(405, "Only reading is possible here.", { allow: "GET, HEAD" });
  }
  const path = wantedPath(request.target);
  if (path === undefined) return textReply(400, "This is no path of this server.");
  if (path === MACHINE_PATH) {
    const bytes = await site.machine();
    return bytes ? fileReply(path, bytes) : textReply(500, "The harness document cannot be read now.");
  }
  const body = await readInside(site.folder, path);
  return body ? fileReply(path, body) : textReply(404, "There is nothing here.");
}

function isOwnHost(host: string | undefined): boolean {
  return host !== undefined && /^(?:127\.0\.0\.1|localhost|\[::1\])(?::\d+)?$/iu.test(host);
}

/** Reads a file of a folder; nothing for what is missing, no file, or leads out of the folder by a link. */
async function readInside(folder: string, path: string): Promise<Uint8Array | undefined> {
  try {
    const [root, file] = [await realpath(folder), await realpath(join(folder, path))];
    return file.startsWith(root + sep) ? await readFile(file) : undefined;
  } catch {
    // Missing, a folder, not readable: for a browser all the same.
    return undefined;
  }
}
