import { readFileSync } from "node:fs";

// The harness document as the judge reads it: plain JSON, only the fields it needs, in its own words.

/** An end of an element, of a component that is there in one build. */
export interface ElementRow {
  readonly id: string;
  readonly kind: string;
  readonly between: readonly [string, string];
  readonly when?: string;
  readonly resistanceOhm?: number;
  readonly resistanceByState?: readonly { readonly state: string; readonly resistanceOhm: number }[];
  readonly role?: string;
  readonly voltageVolt?: number;
  readonly whenCharging?: { readonly voltageVolt: number; readonly resistanceOhm: number };
  readonly foldBack?: { readonly limitAmpere: number; readonly resistanceOhm: number };
  readonly ratedAmpere?: number;
  readonly suppressor?: { readonly resistanceOhm?: number };
  readonly pullInVolt?: number;
  readonly dropOutVolt?: number;
  readonly of?: string;
  readonly tap?: string;
  readonly quantity?: string;
  readonly ratio?: readonly (readonly [number, number])[];
  readonly sourceOhm?: number;
  readonly supplyAmpere?: number;
  readonly curve?: { readonly referenceOhm: number; readonly referenceC: number; readonly betaK: number };
  readonly rest?: string;
}

/** A component with its elements. */
export interface ComponentRow {
  readonly id: string;
  readonly label: string;
  readonly kind: string;
  readonly when?: string;
  readonly needs?: { readonly positive: string; readonly negative: string; readonly leastVolt: number };
  readonly elements: readonly ElementRow[];
}

/** A connector: its halves and its cavities. */
export interface ConnectorRow {
  readonly id: string;
  readonly kind: string;
  readonly component?: string;
  readonly when?: string;
  readonly contactOhm?: number;
  readonly sides: readonly { readonly id: string; readonly name?: string; readonly when?: string }[];
  readonly cavities: readonly { readonly id: string; readonly resistanceOhm?: number }[];
}

/** A wire or cable between two ends. */
export interface WireRow {
  readonly id: string;
  readonly ends: readonly [string, string];
  readonly crossSectionMm2: number;
  readonly lengthMm: number;
  readonly net?: string;
  readonly route?: readonly string[];
  readonly when?: string;
}

/** What a state of the machine sets, in its own words: on, off, open, closed or a share of the time. */
export interface StateRow {
  readonly id: string;
  readonly conditions?: readonly string[];
  readonly settings: readonly { readonly of: string; readonly is: string | { readonly dutyPercent: number } }[];
  readonly quantities: readonly { readonly name: string; readonly value: number }[];
}

/** The harness document. */
export interface HarnessFile {
  readonly builds: readonly { readonly id: string; readonly options: readonly string[] }[];
  readonly states: readonly StateRow[];
  readonly components: readonly ComponentRow[];
  readonly connectors: readonly ConnectorRow[];
  readonly splices: readonly { readonly id: string; readonly resistanceOhm: number; readonly when?: string }[];
  readonly terminalStuds: readonly { readonly id: string; readonly ringOhm: number; readonly when?: string }[];
  readonly wires: readonly WireRow[];
}

/** The demo machine as it stands in the repository. */
export function readDemoMachine(): HarnessFile {
  return JSON.parse(readFileSync("demo-harness/firnlark-45.ohm.json", "utf8")) as HarnessFile;
}

/** Whether something with this `when` is there in a build with these options: an option, or ! and an option. */
export function isThere(when: string | undefined, options: readonly string[]): boolean {
  if (when === undefined) return true;
  if (!/^!?[\w-]+$/u.test(when)) throw new Error(`The judge reads one option in "when", not "${when}"`);
  return when.startsWith("!") ? !options.includes(when.slice(1)) : options.includes(when);
}
