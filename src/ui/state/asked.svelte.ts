import type { MachineCalls, ReplyOf, RequestOf } from "../../application/index.ts";
import { app } from "./app.svelte.ts";
import { askMachine } from "./ask-machine.ts";

let count = 0;

/** What a part of the page asks of the open machine, and what it says; asked again whenever what is asked, or the machine, changes. */
export class Asked<Name extends keyof MachineCalls> {
  /** Undefined while nothing is asked or nothing is answered yet. */
  reply = $state.raw<ReplyOf<Name>>();
  #isBusy = false;
  #waiting: (() => void)[] = [];

  /**
   * Has to be made while a component is.
   *
   * @param name Which call.
   * @param request What is asked, as the only member of a list; undefined for nothing.
   * @param options `doing` says what the page was doing, should the program fail. With `isKept` the last reply stays until the next one
   *   is there: for lists that change while a person types. With `isQuick` it goes before longer work that waits.
   */
  constructor(
    name: Name,
    request: () => readonly [RequestOf<Name>] | undefined,
    { isKept = false, ...options }: { readonly doing: string; readonly isKept?: boolean; readonly isQuick?: boolean },
  ) {
    const lane = `part ${++count}`;
    $effect.pre(() => {
      const wanted = request();
      const document = app.machine?.document;
      if (!wanted || !document || !isKept) this.reply = undefined;
      this.#isBusy = wanted !== undefined && document !== undefined;
      if (!wanted || !document) return this.#settle();
      let isOver = false;
      askMachine(name, wanted[0], { document, lane, ...options }, (reply) => {
        if (isOver) return;
        this.reply = reply;
        this.#isBusy = false;
        this.#settle();
      });
      return () => {
        isOver = true;
      };
    });
  }

  /** The reply to what is asked now, once it is there. */
  async settled(): Promise<ReplyOf<Name> | undefined> {
    if (this.#isBusy) await new Promise<void>((done) => this.#waiting.push(done));
    return this.reply;
  }

  #settle(): undefined {
    for (const done of this.#waiting.splice(0)) done();
  }
}
