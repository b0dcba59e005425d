import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readMeter, type Fault } from "ohmward/simulation";
import type { Harness } from "ohmward/harness-model";
import { JobNextAnswer } from "ohmward/application";
import { run, type Ran, type World } from "./fake-io.ts";

/** The check that an answer asks for. */
export type Asked = Extract<JobNextAnswer["suggestion"], { check: object }>["check"];

/** A folder of its own for job files, with the way to take it away. */
export function jobFolder(): { readonly path: (name: string) => string; readonly remove: () => void } {
  const folder = mkdtempSync(join(tmpdir(), "ohmward-job-"));
  return { path: (name) => join(folder, name), remove: () => rmSync(folder, { recursive: true, force: true }) };
}

/** Runs a command about a job with its answer as data; nothing is carried over from one command to the next but the file. */
export async function job(args: readonly string[], world: World = {}): Promise<Ran & { readonly answer: unknown }> {
  const ran = await run(["job", ...args, "--json"], world);
  return { ...ran, answer: JSON.parse(ran.out) as unknown };
}

/** As {@link job}, where the answer says what is next. */
export async function jobNext(args: readonly string[], world: World = {}): Promise<JobNextAnswer> {
  const { answer, err } = await job(args, world);
  const read = JobNextAnswer.safeParse(answer);
  if (!read.success) throw new Error(`${err}\n${JSON.stringify(answer).slice(0, 600)}`);
  return read.data;
}

/** What a person writes down who works on a machine with these faults: the solver's reading, what is to be seen. */
export function typed(harness: Harness, check: Asked, faults: readonly Fault[], broken: string): readonly string[] {
  const [red, black] = check.leads;
  if (!red || !black) {
    const isSeen = check.points.includes(broken);
    return [check.choices[isSeen ? 1 : 0]?.id ?? ""];
  }
  if (check.kind !== "dc-voltage" && check.kind !== "resistance") throw new Error(`Leads in a check of ${check.kind}`);
  const operatingConditions = { state: check.state, unplugged: check.unplugged, faults };
  const shown = readMeter(harness, {
    operatingConditions,
    probe: { kind: check.kind, red: red.at, black: black.at },
    compareWith: [],
  });
  if (shown.kind === "overload") return ["over", "range", "--meter-proven"];
  if (shown.kind !== "value") return ["unstable"];
  const number = shown.value.toFixed(4);
  return [number, check.kind === "dc-voltage" ? "V" : "ohm", "--meter-proven"];
}
