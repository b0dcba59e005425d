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
  title: Text.describe("Title for people"),
  machine: Text.describe("Name of the machine"),
  revision: Text.optional().describe("Revision of the data"),
  source: Text.optional().describe("Where the data comes from"),
  licence: Text.optional().describe("Licence of the data"),
  notes: z.array(Text).max(MOST_ITEMS.few).optional().describe("Remarks, in sentences"),
});

/**
 * Electrical system: voltages, the wire table lengths are turned into ohms with, ambient temperature, main supply terminals.
 * `usualAccess` holds for every connector and stud that has no access of its own.
 */
export const System = z.strictObject({
  nominalVolt: within(BOUNDS.systemVolt).describe("Nominal voltage in V"),
  chargingVolt: within(BOUNDS.systemVolt).optional().describe("Voltage while charging, in V"),
  wireStandard: z
    .enum(["iec-60228-class-5", "iso-6722", "awg-solid"])
    .describe("Wire table for the resistance of length and conductor size"),
  temperatureC: within(BOUNDS.temperatureC).describe("Ambient temperature in °C"),
  supply: z
    .strictObject({
      positive: AddressText.describe("Address of the positive terminal"),
      negative: AddressText.describe("Address of the negative terminal"),
    })
    .optional()
    .describe("Main supply terminals"),
  usualAccess: Access.optional().describe("Access of every connector and stud that has none of its own"),
});

/** An option the machine may be ordered with. */
export const Option = z.strictObject({
  id: OptionId.describe("Id of the option, such as `OPT-COLD`"),
  label: Text.describe("Label for people"),
});

/** A build: a named, complete set of options. */
export const Build = z.strictObject({
  id: BuildId.describe("Id of the variant (build)"),
  label: Text.describe("Label for people"),
  options: z.array(OptionId).max(MOST_ITEMS.few).describe("Ids of its options"),
});

/** How an element stands in a state: a switch or contact open or closed, a driver or source off, on, or on for a share of the time. */
export const Setting = z.strictObject({
  of: z.string().max(130).describe("Id of the element, such as `A3.K1-coil`"),
  is: z
    .union([
      z.enum(["open", "closed", "off", "on"]),
      z.strictObject({ dutyPercent: within(BOUNDS.dutyPercent).describe("Duty cycle in %") }),
    ])
    .describe("State: open, closed, off, on, or a duty cycle"),
});

/** A named quantity of the outside world in a state, such as a temperature; unit in words (`C`, `kPa`, `bar`, `%`). */
export const Quantity = z.strictObject({
  name: LocalId.describe("Name of the quantity"),
  value: within(BOUNDS.quantity).describe("Value in the unit beside it"),
  unit: Text.describe("Unit in words, such as `C`, `kPa`"),
});

/**
 * A state of the machine. `conditions` are what the safety rules ask for: `battery-disconnected` (battery isolator open), `key-off` (supply still
 * connected), `key-on`, `cranking`, `running`. An empty list is not known: everything may be live and turning.
 */
export const State = z.strictObject({
  id: StateId.describe("Id of the state, such as `KOEO`"),
  label: Text.describe("Label for people"),
  note: Text.optional().describe("Remark for people"),
  conditions: z
    .array(z.enum(["battery-disconnected", "key-off", "key-on", "cranking", "running"]))
    .max(MOST_ITEMS.few)
    .describe("What holds in the state; empty means not known"),
  settings: z.array(Setting).max(MOST_ITEMS.some).optional().describe("State of switches, drivers and sources"),
  quantities: z.array(Quantity).max(MOST_ITEMS.few).optional().describe("Quantities of the outside world"),
});

/** A zone of the machine with its dangers; an empty list says that there are none, without a list they are not known. */
export const Zone = z.strictObject({
  id: ZoneId.describe("Id of the zone, such as `Z1`"),
  label: Text.describe("Label for people"),
  hazards: z
    .array(Hazard)
    .max(MOST_ITEMS.few)
    .optional()
    .describe("Hazards in the zone; empty means none, absent means not known"),
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
  id: Text.describe("Net label, as the wires carry it"),
  kind: NetKind.optional().describe("What the net is for; absent means not known"),
  label: Text.optional().describe("Label for people"),
  note: Text.optional().describe("Remark for people"),
  boostedIn: z
    .array(StateId)
    .max(MOST_ITEMS.few)
    .optional()
    .describe("Ids of the states in which contact with a boosted line is dangerous"),
});

/**
 * A test adapter: what it fits, how it is used, which points it makes touchable: those listed, or `all` of what it fits; without
 * `points` that is not known. `in-line`: the connector stays mated through it;
 * `mating`: plugs onto a free connector; `relay-extension`: sits between a relay and its socket.
 */
export const Adapter = z.strictObject({
  id: LocalId.describe("Id of the adapter"),
  label: Text.describe("Label for people"),
  method: z.enum(["in-line", "mating", "relay-extension"]).describe("How it is used"),
  fits: z
    .array(z.string().max(64))
    .min(1)
    .max(MOST_ITEMS.some)
    .describe("Ids of the connectors, sides of connectors or elements it fits"),
  points: z
    .union([z.literal("all"), z.array(AddressText).max(MOST_ITEMS.some)])
    .optional()
    .describe("Addresses that it brings out, or `all`; absent means not known"),
  minutes: within(BOUNDS.adapterMinutes).optional().describe("Time to fit it, in minutes"),
  note: Text.optional().describe("Remark for people"),
});

/** A trouble code: text, the points whose circuit it watches, and how that circuit failed. */
export const Code = z.strictObject({
  id: LocalId.describe("Id of the trouble code, such as `FE111`"),
  label: Text.describe("Label for people"),
  module: ComponentId.optional().describe("Id of the control unit that sets it"),
  spn: z.number().int().min(0).max(524_287).optional().describe("Suspect parameter number (SAE J1939)"),
  fmi: z.number().int().min(0).max(31).optional().describe("Failure mode identifier (SAE J1939)"),
  points: z.array(AddressText).min(1).max(MOST_ITEMS.few).describe("Addresses of the circuit it watches"),
  failure: z
    .enum(["voltage-high", "voltage-low", "open", "short", "erratic", "implausible", "no-signal", "other"])
    .describe("How the circuit failed"),
  when: When.optional().describe(
    "Option expression that says on which variants (builds) this is fitted, such as `A & !B`; absent means on all",
  ),
  note: Text.optional().describe("Remark for people"),
});

/** A caution shown with every answer that touches one of the named things; without `on` it is shown everywhere. */
export const Caution = z.strictObject({
  id: LocalId.describe("Id of the caution"),
  text: Text.describe("The warning in words"),
  on: z
    .strictObject({
      zones: z.array(ZoneId).max(MOST_ITEMS.some).optional().describe("Ids of zones"),
      nets: z.array(Text).max(MOST_ITEMS.some).optional().describe("Net labels"),
      components: z.array(ComponentId).max(MOST_ITEMS.some).optional().describe("Ids of components"),
      states: z.array(StateId).max(MOST_ITEMS.few).optional().describe("Ids of states"),
    })
    .optional()
    .describe("The items it is shown with; absent means with all"),
});

export type Build = z.infer<typeof Build>;
/** Whether the key is on in a state: on, cranking or running. */
export function isKeyOn({ conditions }: State): boolean {
  return conditions.some((condition) => condition !== "battery-disconnected" && condition !== "key-off");
}

export type State = z.infer<typeof State>;
export type Zone = z.infer<typeof Zone>;
export type NetKind = z.infer<typeof NetKind>;
export type Net = z.infer<typeof Net>;
export type Adapter = z.infer<typeof Adapter>;
export type Code = z.infer<typeof Code>;
export type Caution = z.infer<typeof Caution>;
