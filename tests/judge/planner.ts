import { readFileSync } from "node:fs";
import { nextCheck, startJob, takeStep, type JobStep, type OpenJob } from "../../src/library/diagnosis.ts";
import { openMachine, type Machine } from "../../src/library/index.ts";

// The only file of the judge that knows the planner: its door, the words it takes and the words it gives.

/** What a person begins a job with, as the workshop cases tell it. */
export interface Told {
  readonly id: string;
  readonly build: string;
  readonly complaint: string;
  readonly codes: readonly string[];
  readonly bad: readonly string[];
  readonly good: readonly string[];
  /** Options of the command line and their values, in turn. */
  readonly extra: readonly string[];
}

/** A check that is asked for, in words of the judge. */
export interface AskedCheck {
  readonly code: string;
  readonly title: string;
  readonly how: "volts" | "ohms" | "look" | "move" | "pull" | "exchange";
  readonly state: string;
  readonly unplugged: readonly string[];
  /** Where the leads go; empty for a check without a meter. */
  readonly red: string;
  readonly black: string;
  /** What is looked at, moved, pulled or exchanged. */
  readonly at: string;
  /** Names of the outcomes of a check without a meter. */
  readonly sound: string;
  readonly faulty: string;
  /** Asked once more, because the reading surprised or the meter was not proven. */
  readonly isAgain: boolean;
}

/** How a job ends. */
export interface AskedEnd {
  /** One repair named as good as certain, several in an order, nothing electrical, or nothing that is named. */
  readonly way: "one repair" | "repairs in order" | "nothing electrical" | "nothing named";
  /** Names of the repairs, the first to do first. */
  readonly names: readonly string[];
}

/** What the planner says next, with the minutes that it has planned so far. */
export interface Said {
  readonly check?: AskedCheck;
  readonly end?: AskedEnd;
  readonly minutes: number;
  /** The suspects it names, most likely first, and the probability it gives each. */
  readonly suspects: readonly string[];
  readonly shares: readonly number[];
}

const HOW: Readonly<Record<string, AskedCheck["how"]>> = {
  "dc-voltage": "volts",
  resistance: "ohms",
  "visual-inspection": "look",
  wiggle: "move",
  "terminal-drag": "pull",
  substitute: "exchange",
};
const STAMP = { at: "2031-03-05T07:00:00Z", writer: "judge" };
/** What stands for all that the planner does not name. */
const UNNAMED = "something else";
/** The end in which no electrical fault is found, once the planner can say so. */
const NOTHING_ELECTRICAL: ReadonlySet<string> = new Set(["no-electrical-fault"]);

let opened: Machine | undefined;

function demoMachine(): Machine {
  if (opened !== undefined) return opened;
  const read = openMachine(readFileSync("demo-harness/firnlark-45.ohm.json", "utf8"));
  if (!read.ok) throw new Error("The demo machine does not open");
  return (opened = read.value);
}

/** How the cases say when a complaint is there, in the planner's words. */
const OCCURRENCE: Readonly<Record<string, Request["shows"]>> = {
  always: "always",
  "comes-and-goes": "intermittent",
  "happened-once": "once",
};

type Request = Parameters<typeof startJob>[1];

function requestOf({ id, build, complaint, codes, bad, good, extra }: Told): Request {
  const valuesOf = (option: string): readonly string[] =>
    extra.flatMap((word, at) => (extra[at - 1] === option ? [word] : []));
  const onlyWhen = valuesOf("--only-when") as NonNullable<Request["onlyWhen"]>;
  const shows = OCCURRENCE[valuesOf("--shows")[0] ?? ""];
  return {
    ...{ id, build, complaint, codes, bad, good, onlyWhen, recent: valuesOf("--recent") },
    ...(shows === undefined ? {} : { shows }),
  };
}

/** A job of the planner, played from outside. */
export class PlannerJob {
  /** How many readings it did not take as the meter shows them, but asked back. */
  askedBack = 0;
  #job: OpenJob;

  constructor(told: Told) {
    const begun = startJob(demoMachine(), requestOf(told), STAMP);
    if (!begun.ok) throw new Error(`${told.id} does not begin: ${JSON.stringify(begun.error).slice(0, 600)}`);
    this.#job = begun.value;
  }

  /** What comes next. */
  next(): Said {
    const answer = nextCheck(this.#job);
    const { suggestion, job } = answer;
    const named = answer.suspects.filter(({ label }) => label !== UNNAMED);
    const suspects = named.map(({ label }) => label);
    const rest = { minutes: job.minutes, suspects, shares: named.map(({ share }) => share) };
    if (suggestion.kind === "check") return { ...rest, check: asked(suggestion.check, false) };
    if (suggestion.kind === "recheck" || suggestion.kind === "prove-meter")
      return { ...rest, check: asked(suggestion.check, true) };
    if (suggestion.kind === "repair") return { ...rest, end: { way: "one repair", names: [suggestion.suspect.label] } };
    if (suggestion.kind === "repair-in-order")
      return { ...rest, end: { way: "repairs in order", names: suggestion.order.map(({ label }) => label) } };
    return {
      ...rest,
      end: { way: NOTHING_ELECTRICAL.has(suggestion.kind) ? "nothing electrical" : "nothing named", names: [] },
    };
  }

  /** Types a reading of a check; the meter is proven before a zero or an open line is told. What it asks back is answered with its first way. */
  give(code: string, value: string, isMeter: boolean): void {
    const step = (typed: string): JobStep => ({
      ...{ kind: "reading", check: code, value: typed },
      ...(isMeter && { isMeterProven: true }),
    });
    const taken = takeStep(demoMachine(), this.#job.state.record, step(value), STAMP);
    const [way] = taken.ok ? [] : (taken.error.problems[0]?.ways ?? []);
    if (way !== undefined) this.askedBack++;
    this.#take(step(way?.write ?? value));
  }

  /** Tells that a check cannot be done. */
  skip(code: string, reason: string): void {
    this.#take({ kind: "skip", check: code, reason });
  }

  /** Tells that something was repaired and the complaint is still there. */
  repairedInVain(suspect: string): void {
    this.#take({ kind: "repair", text: `Repaired: ${suspect}`, suspect, isInVain: true });
  }

  /** Tells that a connector was found not plugged in, which whoever goes to open it sees; false where the planner does not ask for that. */
  sawUnplugged(connector: string): boolean {
    const step: JobStep = { kind: "reading", check: `visual-inspection OFF ${connector}`, value: "unmated" };
    const taken = takeStep(demoMachine(), this.#job.state.record, step, STAMP);
    if (!taken.ok || !taken.value.opened.ok) return false;
    this.#job = taken.value.opened.value;
    return true;
  }

  #take(step: JobStep): void {
    const taken = takeStep(demoMachine(), this.#job.state.record, step, STAMP);
    if (!taken.ok)
      throw new Error(
        `The planner does not take ${JSON.stringify(step)}: ${JSON.stringify(taken.error).slice(0, 600)}`,
      );
    if (!taken.value.opened.ok) throw new Error(`The job is lost after ${JSON.stringify(step)}`);
    this.#job = taken.value.opened.value;
  }
}

type Suggestion = ReturnType<typeof nextCheck>["suggestion"];
type CheckOfPlanner = Extract<Suggestion, { kind: "check" }>["check"];

function asked(check: CheckOfPlanner, isAgain: boolean): AskedCheck {
  const how = HOW[check.kind];
  if (how === undefined) throw new Error(`The judge knows no check of the sort ${check.kind}`);
  const lead = (colour: string): string => check.leads.find(({ lead: each }) => each === colour)?.at ?? "";
  const outcome = (isNormal: boolean): string => check.choices.find((each) => each.isNormal === isNormal)?.id ?? "";
  return {
    ...{ code: check.code, title: check.title, how, unplugged: check.unplugged, isAgain },
    ...{ state: check.state, red: lead("red"), black: lead("black"), at: check.points[0] ?? "" },
    ...{ sound: outcome(true), faulty: outcome(false) },
  };
}
