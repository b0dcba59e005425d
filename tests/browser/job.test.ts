import { replayEvents, jobText, readRecord } from "ohmward/job-records";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import {
  answerCheck,
  beginJob,
  fillForm,
  jobOf,
  logOf,
  readingsIn,
  reopened,
  saved,
  sharesIn,
  shownCheck,
  untilIdle,
  RETURN_OPEN,
  FAN_DEAD,
} from "./support/job-steps.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

const START = "?build=base";

describe("a whole job", () => {
  test("goes from the complaint to the printed record, the page being closed after every step", async () => {
    let page = await app.open(START);
    const id = await beginJob(page, RETURN_OPEN.codes, "Four values stand at the top since yesterday");
    expect(page.workers().length).toBeGreaterThan(0);
    const job = jobOf(RETURN_OPEN);
    let steps = 0;
    while ((await shownCheck(page)) !== undefined) {
      expect(steps).toBeLessThan(25);
      // As soon as the log shows a reading it is stored: the page is closed before anything else can happen.
      await answerCheck(page, job, RETURN_OPEN);
      steps += 1;
      page = await reopened(page);
      await shownCheck(page);
      expect(await readingsIn(page)).toBe(steps);
    }
    const named = await page.locator("[data-ending] ol").innerText();
    expect(named).toContain("wire W78");

    await page.getByRole("button", { name: "Repaired: record the cause" }).click();
    await page.getByLabel("Faulty item (probability)").selectOption("wire W78");
    await page.getByLabel(/^Cause: what you found/u).fill("broken at the clip");
    await page.getByLabel(/^Correction: what you did/u).fill("new wire, sealed splice");
    await page.getByLabel(/^Parts/u).fill("wire 0.75 BN, splice");
    await page.getByLabel("Repair time in minutes").fill("35");
    await page.getByRole("button", { name: "Save and verify the repair" }).click();
    await page.waitForSelector("[data-prove]");

    page = await reopened(page);
    // The repaired machine: no fault any more. A wrong proof is judged as one, and can be done again.
    const meter = page.locator('[data-proof^="dc-voltage"], [data-proof^="resistance"]').first();
    const told = /must show: (?<value>-?[\d.]+) (?<unit>m?V)/u.exec(await meter.innerText())?.groups;
    if (told === undefined) throw new Error(await meter.innerText());
    await meter.getByLabel("Your meter shows").fill("11.1");
    await meter.getByRole("button", { name: "Record the reading" }).click();
    await page.getByText("the machine is not repaired").waitFor();
    await meter.getByRole("button", { name: /^Repeat/u }).click();
    if (told["unit"] === "mV") await meter.getByText("mV", { exact: true }).click();
    await meter.getByLabel("Your meter shows").fill(told["value"] ?? "");
    await meter.getByRole("button", { name: "Record the reading" }).click();
    await meter.locator(".pass").waitFor();
    for (const trial of await page.locator('[data-proof^="trial"]').all()) {
      await trial.getByRole("button", { name: /^✓ Pass/u }).click();
      await trial.locator(".pass").waitFor();
    }
    expect(await page.getByText("the machine is not repaired").count()).toBe(0);
    await page.locator("[data-prove]").getByRole("button", { name: "End the job" }).click();
    await page.getByLabel("Not checked, and the reason").fill("not driven on the slope");
    await page.getByRole("button", { name: "Close the job" }).click();
    await page.waitForSelector("[data-report]");

    const file = await saved(page, "Save as a file");
    expect(file.name).toBe(`${id}.ohmjob.json`);
    const read = readRecord(file.text);
    if (!read.ok) throw new Error(JSON.stringify(read.error));
    const facts = replayEvents(read.value);
    expect(facts.readings).toHaveLength(steps);
    expect(facts.cause?.suspect).toBe("wire W78");
    expect(facts.repairs[0]?.parts).toEqual(["wire 0.75 BN", "splice"]);
    expect(facts.proofs.length).toBeGreaterThanOrEqual(3);
    expect(facts.closed?.outcome).toBe("repaired");
    const text = await saved(page, "Save as text");
    expect(text.text).toBe(jobText(read.value));
    expect(text.text).toMatch(/COMPLAINT.*CAUSE\nwire W78: broken at the clip.*CORRECTION.*Verification:/su);

    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    expect(pdf.match(/\/Type\s*\/Page\b/gu)).toHaveLength(1);
    // A4 upright, in points.
    const [, width, height] = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/u.exec(pdf) ?? [];
    expect(Number(width)).toBeCloseTo(595, 0);
    expect(Number(height)).toBeCloseTo(842, 0);
    await page.emulateMedia({ media: "print" });
    expect(await page.isVisible(".screen")).toBe(false);
    const sheet = await page.innerText("[data-job-sheet]");
    for (const words of [id, "Four values stand at the top", "Base machine", "broken at the clip", "maker's procedure"])
      expect(sheet).toContain(words);
  }, 300_000);

  test("with a bad contact ends with that contact named", async () => {
    const page = await app.open(START);
    await beginJob(page, FAN_DEAD.codes);
    const job = jobOf(FAN_DEAD);
    for (let step = 0; step < 25 && (await shownCheck(page)) !== undefined; step++) {
      if (step < 3) await expectSheetOnOneSide(page);
      await answerCheck(page, job, FAN_DEAD);
      await untilIdle(page);
    }
    expect(await page.locator("[data-ending]").innerText()).toContain("contact XF1:1");
  });
});

describe("the form", () => {
  test("takes SPN and FMI, shows what follows, and a changed weight goes into the record", async () => {
    const page = await app.open(START);
    await fillForm(page, [], "as told");
    expect(await page.getByRole("button", { name: "Start the job" }).isDisabled()).toBe(true);
    const field = page.getByRole("combobox", { name: "Diagnostic trouble code (DTC), or SPN and FMI" });
    // The machine lists 3 and 4 of this number: none is taken before it is chosen.
    await field.fill("520301/16");
    await field.press("Enter");
    await page.getByText("has SPN 520301, but not with FMI 16").waitFor();
    expect(await page.locator("[data-code]").count()).toBe(0);
    await field.fill("520311/5");
    await field.press("Enter");
    await page.waitForSelector('[data-code="FE211"]');
    await page.getByRole("button", { name: /more, together/u }).click();
    await page.waitForSelector('[data-suspect="contact XF1:1"]');
    const before = (await sharesIn(page)).get("contact XF1:1") ?? 0;
    const row = page.locator('[data-suspect="contact XF1:1"]');
    await row.locator("summary").click();
    expect(await row.innerText()).toMatch(/×/u);
    await row.getByText("much higher", { exact: true }).click();
    await page.waitForFunction(
      (least) => Number(document.querySelector('[data-suspect="contact XF1:1"]')?.getAttribute("data-share")) > least,
      before + 0.05,
    );
    await page.getByRole("button", { name: "Start the job" }).and(page.locator(":enabled")).click();
    await page.waitForSelector("[data-check]");
    expect(await logOf(page)).toContain("contact XF1:1: factor 10");
  });

  test("is kept when the page is closed, and takes functions, recent work and adapters", async () => {
    let page = await app.open(START);
    await fillForm(page, ["FE211"], "fan stands still");
    const part = page.getByRole("combobox", { name: "Part or function" });
    await part.fill("Y8");
    await part.press("Enter");
    await page.waitForSelector('[data-item="Y8"]');
    await page.getByRole("button", { name: "Add recent work" }).click();
    await page.getByLabel("Work done", { exact: true }).fill("hose renewed");
    const touched = page.getByRole("combobox", { name: "Disconnected, repaired or added" });
    await touched.fill("XF1");
    await touched.press("Enter");
    await page.getByRole("button", { name: "Remove XF1" }).waitFor();
    await page.getByRole("button", { name: "Meter leads only" }).click();
    page = await reopened(page);
    expect(await page.getByLabel("Complaint, in the operator's words").inputValue()).toBe("fan stands still");
    await page.getByRole("button", { name: "Start the job" }).and(page.locator(":enabled")).click();
    await page.waitForSelector("[data-check]");
    const file = await saved(page, "Save as a file");
    const read = readRecord(file.text);
    if (!read.ok) throw new Error(JSON.stringify(read.error));
    const facts = replayEvents(read.value);
    expect(facts.complaint.recentWork).toEqual([{ text: "hose renewed", touched: ["XF1"] }]);
    expect([...(facts.adapters ?? ["missing"])]).toEqual([]);
    expect([...facts.symptoms.values()]).toEqual(["bad"]);
  });
});

describe("readings", () => {
  test("can be corrected, undone and restored; the possible causes follow", async () => {
    const page = await app.open(START);
    await beginJob(page, FAN_DEAD.codes);
    const job = jobOf(FAN_DEAD);
    await answerCheck(page, job, FAN_DEAD);
    await untilIdle(page);
    const one = await sharesIn(page);
    const second = await shownCheck(page);
    await answerCheck(page, job, FAN_DEAD);
    await untilIdle(page);
    const two = await sharesIn(page);
    expect(two).not.toEqual(one);
    // What is new is brought into view inside the page; the head of the page stays where it is.
    expect(await page.evaluate(() => window.scrollY)).toBe(0);
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("check-title");
    await page.getByRole("button", { name: "Undo check 2" }).click();
    await untilIdle(page);
    expect(await sharesIn(page)).toEqual(one);
    expect(await shownCheck(page)).toBe(second);
    await page.getByRole("button", { name: "Restore" }).click();
    await untilIdle(page);
    expect(await sharesIn(page)).toEqual(two);

    const line = page.locator("[data-log] [data-reading]").nth(0);
    await line.getByRole("button", { name: /^Correct/u }).click();
    await line.getByRole("textbox").fill("twelve");
    await line.getByRole("button", { name: "Save the correction" }).click();
    await line.getByText(/there is no number here/u).waitFor();
    await line.getByRole("textbox").fill("not sure");
    await line.getByRole("button", { name: "Save the correction" }).click();
    await untilIdle(page);
    expect(await logOf(page)).toContain("corrected");
    // A reading that says nothing leaves what the first reading left.
    expect(await sharesIn(page)).toEqual(one);
  });

  test("of zero ask for a proven meter; a check may be left out, another one taken", async () => {
    const page = await app.open(START);
    await beginJob(page, FAN_DEAD.codes);
    const unread = await shownCheck(page);
    // Pressed twice before anything can be worked out: it was read once.
    await page.getByRole("button", { name: "Unsure" }).evaluate((button: HTMLElement) => {
      button.click();
      button.click();
    });
    await page.waitForSelector("[data-log] [data-reading]");
    await untilIdle(page);
    expect(await readingsIn(page)).toBe(1);
    const first = await shownCheck(page);
    expect(first).not.toBe(unread);
    await page.getByRole("button", { name: "Not possible" }).click();
    await page.getByLabel(/^Reason/u).fill("cover is frozen");
    await page.getByRole("button", { name: "Skip this check" }).click();
    await page.locator("[data-log]").getByText("not possible: cover is frozen").waitFor();
    await untilIdle(page);
    expect(await shownCheck(page)).not.toBe(first);

    await page.getByRole("button", { name: "Choose another permitted check" }).click();
    await page.getByLabel(/^Any permitted check/u).fill("dc-voltage KOEO XF1p:1 G2-");
    const found = page.getByRole("button", { name: /^DC voltage from XF1p:1 to G2-/u }).first();
    await found.click();
    await page.waitForSelector('[data-check^="dc-voltage KOEO"][data-check*="XF1p:1"]');
    expect(await page.locator("[data-check]").innerText()).toContain("chosen by you");
    await page.getByLabel("Your meter shows").fill("0,01");
    await page.getByRole("button", { name: "Record the reading" }).click();
    await page.getByRole("button", { name: "Not proven: record as uncertain" }).click();
    await page.getByRole("heading", { name: /DC voltage from XF1p:1/u }).waitFor();
    await untilIdle(page);
    expect(await page.locator("[data-check]").innerText()).toMatch(/Prove the meter|Repeat this reading/u);
    // A figure that nobody measures in this machine is asked about, and one tap takes what is meant.
    await page.getByLabel("Your meter shows").fill("10 MV");
    await page.getByRole("button", { name: "Record the reading" }).click();
    await page.getByRole("alert").getByText("m is milli and M is mega").waitFor();
    expect(await page.getByRole("group", { name: "Which is meant?" }).getByRole("button").allInnerTexts()).toEqual([
      "10 mV",
      "10 V",
    ]);
    await page.getByRole("button", { name: "10 mV", exact: true }).click();
    await page.getByRole("button", { name: "Meter proven: record" }).click();
    await page.locator("[data-log]").getByText("10 mV (meter proven)").waitFor();
  });
});

/** The sheet of a job on its way is one page, with both faces for each lead that goes into a connector. */
async function expectSheetOnOneSide(page: Page): Promise<void> {
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
  expect(pdf.match(/\/Type\s*\/Page\b/gu)).toHaveLength(1);
  const faces = await page.locator(".where figure").count();
  expect(await page.locator("[data-job-sheet] figure").count()).toBe(faces);
}
