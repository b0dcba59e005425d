/** What the server said to the question for its machine. */
export type ServedReply =
  | { readonly kind: "text"; readonly text: string }
  /** It said that it has none. */
  | { readonly kind: "none" }
  /** It said nothing that can be relied on; what is wrong, and what to do. */
  | ServerFault;

/** Why it is not known which machine the server has. */
export interface ServerFault {
  readonly kind: "fault";
  readonly words: string;
  readonly todo: string;
}

/** Longest wait for the server of this computer, in milliseconds. */
const LONGEST_WAIT_MS = 30_000;
/** Most characters of a server's own words that are shown. */
const MOST_WORDS = 200;

/** Asks the server beside the page for its machine. */
export async function askServer(): Promise<ServedReply> {
  try {
    const signal = AbortSignal.timeout(LONGEST_WAIT_MS);
    const reply = await fetch("./machine.ohm.json", { headers: { accept: "application/json" }, signal });
    return readReply(reply.status, await reply.text());
  } catch {
    return {
      kind: "fault",
      words: "The server of this page cannot be reached.",
      todo: "Start the server again with the file of the machine: ohmward serve FILE. Then try again.",
    };
  }
}

/**
 * What a reply means. Only "not found" and "gone" say that there is no machine.
 *
 * Source: RFC 9110, sections 15.5.5 and 15.5.11.
 *
 * @param status HTTP status.
 * @param body Text of the reply.
 */
export function readReply(status: number, body: string): ServedReply {
  if (status === 404 || status === 410) return { kind: "none" };
  if (status === 200) return { kind: "text", text: body };
  const said = /^\s*</u.test(body) ? "" : body.trim().slice(0, MOST_WORDS);
  return {
    kind: "fault",
    words: `The server answered with an error (${status})${said === "" ? "." : `: ${said}`}`,
    todo: "Check that the file of the server exists and can be read. Then try again.",
  };
}

/** What is said of a machine that was served and cannot be opened; its problems are listed elsewhere. */
export const BROKEN_MACHINE: ServerFault = {
  kind: "fault",
  words: "The machine of the server cannot be opened.",
  todo: "Correct the errors listed above in its file. Then try again.",
};
