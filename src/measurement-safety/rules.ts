import type { Method, Rule } from "./rule.ts";

const CONTACTLESS: readonly Method[] = ["clamp"];
const ON_BARE_METAL: readonly Method[] = ["tip", "clip", "fuse-window", "screw"];
const ADAPTERS: readonly Method[] = ["mating-adapter", "in-line", "relay-extension"];
const NEVER: readonly Method[] = ["back-probe", "pierce", "tip-in-socket"];
const TOUCHING: readonly Method[] = [...ON_BARE_METAL, ...ADAPTERS, "front-probe"];
const EVERY: readonly Method[] = [...CONTACTLESS, ...TOUCHING, ...NEVER];

const PRACTICE = "common practice, no source";
const LAMP_PAGE =
  "a vehicle maker's page on lamp and meter, 2002, maker withheld; the limit to battery-fed lines is our own";
const PROBING_PAGE = "a vehicle maker's page on probing connectors, 2000-2010, maker withheld";

/**
 * Where a meter may not go: the whole table. The first row that applies is the one that is named. Whatever no row refuses is allowed, so
 * a method must have a class in `METHODS` to be offered at all.
 */
export const RULES: readonly Rule[] = [
  {
    id: "airbag",
    methods: EVERY,
    when: { netKind: ["airbag"] },
    reason:
      "This line belongs to an airbag or belt tensioner: a meter can fire it. Only its maker's own procedure applies.",
    source: "a vehicle maker's page on load tests, 2014, maker withheld",
  },
  {
    id: "high-voltage",
    methods: EVERY,
    when: { netKind: ["high-voltage"] },
    reason: "This line carries high voltage: only qualified people, after isolation by its maker's own procedure.",
    source: PRACTICE,
  },
  {
    id: "line-unknown",
    methods: EVERY,
    when: { isUnknownBesideGuarded: true },
    reason:
      "The harness data does not say what this line is for, and the machine has airbag or high-voltage lines: it may be one of them.",
    source: PRACTICE,
  },
  {
    id: "airbag-or-high-voltage-beside",
    methods: TOUCHING,
    when: { place: ["contact"], connectorCarries: ["airbag", "high-voltage"] },
    reason:
      "The connector also carries an airbag or high-voltage line, so it is neither opened nor touched for a check.",
    source: PRACTICE,
  },
  {
    id: "no-piercing",
    methods: ["pierce"],
    when: { place: ["wire", "splice"] },
    reason:
      "A hole in the insulation or in a splice lets water in and the strands corrode: insulation is never opened.",
    source: "TM 9-6115-729-24 WP 0090 (use a break-out harness, never open insulation)",
  },
  {
    id: "no-back-probe-sealed",
    methods: ["back-probe"],
    when: { isSealed: true },
    reason: "A probe past the seal cuts it and lets water in behind the terminal.",
    source: PROBING_PAGE,
  },
  {
    id: "no-back-probe-unsealed",
    methods: ["back-probe"],
    when: { isSealed: false },
    reason:
      "A probe from behind bends the lock or the terminal. Some makers allow it as a last resort; here it is never offered.",
    source: `${PROBING_PAGE}; a back-probing page, 2012-2013, maker withheld`,
  },
  {
    id: "no-tip-in-socket",
    methods: ["tip-in-socket", "tip", "clip"],
    when: { place: ["contact"] },
    reason: "A meter tip spreads a socket or bends a pin: the contact becomes the next fault.",
    source: "a vehicle maker's page on front-probe adapters, 2010, maker withheld",
  },
  {
    id: "no-device-half",
    methods: ["front-probe", "screw"],
    when: { side: "device" },
    reason: "Pins of a device bend, and two of them are easily bridged: use the harness half.",
    source: PRACTICE,
  },
  {
    id: "nothing-bare",
    methods: [...ON_BARE_METAL, ...CONTACTLESS],
    when: { place: ["splice", "inner", "open-end"] },
    reason: "There is no bare metal to touch: the point is covered or lies inside a component.",
    source: PRACTICE,
  },
  {
    id: "wrong-place",
    methods: EVERY,
    when: { isWrongPlace: true },
    reason: "This way of taking a reading does not belong on this kind of point.",
    source: PRACTICE,
  },
  {
    id: "line-unknown-not-at-rest",
    methods: TOUCHING,
    when: { isUnknownNow: true },
    reason:
      "The harness data does not say what this line is for: in this state it may be driven far above battery voltage.",
    source: PRACTICE,
  },
  {
    id: "boosted-line",
    methods: TOUCHING,
    when: { isBoostedNow: true },
    reason:
      "The line is driven far above battery voltage in this state: no contact, only a clamp round the whole insulation.",
    source: "an off-highway diesel maker's page on injector tests (90 to 120 V), maker withheld",
  },
  {
    id: "boosted-line-beside",
    methods: ["front-probe", "screw"],
    when: { isConnectorBoostedNow: true },
    reason:
      "Bare beside the probe would be a line of this connector that is, or may be, driven far above battery voltage in this state.",
    source: PRACTICE,
  },
  {
    id: "turning-parts",
    methods: [...CONTACTLESS, "tip", "fuse-window", "screw", "front-probe"],
    when: { hazard: ["rotating"] },
    reason: "Parts turn here in this state: no hands, no clamp and no held tip.",
    source: PRACTICE,
  },
  {
    id: "place-unknown",
    methods: [...CONTACTLESS, "tip", "fuse-window", "screw", "front-probe"],
    when: { isPlaceUnknown: true },
    reason:
      "The harness data does not say where this is or what moves there: no hands, no clamp and no held tip in this state.",
    source: PRACTICE,
  },
  {
    id: "crushing-parts",
    methods: [...CONTACTLESS, "tip", "fuse-window", "screw", "front-probe"],
    when: { hazardOfState: ["crush"] },
    reason: "Parts can crush a hand here in this state: no hands, no clamp and no held tip.",
    source: PRACTICE,
  },
  {
    id: "out-of-reach",
    methods: TOUCHING,
    when: { isOutOfReach: true },
    reason: "The harness data lets this place be reached in other states only, or does not say in which.",
    source: "the harness document",
  },
  {
    id: "not-permitted-here",
    methods: ["front-probe", "in-line", "mating-adapter", "screw"],
    when: { isPermitMissing: true },
    reason: "The harness data does not say that this is permitted at this connector.",
    source: "the harness document",
  },
  {
    id: "no-adapter",
    methods: ADAPTERS,
    when: { isAdapterMissing: true },
    reason: "The harness document lists no adapter that makes this point touchable.",
    source: "the harness document",
  },
  {
    id: "terminal-size-unknown",
    methods: ["front-probe"],
    when: { isTerminalSizeUnknown: true },
    reason: "The terminal size is not known, and an adapter chosen by eye can ruin the contact.",
    source: "a vehicle maker's page on front-probe adapters, 2010, maker withheld",
  },
  {
    id: "opened-while-running",
    methods: ["front-probe"],
    when: { isMachineBusy: true },
    reason:
      "Something turns, cranks or is driven above battery voltage in this state, and an opened connector hangs loose: use an adapter that keeps it mated.",
    source: PRACTICE,
  },
  {
    id: "ohms-live",
    meters: ["resistance"],
    when: { stateLacks: ["battery-disconnected"] },
    reason: "An ohmmeter reads nonsense and may be damaged on a live circuit: battery isolated first.",
    source: "a vehicle maker's page on meter use, 1997, maker withheld",
  },
  {
    id: "ohms-on-battery",
    meters: ["resistance"],
    when: { isOnBattery: true },
    reason: "This side of the isolator stays on the battery even when the machine is isolated.",
    source: "a vehicle maker's page on meter use, 1997, maker withheld",
  },
  {
    id: "ohms-into-module",
    meters: ["resistance"],
    when: { side: "device", componentKind: ["module"] },
    reason:
      "The current of an ohmmeter does not go into a control unit, and semiconductors make the reading meaningless.",
    source: "a vehicle maker's page on open and short checks, 2002, maker withheld",
  },
  {
    id: "lamp-needs-battery-power",
    meters: ["test-lamp"],
    when: { netKindOutside: ["battery-power"] },
    reason:
      "A test lamp draws about 0.24 A: only for strong battery-fed lines, never for module, sensor, signal or bus lines.",
    source: LAMP_PAGE,
  },
  {
    id: "lamp-at-module",
    meters: ["test-lamp"],
    when: { componentKind: ["module"] },
    reason: "A test lamp is kept away from the connectors of control units, whatever the line.",
    source: LAMP_PAGE,
  },
];
