import { z } from "zod";
import { BOUNDS, MOST_ITEMS, within, type Bounds } from "./bounds.ts";
import { AddressText, ComponentId, LocalId, Part, Text, When, ZoneId } from "./common.ts";

const ohm = within(BOUNDS.ohm);
const volt = within(BOUNDS.volt);
const voltSize = within(BOUNDS.voltSize);
/** What every element has. `between` are its two terminals; the order matters where the kind says so. */
const common = {
  id: LocalId.describe("Id, unique in its list"),
  label: Text.optional().describe("Label for people"),
  between: z.tuple([AddressText, AddressText]).describe("Addresses of its two terminals; `#name` is an internal node"),
  part: Part.optional().describe("The part that is mounted, such as the fuse or relay"),
  when: When.optional().describe(
    "Option expression that says on which variants (builds) this is fitted, such as `A & !B`; absent means on all",
  ),
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
  kind: z.literal("resistor").describe("Sort of element"),
  resistanceOhm: ohm.describe("Resistance in ohm"),
  tolerancePercent: within(BOUNDS.percent).optional().describe("Tolerance in %"),
});
/** Thermistor; `curve` is either the beta equation or a table of degrees C and ohm. */
const Ntc = z.strictObject({
  ...common,
  kind: z.literal("ntc").describe("Sort of element"),
  quantity: LocalId.describe("Name of the quantity of the outside world it depends on, such as a temperature"),
  curve: z
    .union([
      z.strictObject({
        referenceOhm: within(BOUNDS.curveOhm).describe("Resistance at the reference temperature, in ohm"),
        referenceC: within(BOUNDS.sensorC).describe("Reference temperature in °C"),
        betaK: within(BOUNDS.betaK).describe("Beta in K"),
      }),
      z.strictObject({
        tableCOhm: tableOf(BOUNDS.sensorC, BOUNDS.curveOhm).describe(
          "Rows of temperature in °C and resistance in ohm, temperature rising",
        ),
      }),
    ])
    .describe("Resistance over temperature: beta equation or table"),
});
/** Relay or contactor coil; a diode suppressor has its cathode at the first terminal. */
const Coil = z.strictObject({
  ...common,
  kind: z.literal("coil").describe("Sort of element"),
  resistanceOhm: ohm.describe("Resistance of the winding, in ohm"),
  suppressor: z
    .union([
      z.strictObject({
        kind: z.literal("resistor").describe("Sort of element"),
        resistanceOhm: ohm.describe("Resistance in ohm"),
      }),
      z.strictObject({ kind: z.literal("diode").describe("Sort of element") }),
    ])
    .optional()
    .describe("Suppressor across the coil; a diode has its cathode at the first terminal"),
  pullInVolt: voltSize.optional().describe("Voltage at which the relay pulls in, in V"),
  dropOutVolt: voltSize.optional().describe("Voltage below which the relay drops out, in V"),
});
/** Relay contact, by declared function: `make` closes when coil `of` is energised, `break` opens. */
const Contact = z.strictObject({
  ...common,
  kind: z.literal("contact").describe("Sort of element"),
  of: LocalId.describe("Id of the coil that moves it"),
  form: z.enum(["make", "break"]).describe("`make` closes when the coil is energised, `break` opens"),
  resistanceOhm: ohm.describe("Resistance when closed, in ohm"),
});
const Switch = z.strictObject({
  ...common,
  kind: z.literal("switch").describe("Sort of element"),
  resistanceOhm: ohm.describe("Resistance when closed, in ohm"),
  rest: z.enum(["open", "closed"]).describe("Position at rest"),
});
/** Fuse; `testWindows` says that both sides can be touched at the top of the fitted fuse. */
const Fuse = z.strictObject({
  ...common,
  kind: z.literal("fuse").describe("Sort of element"),
  ratedAmpere: within(BOUNDS.ratedAmpere).describe("Rated current in A"),
  resistanceOhm: ohm.describe("Resistance when whole, in ohm"),
  style: z.enum(["blade", "strip", "cartridge"]).describe("Style of the fuse"),
  testWindows: z.boolean().describe("Whether the fitted fuse has a test point on both sides"),
});
/** Voltage source, first terminal positive; above `foldBack.limitAmpere` it behaves as `foldBack.resistanceOhm`. */
const Source = z.strictObject({
  ...common,
  kind: z.literal("source").describe("Sort of element"),
  role: z.enum(["battery", "alternator", "regulator"]).describe("What the source is"),
  voltageVolt: volt.describe("Open-circuit voltage in V"),
  resistanceOhm: ohm.describe("Internal resistance in ohm"),
  whenCharging: z
    .strictObject({ voltageVolt: volt.describe("Voltage in V"), resistanceOhm: ohm.describe("Resistance in ohm") })
    .optional()
    .describe("Values while the alternator charges"),
  foldBack: z
    .strictObject({
      limitAmpere: within(BOUNDS.ratedAmpere).describe("Current above which it limits, in A"),
      resistanceOhm: ohm.describe("Resistance it behaves as above the limit, in ohm"),
    })
    .optional()
    .describe("How the source limits its current"),
});
/** Pull-up or pull-down of a module pin: first terminal the pin, second what it is pulled to. `towardVolt` where that is no node of its own. */
const Bias = z.strictObject({
  ...common,
  kind: z.literal("bias").describe("Sort of element"),
  pull: z.enum(["up", "down", "middle"]).describe("Direction of the pull"),
  resistanceOhm: ohm.describe("Resistance in ohm"),
  towardVolt: volt.optional().describe("Voltage it pulls to, in V, where that is no node of its own"),
});
/** Module output: first terminal the pin, second the rail it switches to. */
const Driver = z.strictObject({
  ...common,
  kind: z.literal("driver").describe("Sort of element"),
  side: z.enum(["high", "low"]).describe("Whether it switches the high or the low side"),
  resistanceOhm: ohm.describe("Resistance when on, in ohm"),
  voltageVolt: volt.optional().describe("Voltage it drives to, in V"),
});
/** Ratiometric sensor or potentiometer: `between` top and bottom, `tap` the signal; `ratio` gives tap over supply by quantity. */
const Divider = z.strictObject({
  ...common,
  kind: z.literal("divider").describe("Sort of element"),
  tap: AddressText.describe("Address of the signal terminal"),
  quantity: LocalId.describe("Name of the quantity of the outside world it depends on, such as a temperature"),
  ratio: tableOf(BOUNDS.quantity, BOUNDS.ratio).describe(
    "Rows of quantity and ratio (tap over supply, 0 to 1), quantity rising",
  ),
  sourceOhm: ohm.describe("Source resistance of the tap, in ohm"),
  supplyAmpere: within(BOUNDS.ampere).optional().describe("Supply current in A"),
});
/** A consumer as a resistance; `resistanceByState` where it differs by machine state. */
const Load = z.strictObject({
  ...common,
  kind: z.literal("load").describe("Sort of element"),
  resistanceOhm: ohm.describe("Resistance in ohm"),
  resistanceByState: z
    .array(
      z.strictObject({
        state: z.string().max(64).describe("Id of the state of the machine"),
        resistanceOhm: ohm.describe("Resistance in ohm"),
      }),
    )
    .max(MOST_ITEMS.few)
    .optional()
    .describe("Resistance by state of the machine, where it differs"),
});
const Lamp = z.strictObject({
  ...common,
  kind: z.literal("lamp").describe("Sort of element"),
  powerWatt: within(BOUNDS.watt).describe("Rated power in W"),
  voltageVolt: within(BOUNDS.lampVolt).describe("Rated voltage in V"),
});
/** Diode, first terminal the anode. */
const Diode = z.strictObject({
  ...common,
  kind: z.literal("diode").describe("Sort of element"),
  forwardVolt: voltSize.describe("Forward voltage in V"),
  resistanceOhm: ohm.describe("Series resistance in ohm"),
});
/** A copper bar or inner conductor. */
const Bar = z.strictObject({
  ...common,
  kind: z.literal("bar").describe("Sort of element"),
  resistanceOhm: ohm.optional().describe("Resistance in ohm"),
});

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
  id: ComponentId.describe("Id of the component, such as `B3`"),
  label: Text.describe("Label for people"),
  kind: z
    .enum([
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
    ])
    .describe("Sort of component"),
  zone: ZoneId.optional().describe("Id of the zone of the machine"),
  note: Text.optional().describe("Remark for people"),
  part: Part.optional().describe("The component as a part"),
  when: When.optional().describe(
    "Option expression that says on which variants (builds) this is fitted, such as `A & !B`; absent means on all",
  ),
  needs: z
    .strictObject({
      positive: AddressText.describe("Address of the positive supply terminal"),
      negative: AddressText.describe("Address of the negative supply terminal"),
      leastVolt: voltSize.describe("Lowest supply voltage at which it works, in V"),
      wake: AddressText.optional().describe(
        "Address of the terminal that must have `leastVolt` against the negative terminal too, such as the ignition input; absent means none",
      ),
      wakeOutputs: z
        .array(LocalId)
        .max(MOST_ITEMS.few)
        .optional()
        .describe(
          "Ids of the drivers that work as soon as it is woken, before it has its supply, such as that of its own main relay",
        ),
    })
    .optional()
    .describe(
      "Supply that the control unit needs: below `leastVolt` between these terminals, or without its wake input, its drivers, sources, own consumption and pulls towards a voltage do nothing. Pull resistors to a separate point stay in place",
    ),
  elements: z.array(Element).max(MOST_ITEMS.some).describe("Electrical model of the inside"),
});

export type Element = z.infer<typeof Element>;
export type Component = z.infer<typeof Component>;
