import type { Hit } from "../../connectivity/index.ts";
import { Asked } from "./asked.svelte.ts";

/** One suggestion under a field. */
export type Suggestion = Pick<Hit, "item" | "label">;

/** Most suggestions at once. */
const MOST = 12;

/**
 * What fits the words typed so far in a build, best first; nothing while no build or no words are given. Has to be called while a component
 * is made.
 */
export function askSuggestions(build: () => string | undefined, text: () => string): Asked<"find"> {
  return new Asked(
    "find",
    () => {
      const [id, words] = [build(), text()];
      return id === undefined || words.trim() === "" ? undefined : [{ build: id, text: words, limit: MOST }];
    },
    { doing: "looking for items", isKept: true, isQuick: true },
  );
}
