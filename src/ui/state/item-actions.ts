import { tick } from "svelte";
import type { Item } from "../../connectivity/index.ts";
import type { ItemAction } from "../../application/index.ts";
import { app } from "./app.svelte.ts";
import { jobDraft } from "./job-draft.svelte.ts";
import { page } from "./page.svelte.ts";
import { search } from "./search.svelte.ts";

/** Asks a question about an item, or begins one that needs more: the second point of a path, another item to compare. */
export function doWith(item: Item, action: ItemAction): void {
  search.clear();
  page.open("harness");
  app.select(item);
  app.remember(item);
  void tick().then(goOn);
  switch (action) {
    case "path":
      return app.edit({ kind: "path", from: item.id, to: "" });
    case "common":
      return app.addThing(item.id);
    case "expected":
      return app.askFor({ kind: "expected", from: item.id, to: "" });
    case "circuit":
    case "effect":
    case "test-points":
      return app.askFor({ kind: action, from: item.id });
  }
}

/** What a press on a hit does: the faces and the pin-out of a connector, the circuit of anything else. */
export function openHit(item: Item): void {
  if (item.type !== "connector") return doWith(item, "circuit");
  search.clear();
  page.open("harness");
  app.select(item);
  app.remember(item);
  app.view = "connectors";
  void tick().then(goOn);
}

/** The focus goes where it goes on: into the field that is still empty, else to the answer. */
function goOn(): void {
  const fields = [...document.querySelectorAll<HTMLInputElement>("form[aria-label=Question] [role=combobox]")];
  const place = fields.find(({ value }) => value === "") ?? document.querySelector<HTMLElement>("[data-answer]");
  place?.focus();
}

/** Opens the form of a new job with a trouble code, or with the words of a complaint. */
export function startJob(about: { readonly code: string } | { readonly words: string }): void {
  search.clear();
  page.open("job", "new");
  jobDraft.start();
  if ("code" in about) jobDraft.setCode(about.code, "active");
  else jobDraft.edit({ words: about.words });
}
