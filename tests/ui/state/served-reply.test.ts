import { describe, expect, test } from "vitest";
import { readReply } from "../../../src/ui/state/served-reply.ts";

describe("readReply()", () => {
  // RFC 9110: 404 and 410 say that there is nothing; every other error leaves open what there is.
  test.each([404, 410])("%i says that there is no machine", (status) => {
    expect(readReply(status, "There is nothing here.")).toEqual({ kind: "none" });
  });

  test.each([401, 403, 408, 429, 500, 502, 503, 204])("%i does not", (status) => {
    expect(readReply(status, "Try later.\n")).toMatchObject({
      kind: "fault",
      words: `The server answered with an error (${status}): Try later.`,
    });
  });

  test("gives the text, whatever it is, to be opened or refused as a document", () => {
    expect(readReply(200, "<!doctype html>")).toEqual({ kind: "text", text: "<!doctype html>" });
  });

  test("does not show the page of a server as its words, nor a long text whole", () => {
    expect(readReply(502, " <html><body>Bad</body></html>")).toMatchObject({
      words: "The server answered with an error (502).",
    });
    const { words } = readReply(500, "x".repeat(5000)) as { words: string };
    expect(words.length).toBeLessThan(300);
  });
});
