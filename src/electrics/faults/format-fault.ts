import { plainNumber } from "../../base/index.ts";
import type { Fault } from "./fault.ts";

/**
 * Writes a fault in the text form that is read back by `parseFault`.
 *
 * @param fault The fault.
 */
export function formatFault(fault: Fault): string {
  switch (fault.kind) {
    case "resistance":
      return `resistance:${fault.of}=${plainNumber(fault.ohm)}`;
    case "short": {
      const place = fault.atPercent === undefined ? "" : `,${plainNumber(fault.atPercent)}%`;
      return `short:${fault.of}=${fault.to},${plainNumber(fault.ohm)}${place}`;
    }
    case "bridge":
      return `bridge:${fault.between[0]}=${fault.between[1]},${plainNumber(fault.ohm)}`;
    case "drift":
      return `drift:${fault.of}=${plainNumber(fault.factor)}${addend(fault.offset)}`;
    case "loose":
      return `loose:${fault.of}${fault.ohm === undefined ? "" : `=${plainNumber(fault.ohm)}`}`;
    case "swapped":
      return `swapped:${fault.cavities[0]}=${fault.cavities[1]}`;
    case "open":
    case "blown":
    case "unplugged":
    case "stuck-open":
    case "stuck-closed":
    case "stuck-on":
    case "stuck-off":
      return `${fault.kind}:${fault.of}`;
  }
}

/** With its sign, as "1,2" could be one number and two. */
function addend(offset: number): string {
  if (offset === 0) return "";
  return offset < 0 ? `,${plainNumber(offset)}` : `,+${plainNumber(offset)}`;
}
