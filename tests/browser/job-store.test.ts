import { replayEvents, readRecord } from "ohmward/job-records";
import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { demoText } from "../demo-harness/open-demo.ts";
import {
  answerCheck,
  beginJob,
  expectSame,
  jobOf,
  logOf,
  openJobs,
  readingsIn,
  reopened,
  saved,
  shownCheck,
  untilIdle,
  FAN_DEAD,
} from "./support/job-steps.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

const START = "?build=base";

describe("storing", () => {
  test("comes before showing: no reading is in the log that is not in the store", async () => {
    const page = await app.open(START);
    await page.addInitScript(() => {
      const watch = { stored: 0, most: 0, tooEarly: 0 };
      Object.assign(globalThis, { watch });
      const put = IDBObjectStore.prototype.put;
      IDBObjectStore.prototype.put = function (value: { text: string }, key?: IDBValidKey) {
        const count = (value.text.match(/"kind": "reading"/gu) ?? []).length;
        this.transaction.addEventListener("complete", () => (watch.stored = Math.max(watch.stored, count)));
        return put.call(this, value, key);
      };
      new MutationObserver(() => {
        const shown = document.querySelectorAll("[data-log] [data-reading]").length;
        watch.most = Math.max(watch.most, shown);
        if (shown > watch.stored) watch.tooEarly += 1;
      }).observe(document, { childList: true, subtree: true });
    });
    await page.reload();
    await page.waitForSelector(".canvas canvas");
    await beginJob(page, FAN_DEAD.codes);
    for (let step = 0; step < 2; step++) {
      await answerCheck(page, jobOf(FAN_DEAD), FAN_DEAD);
      await untilIdle(page);
    }
    const watch = await page.evaluate(() => (globalThis as unknown as { watch: Record<string, number> }).watch);
    expect(watch).toEqual({ stored: 2, most: 2, tooEarly: 0 });
  });

  test("that fails on the way says so, and the work goes on", async () => {
    const page = await app.open(START);
    await beginJob(page, FAN_DEAD.codes);
    await page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException("the device is full", "QuotaExceededError");
      };
    });
    await answerCheck(page, jobOf(FAN_DEAD), FAN_DEAD);
    await page.getByText("This browser saves nothing on this device.").waitFor();
    expect(await page.getByText("the device is full").count()).toBe(1);
    await untilIdle(page);
    await answerCheck(page, jobOf(FAN_DEAD), FAN_DEAD);
    expect(await readingsIn(page)).toBe(2);
  });
});

describe("two windows", () => {
  test("see each other's steps, and what both do at once is kept", async () => {
    const page = await app.open(START);
    await beginJob(page, FAN_DEAD.codes);
    const other = await page.context().newPage();
    await other.goto(page.url());
    await shownCheck(other);
    await answerCheck(page, jobOf(FAN_DEAD), FAN_DEAD);
    await other.waitForSelector("[data-log] [data-reading]");
    await other.getByText("Another window continued this job").waitFor();
    await untilIdle(page);
    await expectSame(other, { key: await shownCheck(page), log: await logOf(page) });

    for (const [each, words] of [
      [page, "written here"],
      [other, "written there"],
    ] as const) {
      await each.getByText("DTCs, functions, notes").click();
      await each.getByLabel("Note for the job record").fill(words);
    }
    await Promise.all([page, other].map((each) => each.getByRole("button", { name: "Record the note" }).click()));
    for (const each of [page, other])
      for (const words of ["written here", "written there"])
        await each.locator("[data-log]").getByText(words).first().waitFor();
    const again = await reopened(page);
    await shownCheck(again);
    expect(await logOf(again)).toMatch(/written (?:t?here).*written (?:t?here)/su);
  });

  test("that do not hear of each other lose nothing either", async () => {
    const page = await app.open(START);
    await beginJob(page, FAN_DEAD.codes);
    const deaf = await page.context().newPage();
    await deaf.addInitScript(() => Reflect.deleteProperty(globalThis, "BroadcastChannel"));
    await deaf.goto(page.url());
    await shownCheck(deaf);
    await answerCheck(page, jobOf(FAN_DEAD), FAN_DEAD);
    await untilIdle(page);
    // This window still shows the job as it was: what it writes now meets a longer record in the store.
    expect(await readingsIn(deaf)).toBe(0);
    await deaf.getByText("DTCs, functions, notes").click();
    await deaf.getByLabel("Note for the job record").fill("written meanwhile");
    await deaf.getByRole("button", { name: "Record the note" }).click();
    for (const each of [deaf, await reopened(page)]) {
      await each.locator("[data-log]").getByText("written meanwhile").first().waitFor();
      expect(await readingsIn(each)).toBe(1);
    }
  });
});

describe("the list", () => {
  test("deletes with undo, and opens what was saved as a file", async () => {
    const page = await app.open(START);
    const id = await beginJob(page, FAN_DEAD.codes, "fan stands still");
    const file = await saved(page, "Save as a file");
    await page.getByRole("button", { name: "All jobs" }).click();
    await page.getByRole("button", { name: "Delete fan stands still" }).click();
    await page.getByText(`Job ${id} was deleted.`).waitFor();
    expect(await page.locator("[data-job]").count()).toBe(0);
    await page.getByRole("button", { name: "Restore the job" }).click();
    await page.locator(`[data-job="${id}"]`).waitFor();
    await page.getByRole("button", { name: "Delete fan stands still" }).click();
    await page.getByText(`Job ${id} was deleted.`).waitFor();

    const input = page.getByLabel("Job file to open");
    await input.setInputFiles({ name: "broken.json", mimeType: "application/json", buffer: Buffer.from("{}") });
    await page.getByText("broken.json was not opened.").waitFor();
    await input.setInputFiles({ name: file.name, mimeType: "application/json", buffer: Buffer.from(file.text) });
    await page.waitForSelector("[data-check]");
    expect(page.url()).toContain(encodeURIComponent(id));
  });

  test("says so where the browser stores nothing, and the work goes on", async () => {
    const page = await app.open(START);
    await page.addInitScript(() => {
      indexedDB.open = () => {
        throw new DOMException("storage is switched off", "SecurityError");
      };
    });
    await page.reload();
    await page.waitForSelector(".canvas canvas");
    await beginJob(page, FAN_DEAD.codes);
    await page.getByText("This browser saves nothing on this device.").waitFor();
    await answerCheck(page, jobOf(FAN_DEAD), FAN_DEAD);
    expect(await readingsIn(page)).toBe(1);
    const file = await saved(page, "Save as a file");
    const read = readRecord(file.text);
    expect(read.ok && replayEvents(read.value).readings.length).toBe(1);
  });

  test("says which machine a job needs, and goes on with changed data only when told to", async () => {
    const page = await app.open(START);
    await beginJob(page, FAN_DEAD.codes);
    const { name, text } = await saved(page, "Save as a file");
    const document = JSON.parse(demoText("firnlark-45.ohm.json")) as { about: Record<string, string> };
    const openIn = async (about: Record<string, string>): Promise<Page> => {
      const machine = JSON.stringify({ ...document, about: { ...document.about, ...about } });
      const other = await app.open(START, { machine });
      await openJobs(other);
      const buffer = Buffer.from(text);
      await other.getByLabel("Job file to open").setInputFiles({ name, mimeType: "application/json", buffer });
      return other;
    };
    const stranger = await openIn({ machine: "Another machine (invented)" });
    await stranger.waitForSelector('[data-fit="other"]');
    expect(await stranger.locator("[data-fit]").innerText()).toMatch(/Tarnwick Firnlark 45.*Another machine/su);

    const newer = await openIn({ revision: "99" });
    await newer.waitForSelector('[data-fit="changed"]');
    await newer.getByRole("button", { name: "Continue with the open data" }).click();
    await newer.waitForSelector("[data-check]");
  });
});
