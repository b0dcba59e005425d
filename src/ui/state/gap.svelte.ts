import { answerGap, applyJoins, likeConnectors, type GapWhat } from "../../application/index.ts";
import { app, type AppState } from "./app.svelte.ts";
import { machineArrival } from "./machine-arrival.svelte.ts";

/** What the screen knows of answers to gaps: who gives them, and what was last taken or refused. */
export class GapState {
  /** Who answers; stands in the document with every answer. */
  by = $state("");
  /** What came of the last answer, as a sentence. */
  told = $state("");

  readonly #desk: AppState;

  constructor(ofPage: AppState) {
    this.#desk = ofPage;
  }

  /** Takes an answer into the open machine, for one item or also for the connectors of the same shape. */
  answer(
    { about, what }: { readonly about: string; readonly what: GapWhat | "adapter" },
    value: string,
    isForAlike = false,
  ): void {
    this.#take(about, { what, value }, isForAlike);
  }

  /** Declares a line to be neither airbag nor high voltage. */
  declareHarmless(about: string, reason: string): void {
    this.#take(about, { what: "harmless", value: "yes", reason }, false);
  }

  /** Joins the wires of proposals that are right. */
  join(ids: readonly string[]): void {
    const document = this.#desk.machine?.document;
    const by = this.by.trim();
    if (!document || ids.length === 0) return;
    if (by === "") {
      this.told = "Wires not joined. Enter your name first.";
      return;
    }
    const joined = applyJoins(document, ids, { by, on: today() });
    if (!joined.ok) {
      this.told = `Wires not joined: no proposal ${joined.error.join(", ")}. Reload the page.`;
      return;
    }
    machineArrival.change(joined.value);
    this.told = `Joined: ${ids.join(", ")}. Save the machine to keep it.`;
  }

  #take(about: string, said: { what: string; value: string; reason?: string }, isForAlike: boolean): void {
    const document = this.#desk.machine?.document;
    if (!document) return;
    const alike = isForAlike ? likeConnectors(document, about).map(({ id }) => String(id)) : [];
    let changed = document;
    for (const each of [about, ...alike]) {
      const taken = answerGap(changed, { about: each, ...said, by: this.by, on: today() });
      if (!taken.ok) {
        this.told =
          this.by.trim() === ""
            ? "Answer not saved. Enter your name first."
            : `Answer not saved: ${taken.error.message} ${taken.error.hint}`;
        return;
      }
      changed = taken.value;
    }
    machineArrival.change(changed);
    const others = alike.length === 0 ? "" : ` and ${alike.length} more of its shape`;
    this.told = `${about}${others}: ${said.what} ${said.value}. Save the machine to keep it.`;
  }
}

function today(): string {
  return new Date().toISOString().slice(0, 10);
}

/** The one place of the page where gaps are answered. */
export const gapState = new GapState(app);
