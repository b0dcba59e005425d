import type { Harness, State } from "../harness-model/index.ts";
import { contactCautions, generalCautions } from "./cautions.ts";
import type { Contact, Refused } from "./findings.ts";
import { judgeContact, netOfContact } from "./judge-contact.ts";
import { adapterContacts, contactAtNode, contactsOnWire, fusesAtNode } from "./make-contacts.ts";
import { refusedBy } from "./make-point.ts";
import { METHODS, type Meter, type Method, type ProbeClass } from "./rule.ts";
import { RULES } from "./rules.ts";
import { nodeOfAddress, safetyIndex, type SafetyIndex } from "./safety-index.ts";

/** One contact somebody wants to make. */
interface WantedContact {
  /** Address of a point (`B3.X.harness:1`, `B3.X:1`, `G2+`, `SP11`), or id of a wire. */
  readonly point: string;
  readonly method: Method;
  readonly meter: Meter;
}

/** Whether it may be made. `unknown-point`: nothing fitted has this address. */
type ContactAnswer =
  | { readonly kind: "permitted"; readonly class: ProbeClass; readonly cautions: readonly string[] }
  | ({ readonly kind: "refused" } & Refused)
  | { readonly kind: "unknown-point"; readonly point: string };

/**
 * Whether one contact may be made in a state, with this method and this meter. Judged by the same table as {@link findProbePoints}.
 *
 * @param state The state of the machine in which the reading is taken.
 * @returns Permitted with class and cautions; refused with the row of the table; or an unknown point. A meter that does not go with the
 *   method, such as volts with a clamp, is refused as `wrong-meter`.
 */
export function isContactPermitted(harness: Harness, state: State, wanted: WantedContact): ContactAnswer {
  const index = safetyIndex(harness);
  const contacts = contactsWanted(index, wanted);
  let refused: ContactAnswer | undefined;
  for (const contact of contacts) {
    const verdict = judgeContact(index, contact, { state, rules: RULES });
    const probeClass = METHODS[contact.method].class;
    if (verdict.kind === "refused") refused ??= { kind: "refused", ...refusedBy(index, contact, verdict.rule) };
    else if (probeClass !== undefined && verdict.meters.includes(wanted.meter)) {
      const about = { state, net: netOfContact(index, contact), meters: [wanted.meter] };
      const cautions = [...generalCautions(harness, state), ...contactCautions(harness, contact, about)];
      return { kind: "permitted", class: probeClass, cautions: [...new Set(cautions)] };
    } else {
      const rule = verdict.notFor.find((each) => each.meter === wanted.meter)?.rule;
      refused ??= { kind: "refused", ...(rule ? refusedBy(index, contact, rule) : WRONG_METER) };
    }
  }
  return refused ?? { kind: "unknown-point", point: wanted.point };
}

// No matter of danger but of what a method can read at all, so it is no row of the table.
const WRONG_METER: Refused = {
  rule: "wrong-meter",
  reason: "This meter cannot be used with this method.",
  source: "common practice, no source",
};

function contactsWanted(index: SafetyIndex, { point, method }: WantedContact): readonly Contact[] {
  const { harness } = index;
  const wire = harness.fitted.wires.has(point) ? harness.edgeNumbers.get(point) : undefined;
  if (wire !== undefined) {
    const edge = harness.edges[wire];
    return edge ? contactsOnWire(index, { number: wire, edge }, method) : [];
  }
  const number = nodeOfAddress(harness, point);
  const node = number === undefined ? undefined : harness.nodes[number];
  if (number === undefined || !node) return [];
  const at = { number, node };
  const special = [...adapterContacts(index, at), ...fusesAtNode(index, at)].filter((each) => each.method === method);
  return special.length > 0 ? special : [contactAtNode(index, at, { method })];
}
