import { seededRandom } from "ohmward/base";
import { endAddresses, fitBuild, type Harness, type Wire } from "ohmward/harness-model";
import { findPaths, findCommon, findOpenEffect, resolve, type Resolved } from "ohmward/connectivity";
import { measure, summarise, type Times } from "./measure.ts";

/** Times of one question, in ms: the first time, which also indexes, and every later time. */
export interface QuestionFigures {
  readonly name: string;
  readonly firstMs: number;
  readonly later: Times;
  readonly asked: number;
}

/** Names of a signal's two ends: the module pin its code watches and the sensor pin it comes from. */
interface SignalEnds {
  readonly pin: string;
  readonly sensor: string;
  readonly wire: string;
}

function signalEnds(harness: Harness): readonly SignalEnds[] {
  const wiresOfNet = new Map<string, Wire[]>();
  for (const wire of harness.fitted.wires.values()) {
    const wires = wiresOfNet.get(wire.net ?? "") ?? [];
    wires.push(wire);
    wiresOfNet.set(wire.net ?? "", wires);
  }
  return harness.document.codes.flatMap((code) => {
    const wires = wiresOfNet.get(`signal ${code.points[0] ?? ""}`);
    const [first, last] = [wires?.[0], wires?.at(-1)];
    return first && last ? [{ pin: first.ends[0], sensor: endAddresses(last)[1], wire: first.id }] : [];
  });
}

function need(harness: Harness, text: string): Resolved {
  const resolution = resolve(harness, text);
  if (resolution.kind !== "one") throw new Error(`"${text}" names ${resolution.kind}`);
  return resolution.item;
}

/** Asks the questions of a harness with a fixed choice of things. */
export function benchQuestions(harness: Harness, asked: number): readonly QuestionFigures[] {
  const random = seededRandom(45);
  const signals = random.shuffle(signalEnds(harness)).slice(0, asked);
  const pick = (at: number): SignalEnds => {
    const signal = signals[at % signals.length];
    if (!signal) throw new Error("The generated harness has no signals");
    return signal;
  };
  const items = signals.map(({ pin, sensor, wire }) => {
    return { pin: need(harness, pin), sensor: need(harness, sensor), wire: need(harness, wire) };
  });
  const item = (at: number): (typeof items)[number] => items[at % items.length] ?? item(0);
  const battery = need(harness, "G1+");
  const question = (name: string, ask: (of: Harness, at: number) => unknown, times = asked): QuestionFigures => {
    // A harness of its own, so that nothing is indexed before the first question.
    const fresh = fitBuild(harness.document, harness.build.id);
    if (!fresh) throw new Error("The build is gone");
    const first = measure(1, () => ask(fresh, 0));
    const later = Array.from({ length: times }, (_, at) => measure(1, () => ask(fresh, at)).median);
    return { name, firstMs: first.median, later: summarise(later), asked: times };
  };
  return [
    question("find what a text names", (of, at) => resolve(of, pick(at).pin)),
    question("between a module pin and its sensor", (of, at) => findPaths(of, [item(at).pin, item(at).sensor])),
    question("between a sensor and the battery", (of, at) => findPaths(of, [item(at).sensor, battery])),
    question("between two sensors", (of, at) => findPaths(of, [item(at).sensor, item(at + 1).sensor])),
    question(
      "in common of 3 signals",
      (of, at) =>
        findCommon(
          of,
          [at, at + 1, at + 2].map((each) => ({ item: item(each).wire, mark: "bad" as const })),
        ),
      Math.min(asked, 10),
    ),
    question("what stops without a wire", (of, at) => findOpenEffect(of, item(at).wire), Math.min(asked, 10)),
  ];
}
