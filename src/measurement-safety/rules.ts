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
      "WARNING: this line belongs to an airbag or belt tensioner. A meter can fire it. Follow the maker's procedure only.",
    source: "a vehicle maker's page on load tests, 2014, maker withheld",
  },
  {
    id: "high-voltage",
    methods: EVERY,
    when: { netKind: ["high-voltage"] },
    reason:
      "WARNING: this line carries high voltage. Only qualified people may work here, after isolation by the maker's procedure.",
    source: PRACTICE,
  },
  {
    id: "line-unknown",
    methods: EVERY,
    when: { isUnknownBesideGuarded: true },
    reason:
      "WARNING: this may be an airbag or high-voltage line. The machine has such lines, and the harness data does not say what this line is for.",
    source: PRACTICE,
  },
  {
    id: "airbag-or-high-voltage-beside",
    methods: TOUCHING,
    when: { place: ["contact"], connectorCarries: ["airbag", "high-voltage"] },
    reason: "WARNING: the connector also carries an airbag or high-voltage line. Do not open or touch it for a test.",
    source: PRACTICE,
  },
  {
    id: "no-piercing",
    methods: ["pierce"],
    when: { place: ["wire", "splice"] },
    reason: "Do not pierce insulation or a splice. Water enters through the hole and the strands corrode.",
    source: "TM 9-6115-729-24 WP 0090 (use a break-out harness, never open insulation)",
  },
  {
    id: "no-back-probe-sealed",
    methods: ["back-probe"],
    when: { isSealed: true },
    reason: "Do not back-probe. The probe cuts the seal, and water enters behind the terminal.",
    source: PROBING_PAGE,
  },
  {
    id: "no-back-probe-unsealed",
    methods: ["back-probe"],
    when: { isSealed: false },
    reason:
      "Do not back-probe. The probe bends the lock or the terminal. Some makers allow it as a last resort; here it is never permitted.",
    source: `${PROBING_PAGE}; a back-probing page, 2012-2013, maker withheld`,
  },
  {
    id: "no-tip-in-socket",
    methods: ["tip-in-socket", "tip", "clip"],
    when: { place: ["contact"] },
    reason: "Do not push a probe into the contact. It spreads a socket or bends a pin and makes a new fault.",
    source: "a vehicle maker's page on front-probe adapters, 2010, maker withheld",
  },
  {
    id: "no-device-half",
    methods: ["front-probe", "screw"],
    when: { side: "device" },
    reason: "Do not probe the component side. Its pins bend, and a probe can short two of them. Use the harness side.",
    source: PRACTICE,
  },
  {
    id: "nothing-bare",
    methods: [...ON_BARE_METAL, ...CONTACTLESS],
    when: { place: ["splice", "inner", "open-end"] },
    reason: "There is no exposed metal here. The point is covered or inside a component.",
    source: PRACTICE,
  },
  {
    id: "wrong-place",
    methods: EVERY,
    when: { isWrongPlace: true },
    reason: "This method does not fit this kind of point.",
    source: PRACTICE,
  },
  {
    id: "line-unknown-not-at-rest",
    methods: TOUCHING,
    when: { isUnknownNow: true },
    reason:
      "WARNING: this line may be driven far above battery voltage in this state. The harness data does not say what it is for. Do not touch it.",
    source: PRACTICE,
  },
  {
    id: "boosted-line",
    methods: TOUCHING,
    when: { isBoostedNow: true },
    reason:
      "WARNING: this line is driven far above battery voltage in this state. Do not touch it. Use only a current clamp round the undamaged insulation.",
    source: "an off-highway diesel maker's page on injector tests (90 to 120 V), maker withheld",
  },
  {
    id: "boosted-line-beside",
    methods: ["front-probe", "screw"],
    when: { isConnectorBoostedNow: true },
    reason:
      "WARNING: a line beside the probe would be exposed. It is, or may be, driven far above battery voltage in this state.",
    source: PRACTICE,
  },
  {
    id: "turning-parts",
    methods: [...CONTACTLESS, "tip", "fuse-window", "screw", "front-probe"],
    when: { hazard: ["rotating"] },
    reason: "WARNING: rotating parts. Keep hands, clamp and probes away in this state.",
    source: PRACTICE,
  },
  {
    id: "place-unknown",
    methods: [...CONTACTLESS, "tip", "fuse-window", "screw", "front-probe"],
    when: { isPlaceUnknown: true },
    reason:
      "WARNING: the harness data does not say where this is or what moves there. Keep hands, clamp and probes away in this state.",
    source: PRACTICE,
  },
  {
    id: "crushing-parts",
    methods: [...CONTACTLESS, "tip", "fuse-window", "screw", "front-probe"],
    when: { hazardOfState: ["crush"] },
    reason: "WARNING: moving parts can crush a hand. Keep hands, clamp and probes away in this state.",
    source: PRACTICE,
  },
  {
    id: "out-of-reach",
    methods: TOUCHING,
    when: { isOutOfReach: true },
    reason: "The harness data permits access to this point in other states only, or does not name the states.",
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
    reason: "The harness data lists no adapter for this point.",
    source: "the harness document",
  },
  {
    id: "terminal-size-unknown",
    methods: ["front-probe"],
    when: { isTerminalSizeUnknown: true },
    reason: "The terminal size is not known. An adapter of the wrong size damages the contact.",
    source: "a vehicle maker's page on front-probe adapters, 2010, maker withheld",
  },
  {
    id: "opened-while-running",
    methods: ["front-probe"],
    when: { isMachineBusy: true },
    reason:
      "WARNING: something rotates, cranks or is driven above battery voltage in this state. Do not leave a connector open. Use an adapter that keeps it mated.",
    source: PRACTICE,
  },
  {
    id: "ohms-live",
    meters: ["resistance"],
    when: { stateLacks: ["battery-disconnected"] },
    reason:
      "Do not measure resistance on a live circuit. The reading has no meaning and the meter can be damaged. Disconnect the battery first.",
    source: "a vehicle maker's page on meter use, 1997, maker withheld",
  },
  {
    id: "ohms-on-battery",
    meters: ["resistance"],
    when: { isOnBattery: true },
    reason:
      "Do not measure resistance here. This side of the isolator stays on the battery when the battery is disconnected.",
    source: "a vehicle maker's page on meter use, 1997, maker withheld",
  },
  {
    id: "ohms-into-module",
    meters: ["resistance"],
    when: { side: "device", componentKind: ["module"] },
    reason: "Do not measure resistance into a control unit. Its semiconductors make the reading meaningless.",
    source: "a vehicle maker's page on open and short checks, 2002, maker withheld",
  },
  {
    id: "lamp-needs-battery-power",
    meters: ["test-lamp"],
    when: { netKindOutside: ["battery-power"] },
    reason:
      "A test lamp draws about 0.24 A. Use it only on battery supply lines, never on control unit, sensor, signal or bus lines.",
    source: LAMP_PAGE,
  },
  {
    id: "lamp-at-module",
    meters: ["test-lamp"],
    when: { componentKind: ["module"] },
    reason: "Do not use a test lamp at a connector of a control unit.",
    source: LAMP_PAGE,
  },
];
