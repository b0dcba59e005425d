import { readFileSync } from "node:fs";
import type { Fault } from "ohmward/simulation";
import type { Check, JobState } from "ohmward/diagnosis";
import { expect } from "vitest";
import type { Page } from "playwright-core";
import { begin, newJob, reading } from "../../diagnosis/demo-job.ts";
import { misdeeds } from "./app.ts";

/** A machine with a hidden fault: what its meter shows comes from the solver, what a look shows from the test. */
export interface InsertedFault {
  readonly codes: readonly string[];
  readonly faults: readonly Fault[];
  readonly isSeen?: (check: Check) => boolean;
}

/** Four sensors read high because the return they share is broken; demo-harness/expected.json, invented. */
export const RETURN_OPEN: InsertedFault = {
  codes: ["FE111", "FE121", "FE141", "FE151"],
  faults: [{ kind: "open", of: "W78" }],
};
/** No contact in the fan clutch connector; found by resistance. */
export const FAN_DEAD: InsertedFault = { codes: ["FE211"], faults: [{ kind: "open", of: "XF1:1" }] };

/** Goes to the Job page. */
export async function openJobs(page: Page): Promise<void> {
  await page.getByRole("button", { name: "Job", exact: true }).click();
  await page.getByRole("heading", { name: "Jobs on this device" }).waitFor();
}

/** Fills the form with codes and words. */
export async function fillForm(page: Page, codes: readonly string[], words: string): Promise<void> {
  await openJobs(page);
  await page.getByRole("button", { name: "New job" }).click();
  await page.getByLabel("Complaint, in the operator's words").fill(words);
  await page.getByText("always", { exact: true }).click();
  const field = page.getByRole("combobox", { name: "Diagnostic trouble code (DTC), or SPN and FMI" });
  for (const code of codes) {
    await field.fill(code);
    await field.press("Enter");
    await page.waitForSelector(`[data-code="${code}"]`);
  }
}

/** Begins a job; answers with its id. */
export async function beginJob(page: Page, codes: readonly string[], words = "lamp on"): Promise<string> {
  await fillForm(page, codes, words);
  await page.getByRole("button", { name: "Start the job" }).and(page.locator(":enabled")).click();
  await page.waitForSelector("[data-check], [data-ending]");
  return decodeURIComponent(page.url().split("#job/")[1] ?? "");
}

/** Waits until nothing is being worked out. */
export async function untilIdle(page: Page): Promise<void> {
  await page.waitForSelector('main.job[data-doing=""]');
}

/** The key of the check that is shown; undefined where the checks have ended. */
export async function shownCheck(page: Page): Promise<string | undefined> {
  await page.waitForSelector("[data-check], [data-ending]");
  const card = page.locator("[data-check]");
  return (await card.count()) > 0 ? ((await card.getAttribute("data-check")) ?? undefined) : undefined;
}

/** Readings that count in the log. */
export async function readingsIn(page: Page): Promise<number> {
  return page.locator("[data-log] [data-reading]").count();
}

/** The job as the test knows it, to look checks up in. */
export function jobOf({ codes }: InsertedFault): JobState {
  return begin(newJob(codes));
}

/** Answers the check that is shown as the machine with its hidden fault would, and waits until the log holds the reading. */
export async function answerCheck(page: Page, job: JobState, hidden: InsertedFault): Promise<void> {
  const key = await shownCheck(page);
  const check = job.model.checks.get(key ?? "");
  if (!check) throw new Error(`The test does not know the check "${key ?? ""}"`);
  const before = await readingsIn(page);
  const isSeen = hidden.isSeen?.(check) ?? false;
  const given = reading(check, hidden.faults, isSeen);
  if (given.kind === "value") {
    await page.getByLabel("Your meter shows").fill(given.text);
    await page.getByRole("button", { name: "Record the reading" }).click();
    // What can be read in two ways is asked back; the first of them is as it was written.
    const asked = page.getByRole("group", { name: "Which is meant?" });
    await page.waitForFunction(
      (count) =>
        document.querySelectorAll("[data-log] [data-reading]").length > count ||
        document.querySelector('[aria-label="Which is meant?"], .proof') !== null,
      before,
    );
    if (await asked.isVisible()) await asked.getByRole("button").first().click();
  } else if (given.kind === "overload") await page.getByRole("button", { name: "OL (over range)" }).click();
  else if (given.kind === "outcome")
    await page
      .locator(`[aria-label="Result"] button`)
      .nth(isSeen ? 1 : 0)
      .click();
  else await page.getByRole("button", { name: "Unstable reading" }).click();
  const isZero = given.kind === "value" && given.unit === "V" && Math.abs(given.value) < 0.05;
  if (isZero || given.kind === "overload") await page.getByRole("button", { name: "Meter proven: record" }).click();
  await page.waitForFunction((count) => document.querySelectorAll("[data-log] [data-reading]").length > count, before);
}

/** Shares of the suspects as they are shown, by name. */
export async function sharesIn(page: Page): Promise<ReadonlyMap<string, number>> {
  const rows = await page
    .locator("[data-suspect]")
    .evaluateAll((all) =>
      all.map((each) => [each.getAttribute("data-suspect") ?? "", Number(each.getAttribute("data-share"))] as const),
    );
  return new Map(rows);
}

/** Everything that the log says, newest first. */
export async function logOf(page: Page): Promise<string> {
  return page.locator("[data-log]").innerText();
}

/** Expects that the open job goes on as it was, after the page was opened anew. */
export async function expectSame(
  page: Page,
  before: { readonly key: string | undefined; readonly log: string },
): Promise<void> {
  expect(await shownCheck(page)).toBe(before.key);
  expect(await logOf(page)).toBe(before.log);
}

/** Presses a button that saves a file; its name and what is in it. */
export async function saved(page: Page, name: string): Promise<{ readonly name: string; readonly text: string }> {
  const [download] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name, exact: true }).first().click(),
  ]);
  return { name: download.suggestedFilename(), text: readFileSync(await download.path(), "utf8") };
}

/** Closes the page the hard way and opens the same address anew in the same browser. */
export async function reopened(page: Page): Promise<Page> {
  const context = page.context();
  const address = page.url();
  await page.close({ runBeforeUnload: false });
  const next = await context.newPage();
  next.on("pageerror", (error) => misdeeds.push(`error: ${error.message}`));
  await next.goto(address);
  return next;
}
