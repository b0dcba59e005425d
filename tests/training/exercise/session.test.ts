import { foldExercise, leadOffers, stepExercise, type ExerciseState } from "ohmward/training";
import type { ExerciseEvent } from "ohmward/job-records";
import { readMeter } from "ohmward/simulation";
import { describe, expect, test } from "vitest";
import { after, KEY_ON, lastSeen, volts, written } from "./support.ts";

const heater = written("blown:FB1.FL2");

/** A tip pushed into a socket of the opened starter connector, against the rules. */
const tip = (insists: boolean): ExerciseEvent => ({
  kind: "measure",
  meter: "dc-voltage",
  red: { point: "XE1e:1", method: "tip-in-socket" },
  black: { point: "G2-", method: "tip" },
  insists,
});

function shown(exercise: ExerciseState): string {
  const seen = lastSeen(exercise);
  return seen.kind === "reading" ? seen.display.text : `${seen.kind}`;
}

describe("the meter of a hunt", () => {
  test("shows what the solver works out, within the accuracy of the meter", () => {
    const exercise = after(heater, [{ kind: "state", to: "HEAT" }, volts("FB1.1", "G2-")]);
    const seen = lastSeen(exercise);
    const probe = { kind: "dc-voltage", red: "FB1.1", black: "G2-" } as const;
    const operatingConditions = { state: "HEAT", faults: [{ kind: "blown", of: "FB1.FL2" }] } as const;
    const reading = readMeter(heater.harness, { operatingConditions, probe });
    const expected = reading.kind === "value" ? reading.value : NaN;
    // 12.63 V with the fuse blown, from demo-harness/expected.json.
    expect(expected).toBeCloseTo(12.63, 1);
    expect(seen.kind === "reading" ? seen.display.value : NaN).toBeGreaterThan(expected * 0.995 - 0.02);
    expect(seen.kind === "reading" ? seen.display.value : NaN).toBeLessThan(expected * 1.005 + 0.02);
  });

  test("keeps the sign, and shows OL above the range chosen", () => {
    expect(shown(after(heater, [KEY_ON, volts("G2-", "G2+")]))).toMatch(/^-12\.\d+ V$/u);
    expect(shown(after(heater, [KEY_ON, volts("G2+", "G2-", 6)]))).toBe("OL");
    expect(shown(after(heater, [KEY_ON, volts("G2+", "G2-", 60)]))).toMatch(/^12\.\d+ V$/u);
  });

  test("wanders on a lead that hangs on nothing, the same each time the hunt is played", () => {
    const ready = written("open:W81");
    const events: readonly ExerciseEvent[] = [
      { kind: "open", connector: "B5.X" },
      KEY_ON,
      {
        kind: "measure",
        meter: "dc-voltage",
        red: { point: "B5.X.harness:2", method: "front-probe" },
        black: { point: "G2-", method: "tip" },
      },
    ];
    const exercise = after(ready, events);
    const seen = lastSeen(exercise);
    expect(seen.kind === "reading" && seen.display.is).toBe("wanders");
    expect(seen.kind === "reading" && new Set(seen.display.samples).size).toBeGreaterThan(1);
    expect(foldExercise(ready.harness, ready.task, events)).toEqual(exercise);
  });

  test("has the resistance of its leads in a reading until they are zeroed", () => {
    const ready = written("unplugged:RT1.X");
    const loop: ExerciseEvent = {
      kind: "measure",
      meter: "resistance",
      red: { point: "Y7.X.harness:1", method: "front-probe" },
      black: { point: "Y7.X.harness:2", method: "front-probe" },
    };
    const coil = after(ready, [{ kind: "open", connector: "Y7.X" }, loop]);
    // Open on the harness side: nothing but the control unit lies behind.
    expect(shown(coil)).toMatch(/OL|Ω/u);
    const stud: ExerciseEvent = { ...volts("G2-", "GND-E1"), meter: "resistance" } as ExerciseEvent;
    const raw = after(ready, [stud]);
    const zeroed = after(ready, [{ kind: "zero-leads" }, stud]);
    const value = (exercise: ExerciseState): number => {
      const seen = lastSeen(exercise);
      return seen.kind === "reading" ? (seen.display.value ?? NaN) : NaN;
    };
    expect(value(raw) - value(zeroed)).toBeCloseTo(0.3, 1);
    const seen = lastSeen(zeroed);
    expect(seen.kind === "reading" && seen.display.notes.join(" ")).toContain(
      "does not show what current the path can carry",
    );
  });

  test("does not show without load what the load brings out", () => {
    // XE1:1 with 0.25 ohm: 12 V with the key on and nothing drawn, 1.9 V lost while cranking (demo-harness/expected.json, X02).
    const ready = written("high-resistance:XE1:1=0.25");
    const clip = (point: string) => ({ point, method: "clip" }) as const;
    const read = (fault: boolean, state: string): number => {
      const exercise = after(ready, [
        ...(fault ? [] : [{ kind: "repair", cause: "high-resistance XE1:1" } as const]),
        { kind: "state", to: state },
        { kind: "measure", meter: "dc-voltage", red: clip("M1.50"), black: clip("GND-E1") },
      ]);
      const seen = lastSeen(exercise);
      return seen.kind === "reading" ? (seen.display.value ?? NaN) : NaN;
    };
    expect(read(false, "CRANK")).toBeCloseTo(9.94, 1);
    expect(read(true, "CRANK")).toBeCloseTo(8.15, 1);
    expect(Math.abs(read(true, "KOEO") - read(false, "KOEO"))).toBeLessThan(0.01);
  });
});

describe("rules of safe work in a hunt", () => {
  test("stop what may not be touched, say why, and take no time", () => {
    const exercise = after(heater, [
      {
        kind: "measure",
        meter: "dc-voltage",
        red: { point: "B3.X.harness:1", method: "back-probe" },
        black: { point: "G2-", method: "tip" },
      },
    ]);
    const seen = lastSeen(exercise);
    expect(seen).toMatchObject({ kind: "stopped", mayInsist: true });
    expect(seen.kind === "stopped" && seen.reason.length).toBeGreaterThan(20);
    expect(exercise.minutes).toBe(0);
  });

  test("stop unplugging with the key on", () => {
    expect(lastSeen(after(heater, [KEY_ON, { kind: "open", connector: "B3.X" }]))).toMatchObject({
      rule: "key-off",
      mayInsist: false,
    });
  });

  test("stop reaching in where something turns", () => {
    const exercise = after(heater, [
      { kind: "state", to: "RUN" },
      { kind: "wiggle", at: { type: "connector", id: "B5.X" } },
    ]);
    expect(lastSeen(exercise)).toMatchObject({ kind: "stopped", rule: "danger-of-place", mayInsist: false });
  });

  test("never let anybody insist on boosted lines while the engine runs", () => {
    const exercise = after(heater, [
      { kind: "state", to: "RUN" },
      {
        kind: "measure",
        meter: "dc-voltage",
        red: { point: "A1.X1.harness:53", method: "back-probe" },
        black: { point: "G2-", method: "tip" },
        insists: true,
      },
    ]);
    expect(lastSeen(exercise)).toMatchObject({ kind: "stopped", mayInsist: false });
  });

  test("a terminal forced by insisting stays damaged, shows in a pull test, and is mended by its own repair only", () => {
    const events: readonly ExerciseEvent[] = [{ kind: "open", connector: "XE1" }, tip(false), tip(true)];
    const exercise = after(heater, events);
    expect(exercise.steps.map(({ seen }) => seen.kind)).toEqual(["done", "stopped", "reading"]);
    expect(exercise.damage).toMatchObject([{ item: { type: "contact", id: "XE1:1" }, isRepaired: false }]);
    const pulled = stepExercise(exercise, { kind: "terminal-drag", at: { type: "contact", id: "XE1:1" } });
    expect(lastSeen(pulled)).toMatchObject({ kind: "outcome", outcome: "loose" });
    const tried = (state: ExerciseState): ExerciseState =>
      [
        { kind: "close", connector: "XE1" },
        { kind: "try", state: "CRANK" },
      ].reduce((now, event) => stepExercise(now, event as ExerciseEvent), state);
    const repaired = stepExercise(exercise, { kind: "repair", cause: "blown FB1.FL2" });
    const still = lastSeen(tried(repaired));
    // The heater works again, but now the starter does not.
    expect(still.kind === "tried" && still.signs.functions.map(({ component }) => component)).toEqual(["M1"]);
    const whole = lastSeen(tried(stepExercise(repaired, { kind: "repair", cause: "open XE1:1" })));
    expect(whole).toMatchObject({ kind: "tried", words: ["Everything works. No DTC comes back."] });
  });
});

describe("a hunt", () => {
  test("counts access once, reopening and closing less", () => {
    const open: ExerciseEvent = { kind: "open", connector: "B3.X" };
    const close: ExerciseEvent = { kind: "close", connector: "B3.X" };
    const minutes = after(heater, [open, close, open]).steps.map((step) => step.minutes);
    // B3.X takes 2 minutes by the harness document; half a minute for each later move is the cost table of the diagnosis.
    expect(minutes).toEqual([2, 0.5, 0.5]);
  });

  test("asks for a hypothesis before each action where the task wants it", () => {
    const ready = written("blown:FB1.FL2", { asks: true });
    const say: ExerciseEvent = { kind: "hypothesis", suspects: [{ type: "element", id: "FB1.FL2" }] };
    const exercise = after(ready, [KEY_ON, volts("G2+", "G2-"), say, volts("G2+", "G2-"), volts("G2+", "G2-")]);
    expect(exercise.steps.map(({ seen }) => seen.kind)).toEqual(["done", "not-ready", "done", "reading", "not-ready"]);
  });

  test("takes no event after its end", () => {
    const exercise = after(heater, [{ kind: "end" }]);
    expect(stepExercise(exercise, KEY_ON)).toBe(exercise);
  });

  test("says what has to be got ready first", () => {
    const front: ExerciseEvent = {
      kind: "measure",
      meter: "dc-voltage",
      red: { point: "B3.X.harness:1", method: "front-probe" },
      black: { point: "G2-", method: "tip" },
    };
    expect(lastSeen(after(heater, [front]))).toEqual({ kind: "not-ready", text: "Disconnect B3.X first." });
    const inLine: ExerciseEvent = {
      kind: "measure",
      meter: "dc-voltage",
      red: { point: "B3.X.harness:1", method: "in-line", adapter: "TL-3-0.64" },
      black: { point: "G2-", method: "tip" },
    };
    expect(lastSeen(after(heater, [inLine]))).toEqual({ kind: "not-ready", text: "Fit TL-3-0.64 first." });
    const fitted = after(heater, [{ kind: "fit", adapter: "TL-3-0.64", at: "B3.X" }, KEY_ON, inLine]);
    expect(lastSeen(fitted).kind).toBe("reading");
  });

  test("offers sound and unsound ways of laying a lead alike", () => {
    const exercise = after(heater, [
      { kind: "open", connector: "B3.X" },
      { kind: "fit", adapter: "BL-A1X1", at: "A1.X1" },
    ]);
    const methods = (point: string): readonly string[] => leadOffers(exercise, point).map(({ lead }) => lead.method);
    expect(methods("B3.X.harness:1")).toEqual(["front-probe", "tip-in-socket"]);
    expect(methods("B4.X.harness:1")).toEqual(["back-probe"]);
    expect(methods("A1.X1.harness:36")).toEqual(["in-line", "back-probe"]);
    expect(methods("W89")).toEqual(["clamp", "pierce"]);
    expect(methods("G2+")).toEqual(["tip", "clip"]);
  });

  test("shows what comes and goes when it is moved where it sits, with the key on, and nowhere else", () => {
    const ready = written("open:XP1:2", { comesAndGoes: true });
    const move = (id: string): ExerciseEvent => ({ kind: "wiggle", at: { type: "connector", id } });
    const outcomes = after(ready, [KEY_ON, move("B4.X"), move("XP1"), move("B4.X")]).steps.flatMap(({ seen }) =>
      seen.kind === "outcome" ? [seen.outcome] : [],
    );
    expect(outcomes).toEqual(["steady", "moves", "steady"]);
    expect(lastSeen(after(ready, [move("XP1")])).kind).toBe("not-ready");
  });

  test("has what comes and goes in one segment of a long wire", () => {
    const ready = written("open:W48", { comesAndGoes: true });
    const { segments } = ready.task.hidden.candidate.places;
    expect(segments.length).toBeGreaterThan(1);
    const moves = segments.map((id): ExerciseEvent => ({ kind: "wiggle", at: { type: "segment", id } }));
    const moved = after(ready, [KEY_ON, ...moves]).steps.filter(
      ({ seen }) => seen.kind === "outcome" && seen.outcome === "moves",
    );
    expect(moved).toHaveLength(1);
  });

  test("shows a fuse that a short has blown, which is no good part and blows again", () => {
    const ready = written("short:W28=G2-,0.05");
    const blown = {
      ...ready.task.hidden,
      faults: [...ready.task.hidden.faults, { kind: "blown", of: "A3.F9" } as const],
    };
    const exercise = after({ ...ready, task: { ...ready.task, hidden: blown } }, [
      { kind: "visual-inspection", at: { type: "element", id: "A3.F9" } },
      { kind: "repair", cause: "blown A3.F9" },
      { kind: "try", state: "CRANK" },
    ]);
    expect(exercise.steps[0]?.seen).toMatchObject({ kind: "outcome", isNormal: false });
    expect([exercise.needless, exercise.isRepaired]).toEqual([[], false]);
    const tried = lastSeen(exercise);
    expect(tried.kind === "tried" && tried.signs.functions.map(({ component }) => component)).toContain("M1");
  });

  test("gives hints that cost and fade", () => {
    const exercise = after(heater, [
      { kind: "hint", level: 1 },
      { kind: "hint", level: 2 },
      { kind: "hint", level: 3 },
    ]);
    expect(exercise.steps.map(({ seen }) => seen.kind)).toEqual(["hint", "hint", "hint"]);
    expect(exercise.hintPoints).toBe(7);
    const hard = { ...heater, task: { ...heater.task, level: 3 as const } };
    expect(after(hard, [{ kind: "hint", level: 2 }]).hintPoints).toBe(0);
    expect(
      after(
        hard,
        Array.from({ length: 5 }, (): ExerciseEvent => ({ kind: "hint", level: 1 })),
      ).hintPoints,
    ).toBe(3);
  });
});
