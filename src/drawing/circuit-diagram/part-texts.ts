import { formatCrossSectionMm2, formatNumber, formatQuantity } from "../../base/index.ts";
import type { Component, Element, Wire } from "../../harness-model/index.ts";
import { colourMark } from "../colour-mark.ts";
import { shortName } from "../short-name.ts";

/** Most signs of an id on a diagram. */
const MOST_SIGNS = 16;

/** The value of an element that is written beside its symbol, such as `15 A` or `85 Ω`; undefined where it has none. */
export function elementValue(element: Element): string | undefined {
  switch (element.kind) {
    case "fuse":
      return `${element.ratedAmpere} A`;
    case "resistor":
    case "coil":
    case "load":
      return resistance(element.resistanceOhm);
    case "lamp":
      return formatQuantity(element.powerWatt, "W");
    case "source":
      return formatQuantity(element.voltageVolt, "V");
    case "ntc":
    case "contact":
    case "switch":
    case "bias":
    case "driver":
    case "divider":
    case "diode":
    case "bar":
      return undefined;
  }
}

/** Below 0.1 Ω in mΩ; below 10 Ω with more decimals than a meter shows, for windings of injectors and solenoids. */
function resistance(ohm: number): string {
  if (ohm < 0.1) return `${formatNumber(ohm * 1000, 1)} mΩ`;
  return ohm < 10 ? `${formatNumber(ohm, ohm < 1 ? 3 : 2)} Ω` : formatQuantity(ohm, "Ω");
}

/** Id and label of an element: those of its part where the part has no other. */
export function elementName(component: Component, element: Element): { readonly id: string; readonly label: string } {
  if (component.elements.length === 1) return { id: component.id, label: component.label };
  return { id: `${component.id}.${element.id}`, label: element.label ?? component.label };
}

/**
 * Colour code and conductor size of a wire, such as `BU 2.5 mm²`.
 *
 * @param short Leaves the unit out, for narrow screens.
 */
export function wireFacts({ crossSectionMm2, colour }: Wire, short = false): string {
  const size = crossSectionMm2 === undefined ? "" : formatCrossSectionMm2(crossSectionMm2);
  return `${colourMark(colour).letters} ${short ? size.replace(" mm²", "") : size}`.trim();
}

/** An id as it is written on a diagram: the middle of a long one is left out. */
export function shownId(id: string): string {
  return shortName(id, MOST_SIGNS);
}
