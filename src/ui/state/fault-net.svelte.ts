import { caseFileName, writeCase } from "../../application/index.ts";
import { saveText } from "./data-save.ts";
import { stampNow } from "./job-clock.ts";

/** A fault of the program that reached the page. */
export interface Failure {
  /** When (ISO 8601), as the clock of the device has it. */
  readonly at: string;
  /** What the page was doing. */
  readonly doing: string;
  readonly fault: unknown;
}

/** Version of the program, put in when the screen is built. */
const version = String(import.meta.env["VITE_OHMWARD_VERSION"]);

/** What stands where the work would have been shown. */
const SENTENCE = "The program failed here. Your entries are saved.";

/** Where every fault of the program ends: it is told, it can be saved as a case, and the page goes on. */
export class FaultNet {
  /** The first fault that was not put away yet; the ones after it often follow from it. */
  failure = $state.raw<Failure>();

  /**
   * Takes a fault.
   *
   * @param fault What was thrown.
   * @param doing What the page was doing.
   * @returns A sentence for the place of the work.
   */
  tell(fault: unknown, doing: string): string {
    this.failure ??= { at: stampNow().at, doing, fault };
    return SENTENCE;
  }

  /** Takes what nobody else caught. */
  watch(view: Window): void {
    view.addEventListener("error", ({ error, message }: ErrorEvent) => {
      // Told by browsers where a size changed once more in the same moment; it is drawn the next time.
      if (!message.startsWith("ResizeObserver loop")) this.tell(error ?? message, "showing the page");
    });
    view.addEventListener("unhandledrejection", ({ reason }) => void this.tell(reason, "working in the background"));
  }

  putAway(): void {
    this.failure = undefined;
  }

  /**
   * Hands the case to the person as a file.
   *
   * @param document The open harness document, if it is agreed that it goes into the case.
   */
  save(document: { readonly name: string; readonly data: unknown } | undefined): void {
    if (!this.failure) return;
    const { at, doing, fault } = this.failure;
    const files = document ? [{ name: document.name, text: JSON.stringify(document.data) }] : [];
    const asked = [doing, `${location.pathname}${location.search}${location.hash}`];
    const facts = { program: version, system: navigator.userAgent, at, asked, fault, files };
    saveText(caseFileName(at), "application/json", writeCase(facts));
  }
}

/** The one net of the page. */
export const faultNet = new FaultNet();
