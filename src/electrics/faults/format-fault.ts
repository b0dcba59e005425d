import type { Fault } from "./fault.ts";

/**
 * Writes a fault in the text form that is read back by `parseFault`.
 *
 * @param fault The fault.
 */
export function formatFault(fault: Fault): string {
  switch (fault.kind) {
    case "resistance":
      return `resistance:${fault.of}=${fault.ohm}`;
    case "short": {
      const place = fault.atPercent === undefined ? "" : `,${fault.atPercent}%`;
      return `short:${fault.of}=${fault.to},${fault.ohm}${place}`;
    }
    case "bridge":
      return `bridge:${fault.between[0]}=${fault.between[1]},${fault.ohm}`;
    case "drift":
      return `drift:${fault.of}=${fault.factor}${fault.offset === 0 ? "" : `,${fault.offset}`}`;
    case "loose":
      return `loose:${fault.of}${fault.ohm === undefined ? "" : `=${fault.ohm}`}`;
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
