import type { Component, Element } from "../../harness-model/index.ts";

/** Unit in which the value of a part is given. */
export type PartUnit = "W" | "A" | "Ω" | "V";

/** What a part of the library is built from. */
interface PartValues {
  /** Addresses of its terminals, in the order of {@link LibraryPart.terminals}. */
  readonly at: readonly string[];
  readonly value: number;
  readonly unit: PartUnit | undefined;
  /** Nominal voltage of the machine, in V. */
  readonly volt: number;
  /** Number of the part in its component, from 1; its elements get their ids from it. */
  readonly number: number;
  readonly component: string;
}

/** A usual part: its terminals, its value, and the elements that stand for it. */
export interface LibraryPart {
  /** Its name in an answer; words of the trade joined by hyphens. */
  readonly name: string;
  readonly kind: Component["kind"];
  readonly terminals: readonly string[];
  /** Units that its value may have; the first one is meant where none is written. Absent: it has no value. */
  readonly units?: readonly [PartUnit, ...PartUnit[]];
  /** Usual value at 12 V and at 24 V, in the first unit; absent: the value has to be given. */
  readonly typical?: readonly [at12: number, at24: number];
  readonly elements: (values: PartValues) => readonly Element[];
  /** How it stands by itself in a state: off without supply, on with the key on. */
  readonly follows?: "key" | "battery";
}

/** Resistance of a closed contact, in ohm. Common practice, no source: a few milliohm when new. */
const CONTACT_OHM = 0.005;

/**
 * Resistance of a consumer at its voltage, in ohm.
 *
 * @param values Its value in W, A or Ω.
 */
function consumerOhm({ value, unit, volt }: PartValues): number {
  if (unit === "Ω") return value;
  return unit === "A" ? volt / value : volt ** 2 / value;
}

function ends({ at }: PartValues): [string, string] {
  return [at[0] ?? "", at[1] ?? ""];
}

const load = (values: PartValues): readonly Element[] => [
  { id: `load-${values.number}`, kind: "load", between: ends(values), resistanceOhm: consumerOhm(values) },
];

const resistor = (values: PartValues): readonly Element[] => [
  { id: `resistor-${values.number}`, kind: "resistor", between: ends(values), resistanceOhm: values.value },
];

const relay = (values: PartValues): readonly Element[] => {
  const [, , common = "", make = "", rest] = values.at;
  const coil = `coil-${values.number}`;
  const contact = (form: "make" | "break", to: string): Element => ({
    id: `${form}-${values.number}`,
    kind: "contact",
    between: [common, to],
    of: coil,
    form,
    resistanceOhm: CONTACT_OHM,
  });
  return [
    { id: coil, kind: "coil", between: ends(values), resistanceOhm: values.value },
    contact("make", make),
    ...(rest === undefined ? [] : [contact("break", rest)]),
  ];
};

const switchOf =
  (rest: "open" | "closed") =>
  (values: PartValues): readonly Element[] => [
    { id: `switch-${values.number}`, kind: "switch", between: ends(values), resistanceOhm: CONTACT_OHM, rest },
  ];

const source =
  (role: "battery" | "alternator", resistanceOhm: number) =>
  (values: PartValues): readonly Element[] => [
    {
      id: `source-${values.number}`,
      kind: "source",
      between: ends(values),
      role,
      voltageVolt: values.value,
      resistanceOhm,
    },
  ];

/**
 * Cold resistance of a fuse, in ohm: about 77 mΩ·A over its rating. Source: data of one maker of blade fuses, 10 A 7.7 mΩ, 40 A 1.44 mΩ;
 * those between follow within a third.
 */
function fuseOhm(ampere: number): number {
  return 0.077 / ampere;
}

const FEED_AND_GROUND = ["feed", "ground"] as const;
const ENDS = ["one end", "other end"] as const;
const CONSUMER_UNITS = ["W", "A", "Ω"] as const;
/** What only uses current, between its feed and its ground. */
const CONSUMER = { terminals: FEED_AND_GROUND, elements: load };

/**
 * The usual parts whose inside a person can name in one step. Typical values say so wherever they are used. Sources: lamps UN Regulation 37,
 * filament lamps (P21W), from memory; relay coils: common practice, 60 to 120 Ω at 12 V and 250 to 400 Ω at 24 V in plug-in relays of ISO 7588;
 * terminator ISO 11898-2; battery at rest and alternator: common practice, no source; valve: common practice, 10 to 30 Ω at 12 V; motor, heater,
 * horn: common practice, no source; temperature sensor: a usual curve of 2.5 kΩ at 20 °C, common practice, no source; three-wire sensor: 10 % to
 * 90 % of its supply, common practice, no source.
 */
export const PART_LIBRARY: readonly LibraryPart[] = [
  {
    name: "relay",
    kind: "relay",
    terminals: ["coil", "coil", "common", "closed when energised"],
    units: ["Ω"],
    typical: [90, 320],
    elements: relay,
  },
  {
    name: "changeover-relay",
    kind: "relay",
    terminals: ["coil", "coil", "common", "closed when energised", "closed at rest"],
    units: ["Ω"],
    typical: [90, 320],
    elements: relay,
  },
  {
    name: "fuse",
    kind: "distribution",
    terminals: ENDS,
    units: ["A"],
    elements: (values) => [
      {
        id: `fuse-${values.number}`,
        kind: "fuse",
        between: ends(values),
        ratedAmpere: values.value,
        resistanceOhm: fuseOhm(values.value),
        style: "blade",
        testWindows: false,
      },
    ],
  },
  {
    name: "switch",
    kind: "switch",
    terminals: ENDS,
    elements: switchOf("open"),
    follows: "key",
  },
  { name: "switch-closed-at-rest", kind: "switch", terminals: ENDS, elements: switchOf("closed") },
  {
    name: "battery",
    kind: "battery",
    terminals: ["positive", "negative"],
    units: ["V"],
    typical: [12.65, 25.3],
    elements: source("battery", 0.01),
    follows: "battery",
  },
  {
    name: "feed",
    kind: "other",
    terminals: ["positive", "negative"],
    units: ["V"],
    typical: [12.65, 25.3],
    elements: source("battery", 0.05),
    follows: "key",
  },
  {
    name: "alternator",
    kind: "alternator",
    terminals: ["positive", "negative"],
    units: ["V"],
    typical: [14.2, 28.4],
    elements: source("alternator", 0.03),
  },
  {
    name: "temperature-sensor",
    kind: "sensor",
    terminals: ["signal", "return"],
    units: ["Ω"],
    typical: [2500, 2500],
    elements: (values) => [
      {
        id: `ntc-${values.number}`,
        kind: "ntc",
        between: ends(values),
        quantity: `${values.component}-temperature`,
        curve: { referenceOhm: values.value, referenceC: 20, betaK: 3545 },
      },
    ],
  },
  {
    name: "three-wire-sensor",
    kind: "sensor",
    terminals: ["supply", "return", "signal"],
    elements: (values) => [
      {
        id: `sensor-${values.number}`,
        kind: "divider",
        between: ends(values),
        tap: values.at[2] ?? "",
        quantity: `${values.component}-percent`,
        ratio: [
          [0, 0.1],
          [100, 0.9],
        ],
        sourceOhm: 100,
      },
    ],
  },
  { name: "valve", kind: "valve", units: ["Ω", "A", "W"], typical: [15, 60], ...CONSUMER },
  { name: "injector", kind: "injector", units: ["Ω"], ...CONSUMER },
  { name: "heater", kind: "heater", units: CONSUMER_UNITS, typical: [100, 100], ...CONSUMER },
  { name: "motor", kind: "motor", units: ["A", "W", "Ω"], typical: [5, 2.5], ...CONSUMER },
  {
    name: "led-lamp",
    kind: "lamp",
    terminals: FEED_AND_GROUND,
    units: CONSUMER_UNITS,
    typical: [3, 3],
    elements: (values) => {
      const [feed, ground] = ends(values);
      const inner = `#led-${values.number}`;
      return [
        { id: `led-${values.number}`, kind: "diode", between: [feed, inner], forwardVolt: 0.7, resistanceOhm: 0.1 },
        { id: `load-${values.number}`, kind: "load", between: [inner, ground], resistanceOhm: consumerOhm(values) },
      ];
    },
  },
  {
    name: "lamp",
    kind: "lamp",
    terminals: FEED_AND_GROUND,
    units: ["W"],
    typical: [21, 21],
    elements: (values) => [
      {
        id: `lamp-${values.number}`,
        kind: "lamp",
        between: ends(values),
        powerWatt: values.value,
        voltageVolt: values.volt,
      },
    ],
  },
  { name: "horn", kind: "other", units: CONSUMER_UNITS, typical: [50, 50], ...CONSUMER },
  {
    name: "resistor",
    kind: "other",
    terminals: ENDS,
    units: ["Ω"],
    elements: resistor,
  },
  {
    name: "terminator",
    kind: "terminator",
    terminals: ENDS,
    units: ["Ω"],
    typical: [120, 120],
    elements: resistor,
  },
  {
    name: "diode",
    kind: "other",
    terminals: ["anode", "cathode"],
    elements: (values) => [
      { id: `diode-${values.number}`, kind: "diode", between: ends(values), forwardVolt: 0.7, resistanceOhm: 0.1 },
    ],
  },
  {
    name: "joined",
    kind: "other",
    terminals: ENDS,
    elements: (values) => [{ id: `bar-${values.number}`, kind: "bar", between: ends(values) }],
  },
];

/**
 * Test adapters that a person may have at hand: the connector stays mated through the first two, the third one sits between a relay and its
 * socket. Minutes to fit one: common practice, no source.
 */
export const ADAPTERS = [
  { name: "breakout-lead", label: "Breakout lead", method: "in-line", minutes: 3 },
  { name: "t-lead", label: "T-lead", method: "in-line", minutes: 3 },
  { name: "relay-breakout", label: "Relay breakout adapter", method: "relay-extension", minutes: 2 },
] as const;
/** Name of an adapter of the library. */
export type AdapterName = (typeof ADAPTERS)[number]["name"];
