import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, test } from "vitest";
import { appendEvent, type JobRecord } from "ohmward/job-records";
import { machineOf, MachineService, writeRecord, type JobNextAnswer, type JobRefusal } from "ohmward/application";
import { run } from "../../cli/fake-io.ts";
import { smallMachine } from "../small-machine.ts";
import { begin, stamp, step } from "./begin.ts";

// One job file, told alike by the service behind the screen and by the command line, in four cases where the two once disagreed.
const machine = smallMachine([{ id: "plain", label: "Plain", options: [] }]);
const folder = mkdtempSync(join(tmpdir(), "ohmward-file-"));
const file = join(folder, "job.json");
const data = join(folder, "lamp.ohm.json");
writeFileSync(data, JSON.stringify(machine.document));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const lamp = begin({ build: "plain", bad: ["E1"] }, machine);
const repaired = step(lamp, { kind: "repair", text: "Lamp renewed", cause: "Burnt out", suspect: "part E1" }).job;

function service(document = machine.document): MachineService {
  const made = new MachineService();
  made.answer("open", document);
  return made;
}

async function command(record: JobRecord, args: readonly string[] = ["next"]): Promise<unknown> {
  writeFileSync(file, writeRecord(record));
  const [name = "", ...rest] = args;
  return JSON.parse((await run(["job", name, file, ...rest, "--machine", data, "--json"])).out) as unknown;
}

/** What both say is next. */
async function both(record: JobRecord): Promise<JobNextAnswer> {
  const view = service().answer("job-view", { record });
  if (!view.ok) throw new Error(view.error.text);
  expect(await command(record)).toEqual(JSON.parse(JSON.stringify(view.value.next)));
  return view.value.next;
}

function results(next: JobNextAnswer): readonly (string | undefined)[] {
  if (next.suggestion.kind !== "prove") throw new Error(next.suggestion.kind);
  return next.suggestion.proofs.map(({ result }) => result?.verdict);
}

describe("one job file in screen and command line", () => {
  test("a proof that passed before a second repair does not count after it", async () => {
    const proven = step(repaired, { kind: "proof", number: 1, value: "works" }).job;
    expect(results(await both(proven.state.record))[0]).toBe("pass");
    const again = step(proven, { kind: "repair", text: "Socket renewed" }).job;
    expect(results(await both(again.state.record))).toEqual(results(await both(repaired.state.record)));
  });

  test("a part on an airbag line is refused; a job that holds one already is led back by undo", async () => {
    const added = { kind: "add" as const, bad: ["R9"] };
    const { record } = lamp.state;
    const refused = service().answer("job-step", { record, step: added, stamp });
    expect(refused).toMatchObject({ ok: false, error: { reason: "forbidden" } });
    expect(await command(record, ["add", "--fails", "R9"])).toMatchObject({ reason: "forbidden" });
    // As an earlier version of the screen wrote it.
    const led = appendEvent(record, { kind: "symptom", item: "R9", is: "bad" }, stamp);
    expect(service().answer("job-view", { record: led })).toMatchObject({ ok: false, error: { reason: "forbidden" } });
    expect(await command(led)).toMatchObject({ reason: "forbidden" });
    const back = service().answer("job-step", { record: led, step: { kind: "undo" }, stamp });
    expect(back).toMatchObject({ ok: true, value: { view: { ok: true } } });
    expect(await command(led, ["undo"])).toMatchObject({ kind: "job-next", job: { stage: "checking" } });
  });

  test("going on with changed data is written down in both", async () => {
    const { document } = machine;
    const changed = machineOf({ ...document, about: { ...document.about, revision: "B" } });
    writeFileSync(data, JSON.stringify(changed.document));
    const { record } = lamp.state;
    const refused = service(changed.document).answer("job-view", { record });
    expect(refused).toMatchObject({ ok: false, error: { reason: "changed-data" } });
    expect(await command(record)).toMatchObject({ reason: "changed-data" } satisfies Partial<JobRefusal>);
    const moved = service(changed.document).answer("job-step", { record, step: { kind: "adopt" }, stamp });
    if (!moved.ok) throw new Error(moved.error.text);
    expect(moved.value.record.events.at(-1)).toMatchObject({ kind: "note" });
    expect(await command(record, ["update-data"])).toMatchObject({ written: { text: moved.value.written.text } });
  });
});
