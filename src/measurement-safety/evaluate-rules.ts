import { METHODS, type ContactFacts, type Meter, type Rule, type When } from "./rule.ts";

/** What the table says of one way of taking a reading: the meters it may be taken with, or the row that refuses it. */
export type Verdict =
  | {
      readonly kind: "permitted";
      readonly meters: readonly Meter[];
      /** The meters that are refused there, each with its row. */
      readonly notFor: readonly { readonly meter: Meter; readonly rule: Rule }[];
    }
  | { readonly kind: "refused"; readonly rule: Rule };

/**
 * Holds the rules against the facts of one contact. This is the only place where rules are interpreted.
 *
 * @param rules The table; the first row that applies is the one named.
 * @returns Permitted with at least one meter, or refused by a row. A method without a class that no row refuses is a hole in the table: it
 *   throws.
 * @throws RangeError if no row refuses a method that must never be offered.
 */
export function evaluateRules(rules: readonly Rule[], facts: ContactFacts): Verdict {
  const refusing = rules.find((rule) => rule.methods?.includes(facts.method) && holds(rule.when, facts));
  if (refusing) return { kind: "refused", rule: refusing };
  const traits = METHODS[facts.method];
  if (traits.class === undefined)
    throw new RangeError(`Cannot judge "${facts.method}": no rule refuses it, and it must never be offered`);
  const notFor = traits.meters.flatMap((meter) => {
    const rule = rules.find((each) => each.meters?.includes(meter) && holds(each.when, facts));
    return rule ? [{ meter, rule }] : [];
  });
  const meters = traits.meters.filter((meter) => notFor.every((each) => each.meter !== meter));
  const [first] = notFor;
  return meters.length === 0 && first ? { kind: "refused", rule: first.rule } : { kind: "permitted", meters, notFor };
}

// A word that has no line here would count as holding, so that a forgotten line refuses too much and never too little.
function holds(when: When, facts: ContactFacts): boolean {
  return holdsOfPlace(when, facts) && holdsOfLine(when, facts) && holdsOfState(when, facts);
}

function holdsOfPlace(when: When, facts: ContactFacts): boolean {
  return (
    isAmong(when.place, facts.place) &&
    (when.isWrongPlace === undefined || !METHODS[facts.method].places.includes(facts.place)) &&
    (when.side === undefined || when.side === facts.side) &&
    (when.isSealed === undefined || when.isSealed === (facts.isSealed ?? false)) &&
    (facts.componentKind === "not-known" || isAmong(when.componentKind, facts.componentKind)) &&
    (when.isPlaceUnknown === undefined || facts.isPlaceUnknown) &&
    (when.isPermitMissing === undefined || facts.isPermitMissing) &&
    (when.isAdapterMissing === undefined || facts.isAdapterMissing) &&
    (when.isOutOfReach === undefined || facts.isOutOfReach) &&
    (when.isTerminalSizeUnknown === undefined || facts.isTerminalSizeUnknown)
  );
}

function holdsOfLine(when: When, facts: ContactFacts): boolean {
  const { netKind, netKindOutside, connectorCarries } = when;
  return (
    (netKind === undefined || netKind.some((kind) => facts.netKinds.has(kind))) &&
    (netKindOutside === undefined ||
      facts.netKinds.size === 0 ||
      [...facts.netKinds].some((kind) => !netKindOutside.includes(kind))) &&
    (connectorCarries === undefined || connectorCarries.some((kind) => facts.connectorCarries.has(kind))) &&
    (when.isBoostedNow === undefined || facts.isBoostedNow) &&
    (when.isUnknownNow === undefined || facts.isUnknownNow) &&
    (when.isUnknownBesideGuarded === undefined || facts.isUnknownBesideGuarded) &&
    (when.isConnectorBoostedNow === undefined || facts.isConnectorBoostedNow) &&
    (when.isOnBattery === undefined || facts.isOnBattery)
  );
}

function holdsOfState(when: When, facts: ContactFacts): boolean {
  const { isMachineBusy, stateLacks, hazard, hazardOfState } = when;
  return (
    (isMachineBusy === undefined || facts.isMachineBusy) &&
    (stateLacks === undefined || !stateLacks.some((each) => facts.conditions.includes(each))) &&
    (hazard === undefined || facts.hazards.some((each) => hazard.includes(each.kind))) &&
    (hazardOfState === undefined ||
      facts.hazards.some((each) => (each.isOfState || !facts.isAtRest) && hazardOfState.includes(each.kind)))
  );
}

function isAmong<Value>(wanted: readonly Value[] | undefined, value: Value | undefined): boolean {
  return wanted === undefined || (value !== undefined && wanted.includes(value));
}
