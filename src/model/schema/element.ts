import { z } from "zod";
import { BOUNDS, MOST_ITEMS, within, type Bounds } from "./bounds.ts";
import { AddressText, ComponentId, LocalId, Part, Text, When, ZoneId } from "./common.ts";

const ohm = within(BOUNDS.ohm);
const volt = within(BOUNDS.volt);
const voltSize = within(BOUNDS.voltSize);
/** What every element has. `between` are its two terminals; the order matters where the kind says so. */
const common = {
  id: LocalId,
  label: Text.optional(),
  between: z.tuple([AddressText, AddressText]),
  part: Part.optional().describe("The part that is mounted, such as the fuse or relay"),
  when: When.optional(),
};

/** A table of input and output values, input rising: straight lines between, for a thermistor straight in the logarithm of the ohms. */
const tableOf = (input: Bounds, output: Bounds): z.ZodType<[number, number][], [number, number][]> =>
  z
    .array(z.tuple([within(input), within(output)]))
    .min(2)
    .max(500)
    .superRefine((rows, { addIssue }) => {
      rows.forEach(([value], row) => {
        const before = rows[row - 1]?.[0] ?? -Infinity;
        if (value > before) return;
        const message = `The inputs of a table rise from row to row: ${value} does not come after ${before}`;
        addIssue({ code: "custom", path: [row, 0], message });
      });
    });

const Resistor = z.strictObject({
  ...common,
  kind: z.literal("resistor"),
  resistanceOhm: ohm,
  tolerancePercent: within(BOUNDS.percent).optional(),
});
/** Thermistor; `curve` is either the beta equation or a table of degrees C and ohm. */
const Ntc = z.strictObject({
  ...common,
  kind: z.literal("ntc"),
  quantity: LocalId,
  curve: z.union([
    z.strictObject({
      referenceOhm: within(BOUNDS.curveOhm),
      referenceC: within(BOUNDS.sensorC),
      betaK: within(BOUNDS.betaK),
    }),
    z.strictObject({ tableCOhm: tableOf(BOUNDS.sensorC, BOUNDS.curveOhm) }),
  ]),
});
/** Relay or contactor coil; a diode suppressor has its cathode at the first terminal. */
const Coil = z.strictObject({
  ...common,
  kind: z.literal("coil"),
  resistanceOhm: ohm,
  suppressor: z
    .union([
      z.strictObject({ kind: z.literal("resistor"), resistanceOhm: ohm }),
      z.strictObject({ kind: z.literal("diode") }),
    ])
    .optional(),
  pullInVolt: voltSize.optional(),
  dropOutVolt: voltSize.optional(),
});
/** Relay contact, by declared function: `make` closes when coil `of` is energised, `break` opens. */
const Contact = z.strictObject({
  ...common,
  kind: z.literal("contact"),
  of: LocalId,
  form: z.enum(["make", "break"]),
  resistanceOhm: ohm,
});
const Switch = z.strictObject({
  ...common,
  kind: z.literal("switch"),
  resistanceOhm: ohm,
  rest: z.enum(["open", "closed"]),
});
/** Fuse; `testWindows` says that both sides can be touched at the top of the fitted fuse. */
const Fuse = z.strictObject({
  ...common,
  kind: z.literal("fuse"),
  ratedAmpere: within(BOUNDS.ratedAmpere),
  resistanceOhm: ohm,
  style: z.enum(["blade", "strip", "cartridge"]),
  testWindows: z.boolean(),
});
/** Voltage source, first terminal positive; above `foldBack.limitAmpere` it behaves as `foldBack.resistanceOhm`. */
const Source = z.strictObject({
  ...common,
  kind: z.literal("source"),
  role: z.enum(["battery", "alternator", "regulator"]),
  voltageVolt: volt,
  resistanceOhm: ohm,
  whenCharging: z.strictObject({ voltageVolt: volt, resistanceOhm: ohm }).optional(),
  foldBack: z.strictObject({ limitAmpere: within(BOUNDS.ratedAmpere), resistanceOhm: ohm }).optional(),
});
/** Pull-up or pull-down of a module pin: first terminal the pin, second what it is pulled to. `towardVolt` where that is no node of its own. */
const Bias = z.strictObject({
  ...common,
  kind: z.literal("bias"),
  pull: z.enum(["up", "down", "middle"]),
  resistanceOhm: ohm,
  towardVolt: volt.optional(),
});
/** Module output: first terminal the pin, second the rail it switches to. */
const Driver = z.strictObject({
  ...common,
  kind: z.literal("driver"),
  side: z.enum(["high", "low"]),
  resistanceOhm: ohm,
  voltageVolt: volt.optional(),
});
/** Ratiometric sensor or potentiometer: `between` top and bottom, `tap` the signal; `ratio` gives tap over supply by quantity. */
const Divider = z.strictObject({
  ...common,
  kind: z.literal("divider"),
  tap: AddressText,
  quantity: LocalId,
  ratio: tableOf(BOUNDS.quantity, BOUNDS.ratio),
  sourceOhm: ohm,
  supplyAmpere: within(BOUNDS.ampere).optional(),
});
/** A consumer as a resistance; `resistanceByState` where it differs by machine state. */
const Load = z.strictObject({
  ...common,
  kind: z.literal("load"),
  resistanceOhm: ohm,
  resistanceByState: z
    .array(z.strictObject({ state: z.string().max(64), resistanceOhm: ohm }))
    .max(MOST_ITEMS.few)
    .optional(),
});
const Lamp = z.strictObject({
  ...common,
  kind: z.literal("lamp"),
  powerWatt: within(BOUNDS.watt),
  voltageVolt: within(BOUNDS.lampVolt),
});
/** Diode, first terminal the anode. */
const Diode = z.strictObject({
  ...common,
  kind: z.literal("diode"),
  forwardVolt: voltSize,
  resistanceOhm: ohm,
});
/** A copper bar or inner conductor. */
const Bar = z.strictObject({ ...common, kind: z.literal("bar"), resistanceOhm: ohm.optional() });

/** The inside of a component, as a static direct-current model. */
export const Element = z.discriminatedUnion("kind", [
  Resistor,
  Ntc,
  Coil,
  Contact,
  Switch,
  Fuse,
  Source,
  Bias,
  Driver,
  Divider,
  Load,
  Lamp,
  Diode,
  Bar,
]);

/** A part of the machine. Its terminals are the device halves of its connectors, its studs, and the inner points its elements name (`#gnd`). */
export const Component = z.strictObject({
  id: ComponentId,
  label: Text,
  kind: z.enum([
    "module",
    "distribution",
    "sensor",
    "valve",
    "injector",
    "motor",
    "switch",
    "relay",
    "heater",
    "battery",
    "alternator",
    "starter",
    "isolator",
    "fuse-bar",
    "terminator",
    "lamp",
    "other",
  ]),
  zone: ZoneId.optional(),
  note: Text.optional(),
  part: Part.optional().describe("The component as a part"),
  when: When.optional(),
  /**
   * What a module needs to be alive: below `leastVolt` between these terminals its drivers and sources, and pulls towards a voltage, do
   * nothing. Pull resistors to a point of their own stay where they are.
   */
  needs: z.strictObject({ positive: AddressText, negative: AddressText, leastVolt: voltSize }).optional(),
  elements: z.array(Element).max(MOST_ITEMS.some),
});

export type Element = z.infer<typeof Element>;
export type Component = z.infer<typeof Component>;
