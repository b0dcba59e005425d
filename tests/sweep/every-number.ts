import { at, baseDocument, type DocumentInput } from "../harness-model/support.ts";

/**
 * The base document with every element kind and every field that is a number, all of them in use.
 *
 * @param document The base document, which is changed; a bundled script, whose place is another one, reads it itself.
 */
export function everyNumber(document = baseDocument()): DocumentInput {
  const { system, connectors, components, splices, terminalStuds, wires, states, adapters } = document;
  Object.assign(system, { chargingVolt: 14, usualAccess: { minutes: 3, states: "any" } });
  Object.assign(at(connectors, 0), { contactOhm: 0.005 });
  Object.assign(at(at(connectors, 0).cavities, 0), { terminalMm: 1.5, resistanceOhm: 0.01 });
  Object.assign(at(splices, 0), { resistanceOhm: 0.0005 });
  Object.assign(at(terminalStuds, 0), { ringOhm: 0.0002, x: 5, y: 10, access: { minutes: 2, states: "any" } });
  Object.assign(at(wires, 0), { lengthMm: 900 });
  Object.assign(at(adapters, 0), { minutes: 4 });
  at(states, 1).settings?.push({ of: "B3.valve", is: { dutyPercent: 40 } });
  at(states, 1).quantities?.push({ name: "temperature", value: 60, unit: "C" });
  const ends: [string, string] = ["B3.X1:1", "B3.X1:2"];
  const coil = { kind: "coil", between: ends, resistanceOhm: 80, pullInVolt: 7, dropOutVolt: 3 } as const;
  const sensor = at(components, 2);
  Object.assign(sensor, { needs: { positive: ends[0], negative: ends[1], leastVolt: 6 } });
  for (const element of sensor.elements) if (element.kind === "divider") element.supplyAmpere = 0.005;
  const beta = { referenceOhm: 2500, referenceC: 20, betaK: 3450 };
  sensor.elements.push(
    { id: "r", kind: "resistor", between: ends, resistanceOhm: 1000, tolerancePercent: 5 },
    { id: "ntc", kind: "ntc", between: ends, quantity: "temperature", curve: beta },
    {
      id: "pt",
      kind: "ntc",
      between: ends,
      quantity: "temperature",
      curve: {
        tableCOhm: [
          [-40, 100_000],
          [150, 50],
        ],
      },
    },
    { ...coil, id: "k", suppressor: { kind: "resistor", resistanceOhm: 680 } },
    { ...coil, id: "kd", suppressor: { kind: "diode" } },
    { id: "kc", kind: "contact", of: "k", form: "make", between: [ends[0], "#in"], resistanceOhm: 0.01 },
    {
      id: "f",
      kind: "fuse",
      between: [ends[0], "#in"],
      ratedAmpere: 10,
      resistanceOhm: 0.007,
      style: "blade",
      testWindows: true,
    },
    {
      id: "five",
      kind: "source",
      role: "regulator",
      between: ["#five", ends[1]],
      voltageVolt: 5,
      resistanceOhm: 1,
      foldBack: { limitAmpere: 0.1, resistanceOhm: 50 },
    },
    { id: "up", kind: "bias", between: ["B3.X1:3", "#five"], pull: "up", resistanceOhm: 2200 },
    { id: "to", kind: "bias", between: ["B3.X1:3", ends[1]], pull: "up", resistanceOhm: 2200, towardVolt: 5 },
    { id: "valve", kind: "driver", between: ["#in", ends[1]], side: "low", resistanceOhm: 0.05, voltageVolt: 0 },
    {
      id: "load",
      kind: "load",
      between: ["#in", ends[1]],
      resistanceOhm: 6,
      resistanceByState: [{ state: "KEY-ON", resistanceOhm: 5 }],
    },
    { id: "test-lamp", kind: "lamp", between: ends, powerWatt: 5, voltageVolt: 12 },
    { id: "d", kind: "diode", between: ends, forwardVolt: 0.7, resistanceOhm: 0.1 },
    { id: "bar", kind: "bar", between: ["#in", "#out"], resistanceOhm: 0 },
  );
  for (const element of at(components, 0).elements)
    if (element.kind === "source") element.whenCharging = { voltageVolt: 14, resistanceOhm: 0.02 };
  return document;
}
