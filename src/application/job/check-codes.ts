import { err, ok, type Result } from "../../base/index.ts";
import type { JobState } from "../../diagnosis/index.ts";
import { contentHash } from "../../job-records/index.ts";
import type { JobRefusal } from "./job-answers.ts";
import { jobRefusal } from "./refuse.ts";

type Checks = JobState["model"]["checks"];
/** A permitted check. */
export type PermittedCheck = Checks extends ReadonlyMap<string, infer Each> ? Each : never;

const SHORTEST = 4;

// Checks of a job never change while the complaint stays.
const known = new WeakMap<Checks, ReadonlyMap<string, string>>();

/**
 * Short names for checks: the first digits of the fingerprint of the key, as many as make all of the job differ. The same check has
 * the same name in every step and in every job.
 *
 * @param checks The checks of a job by key.
 * @returns Short name of each key.
 */
export function checkCodes(checks: Checks): ReadonlyMap<string, string> {
  const before = known.get(checks);
  if (before) return before;
  const hashes = [...checks.keys()].map((key): [string, string] => [key, contentHash(key)]);
  let length = SHORTEST;
  while (length < 16 && new Set(hashes.map(([, hash]) => hash.slice(0, length))).size < hashes.length) length += 1;
  const codes = new Map(hashes.map(([key, hash]) => [key, hash.slice(0, length)]));
  known.set(checks, codes);
  return codes;
}

/**
 * Finds the check that a text names.
 *
 * @param checks The checks of the job.
 * @param text A short name, the beginning of one, or a whole key.
 * @returns The check; why not if there is none or there are several.
 */
export function findCheck(checks: Checks, text: string): Result<PermittedCheck, JobRefusal> {
  const asked = text.trim();
  const whole = checks.get(asked);
  if (whole) return ok(whole);
  const wanted = asked.toLowerCase();
  const hits = [...checks.values()].filter(
    ({ key }) => wanted.length >= 3 && /^[0-9a-f]+$/u.test(wanted) && contentHash(key).startsWith(wanted),
  );
  const [only, second] = hits;
  if (only && !second) return ok(only);
  const message = second
    ? `"${asked}" fits ${hits.length} tests: ${hits.map(({ key }) => key).join("; ")}.`
    : `"${asked}" is not a permitted test of this job.`;
  const hint = 'List the permitted tests with "ohmward job next --all".';
  return err(jobRefusal("wrong-input", "This test is not available.", [{ at: "--check", message, hint }]));
}
