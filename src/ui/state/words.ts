import type { ItemType, Mark, Through } from "../../connectivity/index.ts";
import type { ItemAction, Question } from "../../application/index.ts";

/** The kinds of question that have a place on the screen. */
export type AskKind = Extract<Question["kind"], "path" | "circuit" | "common" | "effect" | "test-points" | "expected">;

/** How a question reads on the screen: as an action of an item. */
export interface AskWords {
  readonly kind: AskKind & ItemAction;
  readonly title: string;
  readonly hint: string;
}

/** The questions, in the order they are offered. */
export const ASKS: readonly AskWords[] = [
  { kind: "circuit", title: "Circuit", hint: "Its supply side, its loads and its ground side" },
  { kind: "path", title: "Path to…", hint: "Every contact, wire and splice up to a second point, in order" },
  { kind: "test-points", title: "Test points", hint: "Permitted points, the safest first, and what is not permitted" },
  { kind: "expected", title: "Reading", hint: "What a meter shows here, normal or with faults switched on" },
  { kind: "effect", title: "Effect if open", hint: "Loads and inputs that stop working if it opens" },
  { kind: "common", title: "Common wiring", hint: "What several circuits share. Mark what fails and what works" },
];

/** The question that comes before all others. */
export const WHICH_VARIANT = "Which variant is this machine?";

/** What a path between two items may include. */
export const REACHES: readonly { readonly id: Through | ""; readonly title: string }[] = [
  { id: "", title: "as far as needed" },
  { id: "conductors", title: "wires and contacts only" },
  { id: "switches-and-fuses", title: "fuses and switches as well" },
  { id: "loads", title: "loads as well" },
  { id: "control-units", title: "control units as well" },
];

const TYPE_WORDS: Readonly<Record<ItemType, string>> = {
  contact: "Contact",
  wire: "Wire",
  splice: "Splice",
  stud: "Terminal stud",
  element: "Internal circuit element",
  component: "Component",
  connector: "Connector",
  segment: "Harness segment",
  zone: "Zone",
  net: "Net",
  code: "DTC",
  inner: "Internal node",
  "open-end": "Open end",
};

/** What a kind of item is called. */
export function typeWord(type: ItemType): string {
  return TYPE_WORDS[type];
}

const ROLE_WORDS: ReadonlyMap<string, string> = new Map([
  ["supply", "Supply side"],
  ["ground", "Ground side"],
  ["module", "To the control unit"],
  ["outlet", "To a diagnostic or unmated connector"],
  ["nothing", "No far end in the data"],
]);

/** What a side of a circuit is called. */
export function roleWords(role: string): string {
  return ROLE_WORDS.get(role) ?? role;
}

const LOSS_WORDS: ReadonlyMap<string, string> = new Map([
  ["itself", "is disconnected itself"],
  ["supply", "loses its supply"],
  ["ground", "loses its ground"],
  ["module", "loses its line to the control unit"],
  ["outlet", "loses its line to the diagnostic or unmated connector"],
]);

/** What a consumer loses, in words. */
export function lossWords(lost: readonly string[]): string {
  return lost.map((each) => LOSS_WORDS.get(each) ?? each).join(", ");
}

/** How deep a probe point goes into the machine, from the safest. */
export const PROBE_CLASSES: ReadonlyMap<string, { readonly title: string; readonly mark: string }> = new Map([
  ["P0", { title: "Without contact", mark: "○" }],
  ["P1", { title: "Made to be touched", mark: "●" }],
  ["P2", { title: "Breakout lead in line, connector stays mated", mark: "◆" }],
  ["P3", { title: "Connector disconnected, front probe with a matching test terminal", mark: "▲" }],
  ["P4", { title: "Screw terminal", mark: "■" }],
]);

/** Marks for circuits, with a sign that does not need colour. */
export const MARKS: readonly { readonly mark: Mark; readonly title: string; readonly sign: string }[] = [
  { mark: "bad", title: "fails", sign: "✕" },
  { mark: "good", title: "works", sign: "✓" },
  { mark: "unknown", title: "not known", sign: "?" },
];

/** How a lead is put on, in words. */
export { methodName } from "../../application/index.ts";

/** What the two sides of a connector are called, by id. */
export const SIDE_NAMES: ReadonlyMap<string, string> = new Map([
  ["harness", "harness side"],
  ["device", "component side"],
]);

/** What a lead is called; the sign on the meter stands with it. */
export const LEAD_NAMES = {
  red: "red (V/Ω) lead",
  black: "black (COM) lead",
  clamp: "current clamp",
} as const;
