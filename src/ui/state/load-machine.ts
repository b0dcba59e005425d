import type { Desk } from "./desk.svelte.ts";

/** Loads the machine beside the page, or where there is none the demo machine that comes with the program. */
export async function loadFirstMachine(desk: Desk): Promise<void> {
  // Both at once: where there is no machine beside the page, the demo is not waited for a second time.
  const waiting = import("../../../demo-harness/firnlark-45.ohm.json?raw");
  const text = await fetchText("./machine.ohm.json");
  if (text !== undefined) {
    desk.openText("machine.ohm.json", text);
    if (desk.machine) return;
  }
  const demo = await waiting;
  if (!desk.machine) desk.openText("firnlark-45.ohm.json", demo.default, { keepProblems: true });
}

async function fetchText(url: string): Promise<string | undefined> {
  try {
    const answer = await fetch(url, { headers: { accept: "application/json" } });
    const isPage = (answer.headers.get("content-type") ?? "").includes("text/html");
    return answer.ok && !isPage ? await answer.text() : undefined;
  } catch {
    // Opened without a server, or the server is gone: the demo machine will do.
    return undefined;
  }
}
