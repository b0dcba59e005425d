import type { Fault } from "../truth/fault.ts";
import { isThere, type ElementRow, type HarnessFile } from "../truth/harness-file.ts";
import { Points } from "../truth/wiring.ts";
import type { Chance } from "./chance.ts";

// Faults as a workshop meets them, drawn with severities from a continuous range. How often which sort comes, and how often it is seen,
// moved or felt by hand: common practice, no source.

/** A fault with what mends it and where a person finds it without a meter. */
export interface DrawnFault {
  readonly sort: string;
  readonly faults: readonly Fault[];
  /** Names of repairs that mend it. */
  readonly repairs: readonly string[];
  /** Places where looking, moving, pulling or exchanging may show it, with the chance that it does. */
  readonly look: Seen;
  readonly move: Seen;
  readonly pull: Seen;
  readonly exchange: readonly string[];
  readonly isIntermittent: boolean;
}

interface Seen {
  readonly at: readonly string[];
  readonly share: number;
}

const NOWHERE: Seen = { at: [], share: 0 };
const rest = { look: NOWHERE, move: NOWHERE, pull: NOWHERE, exchange: [] as readonly string[], isIntermittent: false };

/** Everything in one build that may fail. */
interface Things {
  readonly chance: Chance;
  readonly points: Points;
  readonly contacts: readonly { readonly connector: string; readonly cavity: string }[];
  readonly wires: HarnessFile["wires"];
  readonly joints: readonly { readonly wire: string; readonly at: string; readonly isRing: boolean }[];
  readonly elements: readonly { readonly component: string; readonly kind: string; readonly row: ElementRow }[];
}

function thingsOf(machine: HarnessFile, options: readonly string[], chance: Chance): Things {
  const points = new Points(machine, options);
  const wires = machine.wires.filter(({ when }) => isThere(when, options));
  const ends = wires.flatMap(({ id, ends: both }) => both.map((end) => ({ wire: id, end })));
  const studs = new Set(machine.terminalStuds.map(({ id }) => id));
  const contacts = ends.flatMap(({ end }) => {
    const cut = end.lastIndexOf(":");
    const connector = points.connector(end.slice(0, cut));
    if (cut < 0 || connector === undefined || points.halves(connector).length < 2) return [];
    return [{ connector, cavity: end.slice(cut + 1) }];
  });
  return {
    ...{ chance, points, wires },
    contacts: [...new Map(contacts.map((each) => [`${each.connector}:${each.cavity}`, each])).values()],
    joints: ends
      .filter(({ end }) => !end.includes(":"))
      .map(({ wire, end }) => ({ wire, at: end, isRing: studs.has(end) })),
    elements: machine.components
      .filter(({ when, needs }) => isThere(when, options) && needs === undefined)
      .flatMap(({ id, kind, elements }) =>
        elements.filter(({ when }) => isThere(when, options)).map((row) => ({ component: id, kind, row })),
      ),
  };
}

const repairsOfElement = (component: string, { id, kind, of }: ElementRow): readonly string[] => {
  if (kind === "fuse") return [`fuse ${component}.${id}`];
  if (component !== "A3") return [`part ${component}`, `relay ${component}`];
  const coil = kind === "contact" ? (of ?? "") : id;
  return [`relay A3.${coil}`, `relay A3.${coil.replace("-coil", "")}`, `part A3.${coil.replace("-coil", "")}`];
};
const exchangeOfElement = (component: string, row: ElementRow): readonly string[] =>
  repairsOfElement(component, row).map((name) => name.slice(name.indexOf(" ") + 1));

function contactFault({ chance, contacts }: Things, way: "open" | "resistance" | "now and then"): DrawnFault {
  const { connector, cavity } = chance.pick(contacts);
  const of = `${connector}:${cavity}`;
  const share = { "now and then": 0.6, open: 0.7, resistance: 0.5 }[way];
  return {
    ...{ ...rest, sort: `contact, ${way}`, repairs: [`contact ${of}`], isIntermittent: way === "now and then" },
    faults: [way === "resistance" ? { kind: "resistance", of, ohm: chance.byRatio(0.05, 3000) } : { kind: "open", of }],
    look: { at: [connector, of], share: 0.4 },
    move: { at: [connector, of], share: way === "now and then" ? 0.7 : 0.1 },
    pull: { at: [of], share },
  };
}

function jointFault({ chance, joints }: Things): DrawnFault {
  const { wire, at, isRing } = chance.pick(joints);
  const of = `${wire}@${at}`;
  const isOpen = chance.share() < 0.25;
  return {
    ...{ ...rest, sort: isRing ? "ring" : "splice", repairs: isRing ? [`ring ${of}`] : [`splice ${at}`] },
    faults: [
      isOpen ? { kind: "open", of } : { kind: "resistance", of, ohm: chance.byRatio(0.002, isRing ? 20 : 2000) },
    ],
    look: { at: [at, of], share: 0.6 },
  };
}

function wireFault(
  { chance, wires }: Things,
  way: "open" | "to ground" | "to supply" | "to another line" | "now and then",
): DrawnFault {
  const wire = chance.pick(wires.filter(({ route }) => route !== undefined && route.length > 0));
  const segment = chance.pick(wire.route ?? []);
  const beside = wires.filter(
    ({ id, net, route }) => id !== wire.id && net !== wire.net && route?.includes(segment) === true,
  );
  const ohm = chance.byRatio(0.01, 20);
  const short = (to: string): Fault => ({ kind: "short", of: wire.id, to, ohm, at: chance.share() });
  const to = {
    "to ground": "GND-C1",
    "to supply": "A3.S1",
    "to another line": beside.length === 0 ? "GND-E1" : chance.pick(beside).ends[0],
  };
  const isOpen = way === "open" || way === "now and then";
  return {
    ...{ ...rest, sort: `wire, ${way}`, repairs: [`wire ${wire.id}`], isIntermittent: way === "now and then" },
    faults: [isOpen ? { kind: "open", of: wire.id } : short(to[way])],
    look: { at: [segment], share: isOpen ? 0.3 : 0.6 },
    move: { at: [segment], share: way === "now and then" ? 0.7 : 0.1 },
  };
}

function connectorFault({ chance, contacts, points }: Things, way: "off" | "bridged" | "swapped"): DrawnFault {
  const { connector, cavity } = chance.pick(contacts);
  const [half = ""] = points.halves(connector);
  const others = contacts.filter((each) => each.connector === connector && each.cavity !== cavity);
  if (way === "off" || others.length === 0)
    return {
      ...{ ...rest, sort: "connector off", repairs: [`plug ${connector}`], look: { at: [connector], share: 0.98 } },
      faults: [{ kind: "unplugged", of: connector }],
    };
  const other = chance.pick(others).cavity;
  const both = [`${half}:${cavity}`, `${half}:${other}`] as const;
  return {
    ...{ ...rest, sort: `cavities ${way}`, look: { at: [connector], share: 0.5 } },
    repairs: [`cavities ${connector}:${cavity} ${other}`, `cavities ${connector}:${other} ${cavity}`],
    faults: [
      way === "bridged" ? { kind: "bridge", of: both, ohm: chance.byRatio(0.05, 2000) } : { kind: "swapped", of: both },
    ],
  };
}

function elementFault({ chance, elements }: Things): DrawnFault {
  const { component, row } = chance.pick(elements.filter(({ row: { kind } }) => kind !== "bar"));
  const of = `${component}.${row.id}`;
  const made = (sort: string, fault: Fault): DrawnFault => ({
    ...{ ...rest, sort, faults: [fault], repairs: repairsOfElement(component, row) },
    exchange: row.kind === "fuse" ? [] : exchangeOfElement(component, row),
    look: row.kind === "fuse" ? { at: [of], share: 0.97 } : NOWHERE,
  });
  const isBad = chance.share() < 0.5;
  switch (row.kind) {
    case "fuse":
      return made("fuse blown", { kind: "blown", of });
    case "switch":
    case "contact":
    case "driver":
      if (isBad) return made("does not close", { kind: "stuck", of, is: "open" });
      return chance.share() < 0.5
        ? made("does not open", { kind: "stuck", of, is: "closed" })
        : made("worn contact", { kind: "resistance", of, ohm: chance.byRatio(0.005, 50) });
    case "source":
      if (row.role === "battery")
        return made("battery worn", {
          kind: "source",
          of,
          emf: 11 + 1.4 * chance.share(),
          ohm: chance.byRatio(0.008, 0.05),
        });
      return made("source dead", { kind: "source", of, off: true });
    case "divider":
      return isBad
        ? made("sensor dead", { kind: "open", of })
        : made("sensor off", { kind: "drift", of, plus: 0.5 * (chance.share() - 0.3) });
    default:
      return isBad
        ? made("part open", { kind: "open", of })
        : made("part off", { kind: "value", of, ohm: (row.resistanceOhm ?? 2500) * chance.byRatio(0.1, 10) });
  }
}

const SORTS: readonly (readonly [number, (things: Things) => DrawnFault])[] = [
  [14, (things) => contactFault(things, "open")],
  [10, (things) => contactFault(things, "resistance")],
  [6, (things) => contactFault(things, "now and then")],
  [14, jointFault],
  [12, (things) => wireFault(things, "open")],
  [8, (things) => wireFault(things, "to ground")],
  [3, (things) => wireFault(things, "to supply")],
  [4, (things) => wireFault(things, "to another line")],
  [4, (things) => wireFault(things, "now and then")],
  [4, (things) => connectorFault(things, "off")],
  [3, (things) => connectorFault(things, "bridged")],
  [3, (things) => connectorFault(things, "swapped")],
  [15, elementFault],
];

/** Draws a fault of a build. */
export function drawFault(machine: HarnessFile, options: readonly string[], chance: Chance): DrawnFault {
  const things = thingsOf(machine, options, chance);
  let at = chance.share() * SORTS.reduce((sum, [weight]) => sum + weight, 0);
  for (const [weight, draw] of SORTS) {
    at -= weight;
    if (at < 0) return draw(things);
  }
  return elementFault(things);
}
