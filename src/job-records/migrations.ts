import { renameJson, wordsOf } from "../base/index.ts";
import type { Migration } from "../harness-model/index.ts";

const CHECKS = {
  ...{ volts: "dc-voltage", ohms: "resistance", amps: "dc-current", lamp: "test-lamp" },
  ...{ look: "visual-inspection", drag: "terminal-drag", swap: "substitute" },
};
const checkKind = wordsOf(CHECKS);
const faultMode = wordsOf({ resistance: "high-resistance", swapped: "cross-wired" });
const readingKind = wordsOf({
  ...{ "over-range": "overload", unsteady: "unstable", "not-sure": "unsure", "cannot-be-done": "not-possible" },
});
const verdict = wordsOf({ "as-expected": "pass", "not-as-expected": "fail", "no-verdict": "inconclusive" });

/** The first word of a text renamed, such as the sort of a check in its key. */
function firstWord(rename: (word: string) => string): (text: string) => string {
  return (text) => text.replace(/^\S+(?= )/u, rename);
}

/** The key of a check. A trial was named by its sentence, on the screen of version 0.1 with a colon. */
function checkKey(key: string): string {
  const trial = /^trial: (.*)$/u.exec(key)?.[1];
  return trial === undefined ? firstWord(checkKind)(key) : trialKey(trial);
}

/** The key of a trial, from the sentence that version 1 recorded it with. */
function trialKey(sentence: string): string {
  const codes = /^Clear (.*) and run the machine under the conditions of the complaint(.*): the codes must stay away/u;
  const functions = /^Try (.*) under the conditions of the complaint(.*)\.$/u;
  const [, clear, whenClear = ""] = codes.exec(sentence) ?? [];
  if (clear !== undefined) return `trial codes ${clear}${whenClear}`;
  const [, functionsTried, whenTried = ""] = functions.exec(sentence) ?? [];
  return functionsTried === undefined ? "trial movement" : `trial functions ${functionsTried}${whenTried}`;
}

function renamedRecord(record: Readonly<Record<string, unknown>>): Record<string, unknown> {
  const renamed = renameJson(record, {
    keys: { thing: "item" },
    words: {
      "events complaint conditions presence": wordsOf({ "comes-and-goes": "intermittent", "happened-once": "once" }),
      "events status": wordsOf({ stored: "previously-active", absent: "not-present" }),
      "events check key": checkKey,
      "events check kind": checkKind,
      "events given kind": readingKind,
      "events verdict": verdict,
      "events of": firstWord(faultMode),
      "events suspects id": firstWord(faultMode),
      "events outcome": wordsOf({ mended: "repaired", "not-found": "no-fault-found", "passed-on": "referred" }),
    },
  }) as Record<string, unknown>;
  const events = renamed["events"];
  return Array.isArray(events) ? { ...renamed, events: events.map(namedTrial) } : renamed;
}

/** The command line named a trial by a number made of its sentence, which stands beside it. */
function namedTrial(event: unknown): unknown {
  const { check } = (event ?? {}) as { readonly check?: { readonly key?: unknown; readonly point?: unknown } };
  if (typeof check?.key !== "string" || typeof check.point !== "string" || !/^trial [0-9a-f]{16}$/u.test(check.key))
    return event;
  return { ...(event as object), check: { ...check, key: trialKey(check.point) } };
}

/** All migrations of the job record, oldest first. Version 2 renames only. */
export const recordMigrations: readonly Migration[] = [
  { name: "words of the trade", from: 1, to: 2, migrate: renamedRecord },
];

/** All migrations of exercise lists and result files, oldest first. Version 2 renames only. */
export const trainingMigrations: readonly Migration[] = [
  {
    name: "words of the trade",
    from: 1,
    to: 2,
    migrate: (file) =>
      renameJson(file, {
        words: {
          "work kind": wordsOf({ hunt: "exercise" }),
          "work answers drill": firstWord(wordsOf({ shared: "common", without: "effect" })),
          "work events kind": checkKind,
          "work events meter": checkKind,
          "work events cause": firstWord(faultMode),
          "work task fault": faultText,
          "tasks fault": faultText,
        },
      }) as Record<string, unknown>,
  },
];

/** A fault in text form, such as `resistance:W78=0.4`. */
function faultText(text: string): string {
  const sort = wordsOf({ resistance: "high-resistance", swapped: "cross-wired", loose: "loose-terminal" });
  return text.replace(/^[a-z-]+(?=:)/u, sort);
}
