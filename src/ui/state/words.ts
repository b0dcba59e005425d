import type { ItemType, Mark, Through } from "../../connectivity/index.ts";
import type { Question } from "../../application/index.ts";

/** The kinds of question that have a place on the screen. */
export type AskKind = Extract<Question["kind"], "path" | "circuit" | "common" | "effect" | "test-points" | "expected">;

/** How a kind of question reads on the screen. */
export interface AskWords {
  readonly kind: AskKind;
  readonly title: string;
  /** For narrow places. */
  readonly short: string;
  readonly hint: string;
}

/** The questions, in the order they are offered. */
export const ASKS: readonly AskWords[] = [
  {
    kind: "path",
    title: "What lies between",
    short: "Between",
    hint: "Every contact, wire and splice on the way, in order",
  },
  {
    kind: "circuit",
    title: "What hangs on this point",
    short: "Hangs on",
    hint: "What feeds it, what it serves, where it goes to ground",
  },
  { kind: "common", title: "What they share", short: "Shared", hint: "Mark what is bad and what is good" },
  {
    kind: "effect",
    title: "What stops without it",
    short: "Without",
    hint: "Loads and inputs that go dead if it opens",
  },
  {
    kind: "test-points",
    title: "Where may I measure",
    short: "Measure",
    hint: "Points ranked from the safest, and what is refused",
  },
  {
    kind: "expected",
    title: "What should it read",
    short: "Reads",
    hint: "What a meter should say between two points, healthy or with faults switched on",
  },
];

/** How far a way between two things may run. */
export const REACHES: readonly { readonly id: Through | ""; readonly title: string }[] = [
  { id: "", title: "as far as needed" },
  { id: "conductors", title: "wires and contacts only" },
  { id: "switches-and-fuses", title: "through fuses and switches" },
  { id: "loads", title: "through loads as well" },
  { id: "control-units", title: "through everything" },
];

const TYPE_WORDS: Readonly<Record<ItemType, string>> = {
  contact: "Contact",
  wire: "Wire",
  splice: "Splice",
  stud: "Stud",
  element: "Part inside",
  component: "Component",
  connector: "Connector",
  segment: "Bundle",
  zone: "Zone",
  net: "Net",
  code: "Trouble code",
  inner: "Inner point",
  "open-end": "Open end",
};

/** What a sort of thing is called. */
export function typeWord(type: ItemType): string {
  return TYPE_WORDS[type];
}

const ROLE_WORDS: ReadonlyMap<string, string> = new Map([
  ["supply", "Feed side, up to the supply"],
  ["ground", "Return side, down to ground"],
  ["module", "To the control unit"],
  ["outlet", "To an outlet"],
  ["nothing", "No supply, ground or control unit known"],
]);

/** What a side of a circuit is called. */
export function roleWords(role: string): string {
  return ROLE_WORDS.get(role) ?? role;
}

const LOSS_WORDS: ReadonlyMap<string, string> = new Map([
  ["itself", "is itself cut out"],
  ["supply", "loses its supply"],
  ["ground", "loses its ground"],
  ["module", "loses its line to the control unit"],
  ["outlet", "loses its outlet"],
]);

/** What a consumer loses, in words. */
export function lossWords(lost: readonly string[]): string {
  return lost.map((each) => LOSS_WORDS.get(each) ?? each).join(", ");
}

/** How deep a probe point goes into the machine, from the safest. */
export const PROBE_CLASSES: ReadonlyMap<string, { readonly title: string; readonly mark: string }> = new Map([
  ["P0", { title: "Without contact", mark: "○" }],
  ["P1", { title: "Made to be touched", mark: "●" }],
  ["P2", { title: "Adapter in line, connector stays mated", mark: "◆" }],
  ["P3", { title: "Connector opened, matching terminal from the front", mark: "▲" }],
  ["P4", { title: "Screw terminal", mark: "■" }],
]);

/** Marks for circuits, with a sign that does not need colour. */
export const MARKS: readonly { readonly mark: Mark; readonly title: string; readonly sign: string }[] = [
  { mark: "bad", title: "bad", sign: "✕" },
  { mark: "good", title: "good", sign: "✓" },
  { mark: "unknown", title: "not known", sign: "?" },
];

const METHOD_WORDS: ReadonlyMap<string, string> = new Map([
  ["clamp", "current clamp"],
  ["tip", "meter tip on bare metal"],
  ["clip", "lead clipped on beforehand"],
  ["fuse-window", "test window of the fuse"],
  ["mating-adapter", "mating adapter"],
  ["in-line", "adapter in line"],
  ["relay-extension", "relay extension"],
  ["front-probe", "matching terminal from the front"],
  ["screw", "tip on the screw"],
  ["back-probe", "probe from behind, past the wires"],
  ["pierce", "probe through the insulation"],
  ["tip-in-socket", "meter tip in the cavity"],
]);

/** How a reading is taken, in words. */
export function methodWords(method: string): string {
  return METHOD_WORDS.get(method) ?? method;
}

const METER_WORDS: ReadonlyMap<string, string> = new Map([
  ["dc-voltage", "dc-voltage"],
  ["resistance", "resistance"],
  ["clamp", "clamp meter"],
  ["test-lamp", "test lamp"],
]);

/** What a meter is called. */
export function meterWord(meter: string): string {
  return METER_WORDS.get(meter) ?? meter;
}
