import { contentType } from "./content-type.ts";

/** What is sent back. */
export interface Reply {
  readonly status: number;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Uint8Array | string;
}

/** Everything comes from this server and nothing else is loaded; styles and pictures may also be made by the page itself. */
const POLICY = [
  "default-src 'self'",
  "style-src 'self' 'unsafe-inline'",
  "img-src 'self' data: blob:",
  "worker-src 'self' blob:",
  "object-src 'none'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join("; ");

const ALWAYS: Readonly<Record<string, string>> = {
  "content-security-policy": POLICY,
  "cross-origin-opener-policy": "same-origin",
  "cross-origin-resource-policy": "same-origin",
  "referrer-policy": "no-referrer",
  "x-content-type-options": "nosniff",
  "x-frame-options": "DENY",
  // The next build has the same address and other files.
  "cache-control": "no-cache",
};

/**
 * A file as a reply.
 *
 * Source: W3C Content Security Policy Level 3; the other fields by the WHATWG Fetch and HTML standards.
 *
 * @param path Its path, for the media type.
 * @param body What it holds.
 */
export function fileReply(path: string, body: Uint8Array | string): Reply {
  return { status: 200, headers: { ...ALWAYS, "content-type": contentType(path) }, body };
}

/**
 * A refusal or failure as a reply.
 *
 * @param status HTTP status.
 * @param text A sentence for people.
 * @param headers Further header fields.
 */
export function textReply(status: number, text: string, headers: Readonly<Record<string, string>> = {}): Reply {
  return { status, headers: { ...ALWAYS, "content-type": contentType("a.txt"), ...headers }, body: `${text}\n` };
}
