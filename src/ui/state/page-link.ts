import type { Item, ItemType } from "../../connectivity/index.ts";
import { readingsParts, readReadings, withFaults, type ReadingsLink } from "./readings.ts";
import { readQuestionLink, writeQuestionLink, type OpenSetting, type Question } from "../../application/index.ts";

/** What the address of the page holds. */
export interface PageLink extends Partial<ReadingsLink> {
  /** The mark of the machine it is about; undefined where the address names none. */
  readonly machine?: string;
  readonly setting: OpenSetting;
  readonly question?: Question;
  readonly selection?: Item;
}

const TYPES: readonly ItemType[] = [
  ...(["contact", "wire", "splice", "stud", "element", "component", "connector", "segment", "zone", "net"] as const),
  ...(["code", "inner"] as const),
];

/** Writes what the page shows as the query of its address, with the question mark; empty where nothing is chosen. */
export function writePageLink({ machine, setting, question, selection, ...readings }: PageLink): string {
  const parts: string[] = machine === undefined ? [] : [`machine=${encodeURIComponent(machine)}`];
  const { faults = [], showsReadings = false } = readings;
  if (question) parts.push(writeQuestionLink({ setting, question: withFaults(question, faults) }));
  else parts.push(...Object.entries(setting).map(([key, value]) => `${key}=${encodeURIComponent(String(value))}`));
  parts.push(...readingsParts({ faults, showsReadings }, question));
  if (selection) parts.push(`selected=${encodeURIComponent(`${selection.type} ${selection.id}`)}`);
  const text = parts.filter((part) => part !== "").join("&");
  return text === "" ? "" : `?${text}`;
}

/** Reads the query of the page's address; what cannot be read is left out. */
export function readPageLink(search: string): PageLink {
  const linked = readQuestionLink(search);
  const values = new URLSearchParams(search);
  const [build, state] = [values.get("build"), values.get("state")];
  const setting = linked?.setting ?? { ...(build !== null && { build }), ...(state !== null && { state }) };
  const selection = readSelection(values.get("selected") ?? "");
  const machine = values.get("machine") ?? "";
  return {
    ...(machine !== "" && { machine }),
    setting,
    ...(linked && { question: linked.question }),
    ...(selection && { selection }),
    ...readReadings(values),
  };
}

function readSelection(text: string): Item | undefined {
  const space = text.indexOf(" ");
  const type = TYPES.find((each) => each === text.slice(0, space));
  return type && text.length > space + 1 ? { type, id: text.slice(space + 1) } : undefined;
}
