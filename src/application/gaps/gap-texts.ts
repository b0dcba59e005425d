import { NetKind } from "../../harness-model/index.ts";
import type { Gap, GapWhat } from "./gap.ts";

interface GapText {
  readonly question: (name: string) => string;
  readonly blocks: Gap["blocks"];
  readonly choices: Gap["choices"];
  /** Where one value is no answer: where it is entered. */
  readonly enter?: string;
}

const choice = (value: string, label: string): Gap["choices"][number] => ({ value, label });
const TABLES = "the full set of tables or the harness document";

/** What each gap asks, what it stops, and the values that are offered. */
export const GAP_TEXTS: Readonly<Record<GapWhat, GapText>> = {
  wires: {
    question: () => "Which wires join the connectors?",
    blocks: ["tracing", "readings", "meter tests", "jobs"],
    choices: [],
    enter: "a pin table or wire list; ohmward import",
  },
  "far-end": {
    question: (name) => `Where does the far end of wire ${name} go?`,
    blocks: ["tracing", "jobs"],
    choices: [],
    enter: "the table the wire came from, or ohmward join where its signal and colour are known at another pin",
  },
  inside: {
    question: (name) => `What is inside ${name}: which pins does it join, and through what?`,
    blocks: ["readings", "jobs"],
    choices: [],
  },
  supply: {
    question: () => "Where does the machine get its supply from?",
    blocks: ["readings"],
    choices: [],
    enter: "the inside of the battery or of the connector that feeds the machine: inside=battery or inside=feed",
  },
  ground: {
    question: () => "Where is the main ground?",
    blocks: ["readings"],
    choices: [],
    enter: "a row of type ground in the table, or a stud of role ground in the harness document",
  },
  sealed: {
    question: () => "Is this connector sealed?",
    blocks: ["meter tests"],
    choices: [choice("yes", "Sealed"), choice("no", "Not sealed")],
  },
  permits: {
    question: () => "May it be disconnected and front-probed?",
    blocks: ["meter tests", "jobs"],
    choices: [
      choice("unplug,front-probe", "Disconnect and front-probe"),
      choice("unplug", "Disconnect only"),
      choice("none", "Neither"),
    ],
  },
  "terminal-size": {
    question: () => "What is its terminal size, in mm?",
    blocks: ["meter tests"],
    choices: [choice("0.64", "0.64"), choice("1.5", "1.5"), choice("2.8", "2.8"), choice("6.3", "6.3")],
  },
  access: {
    question: (name) =>
      name === "machine"
        ? "In which states can connectors usually be reached, and how long does it take?"
        : "In which states can it be reached, and how long does it take?",
    blocks: ["meter tests"],
    choices: [choice("5 min any", "5 min, any state"), choice("15 min any", "15 min, any state")],
  },
  zone: {
    question: () => "In which zone of the machine is it?",
    blocks: ["meter tests"],
    choices: [],
  },
  hazards: {
    question: (name) => `Which hazards are there in zone ${name}?`,
    blocks: ["meter tests"],
    choices: [choice("none", "None")],
  },
  conditions: {
    question: (name) => `Is the key on in state ${name}, is the battery disconnected, does the engine run?`,
    blocks: ["readings", "meter tests"],
    choices: [
      choice("battery-disconnected", "Battery disconnected"),
      choice("key-off", "Key off"),
      choice("key-on", "Key on"),
      choice("cranking", "Cranking"),
      choice("running", "Running"),
    ],
  },
  "net-kind": {
    question: (name) => `What is net ${name} for?`,
    blocks: ["meter tests"],
    choices: NetKind.options.map((kind) => choice(kind, kind.replaceAll("-", " "))),
  },
  "adapter-points": {
    question: (name) => `Which points does adapter ${name} bring out?`,
    blocks: ["meter tests"],
    choices: [],
    enter: `${TABLES} (adapters)`,
  },
};

/**
 * A gap of an item.
 *
 * @param about Id of the item, or `machine`.
 * @param what What is not known.
 * @param offered Values that are offered beside the usual ones.
 */
export function makeGap(about: string, what: GapWhat, offered: Gap["choices"] = []): Gap {
  const { question, blocks, choices, enter } = GAP_TEXTS[what];
  const command = `ohmward answer FILE ${/\s/u.test(about) ? `"${about}"` : about} ${what}=VALUE --by NAME`;
  return { about, what, blocks, question: question(about), choices: [...choices, ...offered], enter: enter ?? command };
}
