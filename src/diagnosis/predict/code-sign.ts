import type { Code, Harness } from "../../harness-model/index.ts";
import { busMembers, pointsOfCode, type BusMember } from "../candidates/module-lines.ts";
import { circuitsServed, functionSign } from "./function-sign.ts";
import {
  feedOf,
  groundOf,
  isOhmNoticed,
  isVoltNoticed,
  TRUST,
  usefulStates,
  voltOf,
  type Shown,
  type Sign,
  type SignProbe,
} from "./sign.ts";

/** Whether a code is judged by a limit that its module tests, and not by an effect that a static model only hints at. */
export function isHard({ failure }: Code): boolean {
  return failure === "voltage-high" || failure === "voltage-low" || failure === "open" || failure === "short";
}

/**
 * The sign that a module sets a code, as the module sees it: against its own ground, and only while it is awake.
 *
 * @param isBrief Only the state with the key on is looked at, for codes that nobody mentioned.
 */
export function codeSign(harness: Harness, code: Code, isBrief = false): Sign {
  const members = busMembers(harness, code);
  const inner = members.length > 0 ? busSign(harness, code, members) : ownSign(harness, code, isBrief);
  return inner.probes.length === 0 ? inner : whileAwake(harness, code.module, inner);
}

/** A module that lacks its feed or its ground sets no code. */
function whileAwake(harness: Harness, module: string | undefined, sign: Sign): Sign {
  const awake = awakeProbe(harness, module);
  const feed = feedOf(harness, module);
  if (!awake || !feed) return sign;
  return {
    probes: [...sign.probes, awake],
    share: (now, normal) =>
      isAsleep(feed.leastVolt, now.at(-1), normal.at(-1)) ? TRUST.setWithoutCause : sign.share(now, normal),
  };
}

function awakeProbe(harness: Harness, module: string | undefined): SignProbe | undefined {
  const feed = feedOf(harness, module);
  const { on } = usefulStates(harness);
  return feed && on && { state: on.id, kind: "dc-voltage", red: feed.positive, black: feed.negative };
}

function isAsleep(leastVolt: number, now: Shown, normal: Shown): boolean {
  return now !== undefined && voltOf(normal) >= leastVolt && voltOf(now) < leastVolt;
}

function ownSign(harness: Harness, code: Code, isBrief: boolean): Sign {
  const { off, on, live } = usefulStates(harness);
  const ground = groundOf(harness, code.module);
  const points = pointsOfCode(harness, code);
  const volts = (states: readonly { readonly id: string }[]): readonly SignProbe[] =>
    ground === undefined
      ? []
      : states.flatMap(({ id }) =>
          points.map((red): SignProbe => ({ state: id, kind: "dc-voltage", red, black: ground })),
        );
  const ohms = (pairs: readonly (readonly [string, string | undefined])[]): readonly SignProbe[] =>
    pairs.flatMap(([red, black]): SignProbe[] =>
      off && black !== undefined ? [{ state: off.id, kind: "resistance", red, black }] : [],
    );
  const asked = isBrief && on ? [on] : live;
  const [first = ""] = points;
  const between = points.slice(1).map((point): readonly [string, string] => [first, point]);
  switch (code.failure) {
    case "voltage-high":
    case "voltage-low":
      return hardSign(harness, code, volts(on ? [on] : []));
    case "open":
      return hardSign(
        harness,
        code,
        points.length > 1 ? ohms(between) : [...volts(asked), ...driverProbes(harness, points, asked)],
      );
    case "short":
      return hardSign(harness, code, [
        ...ohms(points.map((point) => [point, ground])),
        ...volts(points.length > 1 ? [] : live),
      ]);
    case "erratic":
    case "implausible":
    case "no-signal":
    case "other":
      return softSign(functionSign(harness, circuitsServed(harness, code.id).slice(0, 6)), ohms(between));
  }
}

function hardSign(harness: Harness, code: Code, probes: readonly SignProbe[]): Sign {
  const nominal = harness.document.system.nominalVolt;
  const asked = probes.map(({ kind, red }) => ({ kind, isSupply: isSupplyPin(harness, red), nominal }));
  return {
    probes,
    share: (now, normal) => {
      const isSet = asked.some((probe, at) => judge(code, { ...probe, normal: normal[at], now: now[at] }));
      return isSet ? TRUST.set : TRUST.setWithoutCause;
    },
  };
}

function softSign(ofFunction: Sign, ohms: readonly SignProbe[]): Sign {
  const own = ofFunction.probes.length;
  return {
    probes: [...ofFunction.probes, ...ohms],
    share: (now, normal) => {
      const isOff = ohms.some((_, at) => isOhmNoticed(now[own + at], normal[own + at]));
      const bad = (ofFunction.share(now, normal) - TRUST.badWithoutCause) / (TRUST.bad - TRUST.badWithoutCause);
      return TRUST.softWithoutCause + Math.max(Number(isOff), bad) * (TRUST.softSet - TRUST.softWithoutCause);
    },
  };
}

/** The currents of the drivers at some pins: what a module switches on and nothing flows in is open. */
function driverProbes(
  harness: Harness,
  points: readonly string[],
  states: readonly { readonly id: string }[],
): readonly SignProbe[] {
  const keyOf = (node: number | undefined): string => harness.nodes[node ?? -1]?.key ?? "";
  const drivers = harness.edges.flatMap((edge, number): Extract<SignProbe, { kind: "current" }>[] => {
    if (edge.kind !== "element" || edge.element.kind !== "driver") return [];
    const [red, black] = [keyOf(harness.index.from[number]), keyOf(harness.index.to[number])];
    const isAtPin = points.includes(red) || points.includes(black);
    const of = `${edge.component.id}.${edge.element.id}`;
    return isAtPin ? [{ state: "", kind: "current", of, red, black }] : [];
  });
  return states.flatMap(({ id: state }) => drivers.map((driver) => ({ ...driver, state })));
}

interface Judged {
  readonly kind: SignProbe["kind"];
  /** Whether a source inside the module feeds the pin. */
  readonly isSupply: boolean;
  readonly normal: Shown;
  readonly now: Shown;
  readonly nominal: number;
}

/** Limits of signals on a 5 V pin: above 95 % and below 6 % of the supply no healthy sensor of this kind reads. */
const HIGH_VOLT = 4.75;
const LOW_VOLT = 0.3;
/** Ohms to ground below which a line counts as shorted, and above which a loop counts as open. */
const SHORT_OHM = 20;
const OPEN_OHM = 100;
/**
 * What a driver carries when it is on, in ampere, and the share of it below which the line counts as open: a suppressor beside an open coil
 * still draws more. Common practice, no source.
 */
const LEAST_DRIVEN_AMPERE = 0.01;
const OPEN_SHARE = 0.05;

function judge(code: Code, { kind, isSupply, normal, now, nominal }: Judged): boolean {
  if (now === undefined || normal === undefined) return false;
  if (kind === "resistance") {
    const [ohm, normalOhm] = [voltOf(now), voltOf(normal)];
    return code.failure === "short"
      ? ohm < SHORT_OHM && normalOhm > 3 * SHORT_OHM
      : ohm === Infinity || ohm > Math.max(OPEN_OHM, 3 * normalOhm);
  }
  if (kind === "current")
    return (
      Math.abs(voltOf(normal)) > LEAST_DRIVEN_AMPERE && Math.abs(voltOf(now)) < OPEN_SHARE * Math.abs(voltOf(normal))
    );
  const [volt, normalVolt] = [voltOf(now), voltOf(normal)];
  if (code.failure === "voltage-high") return volt >= (normalVolt > 5.3 ? 1.2 * normalVolt : HIGH_VOLT);
  if (code.failure === "voltage-low")
    return volt < (isSupply ? 0.92 * normalVolt : Math.min(LOW_VOLT, 0.6 * normalVolt));
  if (code.failure === "open")
    return (now === "floating" && normal !== "floating") || (normalVolt > 0.5 * nominal && volt < 0.3 * normalVolt);
  return volt > normalVolt + 0.3 * nominal;
}

/** A pin that a source inside the module feeds. */
function isSupplyPin(harness: Harness, point: string): boolean {
  const number = harness.nodeNumbers.get(point);
  return harness.edges.some(
    (edge, index) => edge.kind === "element" && edge.element.kind === "source" && harness.index.from[index] === number,
  );
}

/** Between the grounds of two units on a bus: unnoticed, and enough to spoil what they send, in volt. Common practice, no source. */
const SHIFT_UNNOTICED_VOLT = 0.15;
const SHIFT_PLAIN_VOLT = 1;
/** More than this in a line between two units is no conductor any more, in ohm. */
const LINE_OHM = 10;

/**
 * A data bus works if its lines are whole and close to nothing else, its terminators are there, each unit on it is awake, and their grounds
 * lie close together.
 */
function busSign(harness: Harness, code: Code, members: readonly BusMember[]): Sign {
  const { off, on } = usefulStates(harness);
  const pins = pointsOfCode(harness, code);
  const ground = groundOf(harness, code.module);
  const checks: { readonly probe: SignProbe | undefined; readonly share: (now: Shown, normal: Shown) => number }[] = [];
  const bad = (is: (now: Shown, normal: Shown) => boolean) => (now: Shown, normal: Shown) =>
    is(now, normal) ? TRUST.softSet : 0;
  const ohms = (red: string, black: string): SignProbe | undefined =>
    off && { state: off.id, kind: "resistance", red, black };
  const volts = (red: string, black: string | undefined): SignProbe | undefined =>
    on && black !== undefined ? { state: on.id, kind: "dc-voltage", red, black } : undefined;
  const [first = "", ...others] = pins;
  for (const other of others) checks.push({ probe: ohms(first, other), share: bad(isOhmNoticed) });
  for (const pin of pins) checks.push({ probe: volts(pin, ground), share: bad(isVoltNoticed) });
  for (const { module, pins: theirs } of members) {
    const feed = feedOf(harness, module);
    theirs.forEach((pin, line) => {
      const isBroken = (now: Shown, normal: Shown): boolean => voltOf(now) > voltOf(normal) + LINE_OHM;
      checks.push({ probe: ohms(pins[line] ?? "", pin), share: bad(isBroken) });
    });
    if (!feed) continue;
    const isSilent = code.failure === "no-signal" ? TRUST.set : 0.3;
    checks.push({
      probe: awakeProbe(harness, module),
      share: (now, normal) => (isAsleep(feed.leastVolt, now, normal) ? isSilent : 0),
    });
    checks.push({ probe: volts(feed.negative, ground), share: shiftShare });
  }
  const asked = checks.flatMap(({ probe, share }) => (probe ? [{ probe, share }] : []));
  return {
    probes: asked.map(({ probe }) => probe),
    share: (now, normal) =>
      Math.max(TRUST.softWithoutCause, ...asked.map(({ share }, at) => share(now[at], normal[at]))),
  };
}

function shiftShare(now: Shown, normal: Shown): number {
  const shift = Math.abs(voltOf(now) - voltOf(normal));
  const plain = (shift - SHIFT_UNNOTICED_VOLT) / (SHIFT_PLAIN_VOLT - SHIFT_UNNOTICED_VOLT);
  return Math.min(1, Math.max(0, plain)) * TRUST.softSet;
}
