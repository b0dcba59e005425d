import { z } from "zod";
import { BOUNDS, MOST_ITEMS, within } from "./bounds.ts";
import {
  Access,
  AddressText,
  BuildId,
  ComponentId,
  Hazard,
  LocalId,
  OptionId,
  StateId,
  Text,
  When,
  ZoneId,
} from "./common.ts";

/** What the document is and where it comes from. */
export const About = z.strictObject({
  title: Text,
  machine: Text,
  revision: Text.optional(),
  source: Text.optional(),
  licence: Text.optional(),
  notes: z.array(Text).max(MOST_ITEMS.few).optional(),
});

/**
 * Electrical system: voltages, the wire table lengths are turned into ohms with, ambient temperature, main supply terminals.
 * `usualAccess` holds for every connector and stud that has no access of its own.
 */
export const System = z.strictObject({
  nominalVolt: within(BOUNDS.systemVolt),
  chargingVolt: within(BOUNDS.systemVolt).optional(),
  wireStandard: z.enum(["iec-60228-class-5", "iso-6722", "awg-solid"]),
  temperatureC: within(BOUNDS.temperatureC),
  supply: z.strictObject({ positive: AddressText, negative: AddressText }).optional(),
  usualAccess: Access.optional(),
});

/** An option the machine may be ordered with. */
export const Option = z.strictObject({ id: OptionId, label: Text });

/** A build: a named, complete set of options. */
export const Build = z.strictObject({ id: BuildId, label: Text, options: z.array(OptionId).max(MOST_ITEMS.few) });

/** How an element stands in a state: a switch or contact open or closed, a driver or source off, on, or on for a share of the time. */
export const Setting = z.strictObject({
  of: z.string().max(130),
  is: z.union([z.enum(["open", "closed", "off", "on"]), z.strictObject({ dutyPercent: within(BOUNDS.dutyPercent) })]),
});

/** A named quantity of the outside world in a state, such as a temperature; unit in words (`C`, `kPa`, `bar`, `%`). */
export const Quantity = z.strictObject({ name: LocalId, value: within(BOUNDS.quantity), unit: Text });

/**
 * A state of the machine. `conditions` are what the safety rules ask for: `isolated` (battery isolator open), `key-off` (supply still
 * connected), `key-on`, `cranking`, `running`. An empty list is not known: everything may be live and turning.
 */
export const State = z.strictObject({
  id: StateId,
  label: Text,
  note: Text.optional(),
  conditions: z.array(z.enum(["isolated", "key-off", "key-on", "cranking", "running"])).max(MOST_ITEMS.few),
  settings: z.array(Setting).max(MOST_ITEMS.some).optional(),
  quantities: z.array(Quantity).max(MOST_ITEMS.few).optional(),
});

/** A zone of the machine with its dangers; an empty list says that there are none, without a list they are not known. */
export const Zone = z.strictObject({
  id: ZoneId,
  label: Text,
  hazards: z.array(Hazard).max(MOST_ITEMS.few).optional(),
});

/**
 * What a net is for; the safety rules read it. `battery-power`: a strong supply line that may carry a test lamp;
 * `supply`: other supply lines; `boosted`: driven above system voltage; `airbag` and `high-voltage`: no checks are suggested at all.
 */
export const NetKind = z.enum([
  "battery-power",
  "supply",
  "ground",
  "module-ground",
  "sensor-supply",
  "sensor-return",
  "signal",
  "driver",
  "data-bus",
  "start",
  "boosted",
  "airbag",
  "high-voltage",
]);

/**
 * A net label used by wires, with its kind; without a kind it is not known what the line is for. `boostedIn` names the states in which
 * a boosted line is dangerous to touch.
 */
export const Net = z.strictObject({
  id: Text,
  kind: NetKind.optional(),
  label: Text.optional(),
  note: Text.optional(),
  boostedIn: z.array(StateId).max(MOST_ITEMS.few).optional(),
});

/**
 * A test adapter: what it fits, how it is used, which points it makes touchable: those listed, or `all` of what it fits; without
 * `points` that is not known. `in-line`: the connector stays mated through it;
 * `mating`: plugs onto a free connector; `relay-extension`: sits between a relay and its socket.
 */
export const Adapter = z.strictObject({
  id: LocalId,
  label: Text,
  method: z.enum(["in-line", "mating", "relay-extension"]),
  fits: z.array(z.string().max(64)).min(1).max(MOST_ITEMS.some),
  points: z.union([z.literal("all"), z.array(AddressText).max(MOST_ITEMS.some)]).optional(),
  minutes: within(BOUNDS.adapterMinutes).optional(),
  note: Text.optional(),
});

/** A trouble code: text, the points whose circuit it watches, and how that circuit failed. */
export const Code = z.strictObject({
  id: LocalId,
  label: Text,
  module: ComponentId.optional(),
  spn: z.number().int().min(0).max(524_287).optional(),
  fmi: z.number().int().min(0).max(31).optional(),
  points: z.array(AddressText).min(1).max(MOST_ITEMS.few),
  failure: z.enum(["voltage-high", "voltage-low", "open", "short", "erratic", "implausible", "no-signal", "other"]),
  when: When.optional(),
  note: Text.optional(),
});

/** A caution shown with every answer that touches one of the named things; without `on` it is shown everywhere. */
export const Caution = z.strictObject({
  id: LocalId,
  text: Text,
  on: z
    .strictObject({
      zones: z.array(ZoneId).max(MOST_ITEMS.some).optional(),
      nets: z.array(Text).max(MOST_ITEMS.some).optional(),
      components: z.array(ComponentId).max(MOST_ITEMS.some).optional(),
      states: z.array(StateId).max(MOST_ITEMS.few).optional(),
    })
    .optional(),
});

export type Build = z.infer<typeof Build>;
/** Whether the key is on in a state: on, cranking or running. */
export function isKeyOn({ conditions }: State): boolean {
  return conditions.some((condition) => condition !== "isolated" && condition !== "key-off");
}

export type State = z.infer<typeof State>;
export type Zone = z.infer<typeof Zone>;
export type NetKind = z.infer<typeof NetKind>;
export type Net = z.infer<typeof Net>;
export type Adapter = z.infer<typeof Adapter>;
export type Code = z.infer<typeof Code>;
export type Caution = z.infer<typeof Caution>;
