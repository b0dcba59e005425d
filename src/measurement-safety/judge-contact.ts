import { isPermittedAt, type NetKind, type State } from "../harness-model/index.ts";
import { evaluateRules, type Verdict } from "./evaluate-rules.ts";
import type { Contact } from "./findings.ts";
import { isAtRest, isBoostedIn, type NetFacts } from "./net-facts.ts";
import { hazardsIn, isReachableIn } from "./reaching.ts";
import { METHODS, type ContactFacts, type Rule } from "./rule.ts";
import { isOfState, type SafetyIndex } from "./safety-index.ts";

const NO_KINDS: ReadonlySet<NetKind> = new Set();

/** Under which conditions contacts are judged. */
interface Judging {
  readonly state: State;
  readonly rules: readonly Rule[];
}

/** What the rules say of a contact in a state. */
export function judgeContact(index: SafetyIndex, contact: Contact, judging: Judging): Verdict {
  return evaluateRules(judging.rules, contactFacts(index, contact, judging.state));
}

/** The electrical node a contact is about; that of a wire is the same at both its ends. */
export function netOfContact(index: SafetyIndex, { node, edge }: Contact): NetFacts {
  return index.netOf(node ?? index.harness.index.from[edge ?? -1] ?? -1);
}

function contactFacts(index: SafetyIndex, contact: Contact, state: State): ContactFacts {
  const { socket, reaching } = contact;
  const net = netOfContact(index, contact);
  const beside = socket && index.carriedBy.get(socket.connector.id);
  const atRest = isAtRest(state);
  // Where the place is not known it may be any of the machine, with what turns or crushes there.
  const hazards = [...hazardsIn(reaching, state), ...(reaching.isPlaceUnknown ? index.movingHazards(state) : [])];
  return {
    method: contact.method,
    place: contact.place,
    side: socket && (socket.side.id === "device" ? "device" : "harness"),
    isSealed: socket && (socket.cavity.sealed ?? socket.connector.sealed),
    componentKind: componentKind(index, contact),
    netKinds: new Set([...net.kinds, ...index.guardsAt(contact).map((guard) => guard.kind)]),
    isBoostedNow: net.boostedIn !== "not-known" && isBoostedIn(net, state),
    isOnBattery: isOnBattery(index, contact, state),
    connectorCarries: beside?.kinds ?? NO_KINDS,
    isConnectorBoostedNow: [...(beside?.boosted ?? [])].some((each) => isBoostedIn(each, state)),
    conditions: state.conditions,
    isAtRest: atRest,
    isMachineBusy: !atRest || index.isBusy(state),
    isPlaceUnknown: reaching.isPlaceUnknown && !atRest,
    isUnknownBesideGuarded:
      index.doubtAt(contact.node ?? index.harness.index.from[contact.edge ?? -1] ?? -1).length > 0,
    isUnknownNow: net.boostedIn === "not-known" && !atRest,
    hazards: hazards.map(({ kind, states }) => ({ kind, isOfState: isOfState({ states }) })),
    isPermitMissing: isPermitMissing(contact),
    isAdapterMissing: contact.adapter === undefined,
    isOutOfReach: !isReachableIn(reaching.states, state),
    isTerminalSizeUnknown: socket?.cavity.terminalMm === undefined,
  };
}

/** The kind of the component a contact belongs to. Of a part of which nothing is known, and of a bare terminal, it may be any. */
function componentKind({ harness }: SafetyIndex, { component, node }: Contact): ContactFacts["componentKind"] {
  if (component === undefined) {
    const at = harness.nodes[node ?? -1];
    return at?.kind === "stud" && at.stud.role === "terminal" ? "not-known" : undefined;
  }
  const part = harness.book.components.get(component);
  return !part || (part.kind === "other" && part.elements.length === 0) ? "not-known" : part.kind;
}

function isOnBattery(index: SafetyIndex, { node, edge }: Contact, state: State): boolean {
  if (!state.conditions.includes("battery-disconnected")) return false;
  return index.batteryIsland(state).has(node ?? index.harness.index.from[edge ?? -1] ?? -1);
}

function isPermitMissing({ method, socket }: Contact): boolean {
  return METHODS[method].permits.some((permit) => !socket || !isPermittedAt(socket.connector, permit));
}
