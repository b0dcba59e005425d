import type { Item } from "../../connectivity/index.ts";
import type { FindGroup } from "../../application/index.ts";

/** The one search field of the page: what is typed in it, and which hit stands out. */
export class SearchState {
  text = $state("");
  isOpen = $state(false);
  /** The group of which all hits are wanted. */
  group = $state<FindGroup>();
  /** The hit that stands out, shown on the drawing; undefined where none does. */
  active = $state.raw<Item>();

  /** Takes what is typed. */
  type(text: string): void {
    this.text = text;
    this.isOpen = text.trim() !== "";
    this.group = undefined;
    this.active = undefined;
  }

  /** Shuts the results; the words stay. */
  close(): void {
    this.isOpen = false;
    this.active = undefined;
  }

  /** Shuts the results and empties the field: a hit was taken. */
  clear(): void {
    this.type("");
  }
}

/** The one search of the page. */
export const search = new SearchState();
