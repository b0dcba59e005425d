import { METHODS, type Rule, type When } from "ohmward/measurement-safety";

const list = (values: readonly string[] | undefined): string => (values ?? []).join(" or ");

/** A phrase for each word of the vocabulary; a word without a phrase does not compile. */
const phrases: { readonly [Word in keyof Required<When>]: (when: When) => string } = {
  place: (when) => `on a ${list(when.place)}`,
  isWrongPlace: () => "the method does not belong on this kind of point",
  side: (when) => (when.side === "harness" ? "harness side" : "component side"),
  isSealed: (when) => (when.isSealed === true ? "sealed" : "not sealed"),
  componentKind: (when) => `at a ${list(when.componentKind)}, or a part not known`,
  netKind: (when) => `the line is ${list(when.netKind)}`,
  netKindOutside: (when) => `the line is not ${list(when.netKindOutside)}, or not labelled`,
  isBoostedNow: () => "the line is boosted in this state",
  isOnBattery: () => "battery disconnected, but still on the battery",
  connectorCarries: (when) => `the connector carries ${list(when.connectorCarries)}`,
  isConnectorBoostedNow: () => "the connector carries a line that is boosted in this state",
  isMachineBusy: () => "something rotates, cranks or is boosted on the machine in this state, or that is not known",
  isPlaceUnknown: () => "position or its hazards not known, machine not at rest",
  isUnknownBesideGuarded: () => "not known what the line is for, and the machine has airbag or high-voltage lines",
  isUnknownNow: () => "not known what the line is for, machine not at rest",
  stateLacks: (when) => `the state is not ${list(when.stateLacks)}`,
  hazard: (when) => `hazard "${list(when.hazard)}" holds here`,
  hazardOfState: (when) =>
    `hazard "${list(when.hazardOfState)}" holds here in this state but not in every state, or the machine is not at rest`,
  isPermitMissing: () => "the document does not say that it is permitted at this connector",
  isAdapterMissing: () => "the document lists no adapter here",
  isOutOfReach: () => "the document lets it be reached in other states only, or does not say in which",
  isTerminalSizeUnknown: () => "terminal size not given",
};

/** The rows of the table as the page shows them: id, refused, when, reason, source. */
export function renderRules(rules: readonly Rule[]): readonly (readonly string[])[] {
  return rules.map((rule) => {
    const methods = rule.methods ?? [];
    const refused = methods.length === Object.keys(METHODS).length ? "every method" : methods.join(", ");
    const words = (Object.keys(rule.when) as (keyof When)[]).map((word) => phrases[word](rule.when));
    return [
      rule.id,
      rule.meters ? `meter ${rule.meters.join(", ")}` : refused,
      words.join("; "),
      rule.reason,
      rule.source,
    ];
  });
}
