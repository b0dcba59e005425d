import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { seededRandom, type SeededRandom } from "ohmward/base";
import type { JobRecord } from "ohmward/job-records";
import { MachineService, readRecord, writeRecord, type JobStep } from "ohmward/application";
import { run } from "../../cli/fake-io.ts";
import { smallMachine } from "../small-machine.ts";

// The screen asks a machine service in a worker; the command line reads and writes files. Both must tell the same of the same steps.
const machine = smallMachine([{ id: "plain", label: "Plain", options: [] }]);
const { document } = machine;
const folder = mkdtempSync(join(tmpdir(), "ohmward-one-"));
const machineFile = join(folder, "lamp.ohm.json");
writeFileSync(machineFile, JSON.stringify(document));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Lists in `npm test`; the long run draws 500. */
const LISTS = process.env["OHMWARD_WHOLE"] === "1" ? 500 : 30;

describe("screen and command line", () => {
  test(`tell the same of ${LISTS} lists of steps drawn by chance`, async () => {
    for (let seed = 1; seed <= LISTS; seed++) await compare(seed);
  }, 1_800_000);
});

async function compare(seed: number): Promise<void> {
  const random = seededRandom(seed);
  const file = join(folder, `job-${seed}.json`);
  const service = new MachineService();
  service.answer("open", sent(document));
  const began = beginning(random);
  const first = await commanded(["new", machineFile, "--job", file, "--id", "J", ...began.args]);
  const request = sent({ request: { id: "J", build: "plain", ...began.request }, stamp: stamp() });
  const begun = sent(service.answer("job-begin", request));
  if (!begun.ok) {
    expect({ seed, answer: first }).toEqual({ seed, answer: begun.error });
    return;
  }
  expect({ seed, answer: plain(first) }).toEqual({ seed, answer: plain(begun.value.next) });
  let record: JobRecord = begun.value.record;
  for (let step = 0; step < 7; step++) {
    const drawn = drawStep(random);
    const answer = await commanded([drawn.command, file, ...drawn.args]);
    const moved = sent(service.answer("job-step", sent({ record, step: drawn.step, stamp: stamp() })));
    const said = moved.ok ? (moved.value.view.ok ? moved.value.view.value.next : moved.value.view.error) : moved.error;
    expect({ seed, drawn, answer: plain(answer) }).toEqual({ seed, drawn, answer: plain(said) });
    if (moved.ok) ({ record } = moved.value);
    // What is kept is the same to the byte, but for who wrote when.
    const kept = readRecord(readFileSync(file, "utf8"));
    if (!kept.ok) throw new Error(`Seed ${seed}: the file of the job cannot be read`);
    expect({ seed, drawn, bytes: unstamped(kept.value) }).toEqual({ seed, drawn, bytes: unstamped(record) });
  }
  const view = sent(service.answer("job-view", sent({ record })));
  if (!view.ok) return;
  const { show, report } = view.value;
  expect({ seed, answer: plain(await commanded(["show", file])) }).toEqual({ seed, answer: plain(show) });
  expect({ seed, answer: plain(await commanded(["report", file])) }).toEqual({ seed, answer: plain(report) });
}

/** What goes to a worker and back is copied on the way. */
function sent<Value>(value: Value): Value {
  return structuredClone(value);
}

function stamp(): { readonly at: string; readonly writer: string } {
  return { at: new Date().toISOString(), writer: "page" };
}

async function commanded(args: readonly string[]): Promise<unknown> {
  const { out, err } = await run(["job", ...args, "--json"]);
  try {
    return JSON.parse(out) as unknown;
  } catch {
    throw new Error(`No answer to ${args.join(" ")}: ${err}`);
  }
}

/** An answer without who wrote when, and without the sentence of the command that begins a job. */
function plain(answer: unknown): unknown {
  return JSON.parse(
    JSON.stringify(answer, (key, value: unknown) => {
      if (key === "openedAt" || key === "at" || key === "written") return undefined;
      return typeof value === "string" ? unstampedText(value) : value;
    }),
  );
}

function unstamped(record: JobRecord): string {
  return unstampedText(writeRecord(record));
}

function unstampedText(text: string): string {
  return text
    .replaceAll(/\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z/gu, "MOMENT")
    .replaceAll(/\b(\d+)\.(?:page|[0-9a-f]{4})\b/gu, "$1.WRITER")
    .replaceAll(/\b\d{4}-\d\d-\d\d\b/gu, "DAY");
}

interface Started {
  readonly args: readonly string[];
  readonly request: {
    readonly bad: readonly string[];
    readonly complaint?: string;
    readonly onlyWhen?: readonly "hot"[];
  };
}

function beginning(random: SeededRandom): Started {
  const bad = random.pick(["E1", "E1", "E1", "F1", "R9", "no such thing"]);
  const words = random.pick([undefined, "dark", "dark when hot"]);
  const isHot = random.next() < 0.3;
  return {
    args: [
      ...["--build", "plain", "--fails", bad],
      ...(words === undefined ? [] : ["--complaint", words]),
      ...(isHot ? ["--condition", "hot"] : []),
    ],
    request: {
      bad: [bad],
      ...(words === undefined ? {} : { complaint: words }),
      ...(isHot && { onlyWhen: ["hot"] as const }),
    },
  };
}

interface Drawn {
  readonly command: string;
  readonly args: readonly string[];
  readonly step: JobStep;
}

function drawStep(random: SeededRandom): Drawn {
  const value = random.pick([
    "12 V",
    "0.0 V",
    "OL",
    "0.2",
    "6 ohm",
    "not sure",
    "unstable",
    "as expected",
    "1,200",
    "?",
  ]);
  const event = String(random.integer(1, 9));
  const number = random.integer(1, 4);
  const words = random.pick(["renewed", "", "x".repeat(2100)]);
  const isProven = random.next() < 0.5;
  const meter = isProven ? ["--meter-proven"] : [];
  const typed = { value, isMeterProven: isProven, isDoubtful: false };
  const outcome = random.pick(["repaired", "no-fault-found", "referred"] as const);
  const factor = random.pick([0, 0.01, 1, 3]);
  const facts = { codes: [], weights: [], notes: [] };
  const draws: readonly (() => Drawn)[] = [
    () => ({ command: "reading", args: [value, ...meter], step: { kind: "reading", ...typed } }),
    () => ({ command: "reading", args: [value, ...meter], step: { kind: "reading", ...typed } }),
    () => ({ command: "skip", args: ["seized"], step: { kind: "skip", reason: "seized" } }),
    () => ({ command: "edit", args: [event, value, ...meter], step: { kind: "correct", event, ...typed } }),
    () => ({ command: "undo", args: [], step: { kind: "undo" } }),
    () => ({ command: "undo", args: [event], step: { kind: "undo", event } }),
    () => ({ command: "add", args: ["--fails", "R9"], step: { kind: "add", ...facts, bad: ["R9"] } }),
    () => ({ command: "add", args: ["--works", "F1"], step: { kind: "add", ...facts, good: ["F1"] } }),
    () => ({
      command: "add",
      args: ["--probability-factor", `part E1=${factor}: seen before`],
      step: { kind: "add", ...facts, weights: [{ of: "part E1", factor, origin: "seen before" }] },
    }),
    () => ({ command: "repair", args: [words, "--cause", "wet"], step: { kind: "repair", text: words, cause: "wet" } }),
    () => ({
      command: "repair",
      args: ["renewed", "--in-vain"],
      step: { kind: "repair", text: "renewed", isInVain: true },
    }),
    () => ({
      command: "proof",
      args: [String(number), "works"],
      step: { kind: "proof", number, value: "works", isMeterProven: false, isDoubtful: false },
    }),
    () => ({
      command: "proof",
      args: [String(number), value, ...meter],
      step: { kind: "proof", number, ...typed },
    }),
    () => ({ command: "close", args: ["--as", outcome], step: { kind: "close", outcome } }),
    () => ({ command: "adopt", args: [], step: { kind: "adopt" } }),
  ];
  return random.pick(draws)();
}
