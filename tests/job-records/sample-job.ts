import { appendEvent, newRecord, type JobRecord, type NewEvent, type RecordedCheck } from "ohmward/job-records";

/** A check of the demo machine as it is written down. */
export const voltsAtRail: RecordedCheck = {
  key: "KOEO volts A1.X1:36 A1.X1:17",
  kind: "dc-voltage",
  point: "red A1.X1:36, black A1.X1:17",
  condition: "Key on, engine off",
  setup: ["breakout lead BL-A1X1 in line"],
  meter: "dc-voltage",
  expected: "0.4 to 0.6 V",
  minutes: 6,
};

/** Everything that may happen in a job, in a sensible order. */
export const sampleEvents: readonly NewEvent[] = [
  {
    kind: "complaint",
    complaint: {
      words: "Rail pressure code, engine in limp mode",
      conditions: { temperature: "cold", wetness: "wet", presence: "always", weather: "snow, -8 °C" },
      since: "yesterday",
      recentWork: [{ text: "Valve cover off", touched: ["XP1", "B3.X"] }],
    },
  },
  { kind: "code", code: "FE111", status: "active" },
  { kind: "symptom", item: "B3", is: "bad" },
  { kind: "symptom", item: "B5", is: "good" },
  { kind: "equipment", adapters: ["BL-A1X1"] },
  { kind: "prior", of: "B3.X:2 open", factor: 4, origin: "opened lately" },
  {
    kind: "reading",
    check: voltsAtRail,
    given: { kind: "value", text: "5,02 V", value: 5.02, unit: "V" },
    verdict: "fail",
    suspects: [{ id: "B3.X:2 open", label: "Contact B3.X:2 open", share: 0.7 }],
  },
  { kind: "cause", suspect: "B3.X:2 open", text: "Contact B3.X:2 pushed out" },
  { kind: "repair", text: "New terminal in B3.X:2, lock seated", parts: ["socket 0.64"], minutes: 20 },
  {
    kind: "proof",
    check: voltsAtRail,
    given: { kind: "value", text: "0.5 V", value: 0.5, unit: "V" },
    verdict: "pass",
  },
  { kind: "note", text: "Showed the operator" },
  { kind: "closed", outcome: "repaired", notChecked: "Wiggle test of the trough" },
];

/** A record with the events of {@link sampleEvents}. */
export function sampleJob(events: readonly NewEvent[] = sampleEvents, writer = "a"): JobRecord {
  const machine = {
    title: "T",
    machine: "Firnlark",
    revision: "1",
    contentHash: "00ff",
    build: { id: "base", label: "Base" },
  };
  const empty = newRecord("J-1", machine, "2031-01-05T07:30:00Z");
  return events.reduce(
    (record, event, index) =>
      appendEvent(record, event, { at: `2031-01-05T08:${String(index).padStart(2, "0")}:00Z`, writer }),
    empty,
  );
}
