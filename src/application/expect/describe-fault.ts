import { formatNumber, formatQuantity, unreachable } from "../../base/index.ts";
import type { Fault } from "../../simulation/index.ts";

/**
 * A fault in words.
 *
 * @param fault The fault.
 */
export function describeFault(fault: Fault): string {
  switch (fault.kind) {
    case "open":
      return `${fault.of} open`;
    case "high-resistance":
      return `${ohms(fault.ohm)} more in ${fault.of}`;
    case "short": {
      const place = fault.atPercent === undefined ? "" : `, ${formatNumber(fault.atPercent, 1)} % along the wire`;
      return `${fault.of} shorted to ${fault.to} with ${ohms(fault.ohm)}${place}`;
    }
    case "bridge":
      return `${fault.between.join(" and ")} bridged with ${ohms(fault.ohm)}`;
    case "blown":
      return `${fault.of} blown`;
    case "stuck-open":
    case "stuck-closed":
    case "stuck-on":
    case "stuck-off":
      return `${fault.of} ${fault.kind.replace("-", " ")}`;
    case "drift": {
      const offset = fault.offset === 0 ? "" : `, then ${formatNumber(fault.offset, 6)} added`;
      return `${fault.of} drifted to ${formatNumber(fault.factor, 6)} times its value${offset}`;
    }
    case "unplugged":
      return `${fault.of} disconnected`;
    case "loose-terminal":
      return fault.ohm === undefined ? `${fault.of} makes no contact` : `${fault.of} loose, ${ohms(fault.ohm)} more`;
    case "cross-wired":
      return `wires of ${fault.cavities.join(" and ")} cross-wired`;
    default:
      return unreachable(fault);
  }
}

function ohms(value: number): string {
  return value < 1 ? `${formatNumber(value, 4)} Ω` : formatQuantity(value, "Ω", 3);
}
