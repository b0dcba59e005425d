import type { TrueMachine } from "../truth/machine.ts";

// Which codes a machine sets, written by hand for the demo machine: each by what its own control unit sees at its own pins, against its own
// ground. Limits are common practice, no source. A starter relay line cannot be judged, because its feed is there in START alone.

/** What a control unit sees. */
interface Eyes {
  /** Volts of a pin against the unit's own ground. */
  readonly volts: (state: string, pin: string) => number;
  /** Ohms between two pins, or a pin and the own ground, as its test current finds them; Infinity where nothing joins them. */
  readonly ohms: (pin: string, other?: string) => number;
  readonly truth: TrueMachine;
}

const OPEN_OHM = 1000;
const SHORT_OHM = 20;

const signalHigh = (pin: string) => (eyes: Eyes) => eyes.volts("KOEO", pin) > 4.8;
const signalLow = (pin: string) => (eyes: Eyes) => eyes.volts("KOEO", pin) < 0.2;
const supplyLow = (pin: string) => (eyes: Eyes) => eyes.volts("KOEO", pin) < 4.6;
const loopOpen = (pin: string, other: string) => (eyes: Eyes) => eyes.ohms(pin, other) > OPEN_OHM;
const toGround =
  (...pins: readonly string[]) =>
  (eyes: Eyes) =>
    pins.some((pin) => eyes.ohms(pin) < SHORT_OHM);
/** Whether an open collector is seen to switch. */
const isPulsing = ({ truth }: Eyes, state: string, pin: string): boolean => truth.swing(state, pin, "A1#gnd") > 2;
const isCranking = ({ truth }: Eyes): boolean => truth.watts("CRANK", "M1.motor") > 500;

type Sees = (eyes: Eyes) => boolean;

const OF_A1: Readonly<Record<string, Sees>> = {
  FE111: signalHigh("X1.device:36"),
  FE112: signalLow("X1.device:36"),
  FE121: signalHigh("X1.device:37"),
  FE122: signalLow("X1.device:37"),
  FE131: signalHigh("X1.device:38"),
  FE132: signalLow("X1.device:38"),
  FE141: signalHigh("X1.device:39"),
  FE142: signalLow("X1.device:39"),
  FE151: signalHigh("X1.device:40"),
  FE152: signalLow("X1.device:40"),
  FE161: supplyLow("X1.device:1"),
  FE171: supplyLow("X1.device:2"),
  FE181: (eyes) => {
    const ohm = eyes.ohms("X1.device:33", "X1.device:34");
    return isCranking(eyes) && (ohm > 3000 || ohm < 200);
  },
  FE191: (eyes) => isCranking(eyes) && !isPulsing(eyes, "CRANK", "A1.X1.device:35"),
  FE201: (eyes) => isCranking(eyes) && !isPulsing(eyes, "RUN", "A1.X1.device:41"),
  FE211: (eyes) => eyes.volts("KOEO", "X1.device:49") < 3,
  FE212: (eyes) => isCranking(eyes) && eyes.volts("RUN", "X1.device:49") > 11.5,
  FE221: loopOpen("X1.device:50", "X1.device:51"),
  // No dip of the own feed when the heater goes on.
  FE231: (eyes) => eyes.volts("KOEO", "#batt") - eyes.volts("HEAT", "#batt") < 0.25,
  FE232: (eyes) => eyes.ohms("X1.device:42") > OPEN_OHM,
  FE311: loopOpen("X1.device:53", "X1.device:54"),
  FE321: loopOpen("X1.device:55", "X1.device:56"),
  FE331: loopOpen("X1.device:57", "X1.device:58"),
  FE341: loopOpen("X1.device:59", "X1.device:60"),
  FE351: toGround("X1.device:53", "X1.device:54", "X1.device:55", "X1.device:56"),
  FE352: toGround("X1.device:57", "X1.device:58", "X1.device:59", "X1.device:60"),
  FE431: (eyes) => eyes.volts("KOEO", "X2.device:28") < 3,
};
const OF_A2: Readonly<Record<string, Sees>> = {
  FC521: (eyes) => Math.abs(eyes.volts("KOEO", "X1.device:11") - 2 * eyes.volts("KOEO", "X1.device:12")) > 0.25,
  FC531: supplyLow("X1.device:9"),
};

function eyesOf(truth: TrueMachine, unit: string): Eyes {
  return {
    truth,
    volts: (state, pin) => {
      const name = pin.startsWith("#") ? `${unit}${pin}` : `${unit}.${pin}`;
      return truth.voltsAt(state, name) - truth.voltsAt(state, `${unit}#gnd`);
    },
    ohms: (pin, other) => {
      const black = other === undefined ? `${unit}#gnd` : `${unit}.${other}`;
      const read = truth.read({ meter: "ohms", state: "OFF", red: `${unit}.${pin}`, black, unplugged: [] });
      return typeof read === "number" ? read : Infinity;
    },
  };
}

/** How well the two control units hear each other. */
function busOf(truth: TrueMachine): "good" | "errors" | "dead" {
  const eyes = eyesOf(truth, "A1");
  const ohm = (one: string, other: string): number => {
    const read = truth.read({ meter: "ohms", state: "OFF", red: one, black: other, unplugged: [] });
    return typeof read === "number" ? read : Infinity;
  };
  const lines = [
    ["A1.X2.device:11", "A2.X1.device:4"],
    ["A1.X2.device:12", "A2.X1.device:5"],
  ] as const;
  if (lines.some(([one, other]) => ohm(one, other) > 50)) return "dead";
  const between = ohm("A1.X2.device:11", "A1.X2.device:12");
  const shift = Math.abs(truth.voltsAt("KOEO", "A1#gnd") - truth.voltsAt("KOEO", "A2#gnd"));
  const isPulled = ["X2.device:11", "X2.device:12"].some((pin) => {
    const volt = eyes.volts("KOEO", pin);
    return volt < 0.8 || volt > 4.2;
  });
  if (between < 35 || isPulled || shift > 3) return "dead";
  return between > 90 || shift > 1 ? "errors" : "good";
}

/** Codes that are set and that a tester or the display can read. */
export function codesOf(truth: TrueMachine): readonly string[] {
  const awake = truth.awake("KOEO");
  const bus = busOf(truth);
  const codes: string[] = [];
  const [isA1, isA2] = [awake.includes("A1"), awake.includes("A2")];
  const add = (unit: string, table: Readonly<Record<string, Sees>>): void => {
    const eyes = eyesOf(truth, unit);
    codes.push(...Object.keys(table).filter((code) => table[code]?.(eyes) === true));
  };
  // The tester stands at the cab end of the bus: what it cannot reach is not read.
  if (isA1 && bus !== "dead") {
    add("A1", OF_A1);
    if (!isA2) codes.push("FE411");
    if (bus === "errors") codes.push("FE412");
  }
  if (isA2) {
    add("A2", OF_A2);
    if (!isA1 || bus === "dead") codes.push("FC511");
    else if (bus === "errors") codes.push("FC512");
  }
  return codes;
}
