import type { Fault } from "ohmward/simulation";
import type { Fault as CaseFault } from "../../judge/truth/fault.ts";

/** A fault of the cases in the words of this room. */
export function faultsOf(fault: CaseFault): readonly Fault[] {
  switch (fault.kind) {
    case "open":
    case "blown":
    case "unplugged":
      return [{ kind: fault.kind, of: fault.of }];
    case "resistance":
      return [{ kind: "high-resistance", of: fault.of, ohm: fault.ohm }];
    case "short": {
      const { of, to, ohm, at } = fault;
      return [{ kind: "short", of, to, ohm, ...(at === undefined ? {} : { atPercent: 100 * at }) }];
    }
    case "bridge":
      return [{ kind: "bridge", between: fault.of, ohm: fault.ohm }];
    case "swapped":
      return [{ kind: "cross-wired", cavities: fault.of }];
    case "stuck":
      return [{ kind: fault.is === "open" ? "stuck-open" : "stuck-closed", of: fault.of }];
    case "drift":
      return [{ kind: "drift", of: fault.of, factor: fault.factor ?? 1, offset: fault.plus ?? 0 }];
    case "source": {
      if (fault.off === true) return [{ kind: "stuck-off", of: fault.of }];
      // The healthy battery of the demo machine has 12.65 V behind 6 mohm.
      const offset = (fault.emf ?? 12.65) - 12.65;
      return [
        { kind: "drift", of: fault.of, factor: 1, offset },
        { kind: "high-resistance", of: fault.of, ohm: (fault.ohm ?? 0.006) - 0.006 },
      ];
    }
    case "value":
      throw new Error("No case has a part of another value");
  }
}
