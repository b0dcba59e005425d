import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { faultsOf, sizesOf, themesAt } from "./support/accessibility.ts";
import {
  answerCheck,
  beginJob,
  fillForm,
  jobOf,
  openJobs,
  shownCheck,
  untilIdle,
  RETURN_OPEN,
} from "./support/job-steps.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

/** What is to be pressed on the Job page and smaller than 48 px each way: more than the rest of the screen asks for. */
async function tooSmallForGloves(page: Page): Promise<readonly string[]> {
  return page.evaluate(() =>
    [
      ...document.querySelectorAll<HTMLElement>(
        ".job :is(button, select, summary, textarea, input[type=text], label:has(input[type=radio]), label:has(input[type=checkbox]))",
      ),
    ]
      .filter((each) => each.checkVisibility() && each.closest("dialog:not([open])") === null)
      .map((each) => ({ box: each.getBoundingClientRect(), text: each.textContent.trim().slice(0, 20) }))
      .filter(({ box }) => box.width > 0 && (box.height < 47.5 || box.width < 47.5))
      .map(({ box, text }) => `too small for gloves: ${text} ${Math.round(box.width)}x${Math.round(box.height)}`),
  );
}

/** Walks through every view of the page and says what is wrong with each. */
async function faultsOfViews(page: Page): Promise<readonly string[]> {
  const found: string[] = [];
  const look = async (view: string): Promise<void> => {
    await untilIdle(page);
    found.push(...[...(await faultsOf(page)), ...(await tooSmallForGloves(page))].map((fault) => `${view}: ${fault}`));
  };
  await openJobs(page);
  await look("empty list");
  await fillForm(page, ["FE211"], "fan stands still");
  await page.waitForSelector("[data-suspects]");
  await page.locator("[data-suspect] summary").first().click();
  await page.getByRole("button", { name: "Add recent work" }).click();
  await page.getByRole("button", { name: "Choose", exact: true }).click();
  await look("form");
  await page.getByRole("button", { name: "Clear the form" }).click();
  await beginJob(page, RETURN_OPEN.codes);
  await look("check");
  await page.getByText("DTCs, functions, notes").click();
  await page.getByRole("button", { name: "Choose another permitted check" }).click();
  await page.getByLabel(/^Any permitted check/u).fill("visual inspection");
  await page
    .getByRole("button", { name: /^Visual inspection/u })
    .first()
    .waitFor();
  // On a phone what is no number stands behind a button.
  const openOther = async (): Promise<void> => {
    const other = page.locator(".reading .other");
    if (await other.isVisible()) await other.click();
  };
  await openOther();
  await page.getByRole("button", { name: "Not possible" }).click();
  await look("check with all that opens");
  await page
    .getByRole("button", { name: /^Visual inspection/u })
    .first()
    .click();
  await page.locator(`[aria-label="Result"]`).waitFor();
  await look("check without a meter");
  await page.getByRole("button", { name: "Back to the proposed check" }).click();
  await page.getByLabel("Your meter shows").waitFor();
  await openOther();
  await page.getByRole("button", { name: "OL (over range)" }).click();
  await look("meter proven");
  await page.getByRole("button", { name: "Back to the reading" }).click();
  const job = jobOf(RETURN_OPEN);
  while ((await shownCheck(page)) !== undefined) {
    await answerCheck(page, job, RETURN_OPEN);
    await untilIdle(page);
  }
  await page
    .getByRole("button", { name: /^Correct/u })
    .first()
    .click();
  await look("ending");
  await page.getByRole("button", { name: "Repaired: record the cause" }).click();
  await page.getByLabel(/^Cause: what you found/u).fill("broken");
  await page.getByLabel(/^Correction: what you did/u).fill("repaired");
  await look("cause");
  await page.getByRole("button", { name: "Save and verify the repair" }).click();
  await page
    .locator('[data-proof^="trial"]')
    .first()
    .getByRole("button", { name: /^✕ Fail/u })
    .click();
  await page.getByText("the machine is not repaired").waitFor();
  await look("proof");
  await page.locator("[data-prove]").getByRole("button", { name: "End the job" }).click();
  await look("close");
  await page.getByRole("button", { name: "Close the job" }).click();
  await page.waitForSelector("[data-report]");
  await look("report");
  await page.getByRole("button", { name: "All jobs" }).click();
  await page.getByRole("button", { name: /^Delete/u }).waitFor();
  await look("list");
  await page.getByRole("button", { name: /^Delete/u }).click();
  await page.getByRole("button", { name: "Restore the job" }).waitFor();
  await look("list after deleting");
  return found;
}

const sizes = [
  ["tablet, lying", 1280, 800],
  ["tablet, upright", 768, 1024],
  ["phone", 390, 844],
] as const;

describe.each(sizesOf(sizes))("on a %s", (_name, width, height) => {
  test.each(themesAt(width))(
    "every view of a job is without fault to axe-core and suits gloves, %s",
    async (colorScheme) => {
      const page = await app.open("?build=base", { viewport: { width, height }, colorScheme, reducedMotion: "reduce" });
      expect(await faultsOfViews(page)).toEqual([]);
    },
  );
});
