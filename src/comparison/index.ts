// Floor 2: what differs between two harness documents, whatever their ids.
export type { FieldValue, ItemKind } from "./item-list.ts";
export type { MatchedBy } from "./match-items.ts";
export type { ComparedMachine } from "./read-items.ts";
export {
  compareHarnesses,
  type ChangeSort,
  type FieldChange,
  type HarnessChange,
  type HarnessComparison,
} from "./compare-harnesses.ts";
