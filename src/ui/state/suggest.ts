import { find } from "../../application/index.ts";
import type { Harness } from "../../harness-model/index.ts";
import type { Hit } from "../../connectivity/index.ts";

/** One suggestion under a field. */
export type Suggestion = Pick<Hit, "item" | "label">;

/** Most suggestions at once. */
const MOST = 12;

/** What fits the words typed so far, best first; nothing while nothing is typed. */
export function suggest(harness: Harness | undefined, text: string): readonly Suggestion[] {
  return harness ? find(harness, text, { limit: MOST }) : [];
}
