import type { BrowserContext, Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { demoText } from "../demo-harness/open-demo.ts";
import { faultsOf, themesAt } from "./support/accessibility.ts";
import { drop } from "./support/drop.ts";
import { lookFor } from "./support/app.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

const LIST = "Wire;From;To;Colour;Signal\nW1;K1.A:1;B7.X:1;RD;FEED\nW2;K1.A:2;B7.X:2;BN;RETURN\n";
const QUESTION = "build=base&ask=path&from=A1.X1:36&to=B3";
/** A mark that no machine here has. */
const ELSEWHERE = "machine=0123456789ab";

const message = "[data-absent]";

/** The demo machine under another name: a machine of one's own, with all that the demo has. */
function own(name = "Own machine", revision = "1"): string {
  const document = JSON.parse(demoText("firnlark-45.ohm.json")) as { about: Record<string, unknown> };
  return JSON.stringify({ ...document, about: { ...document.about, machine: name, revision } });
}

/** Brings files in, accepts them and chooses the build where one is to be chosen. */
async function openFile(page: Page, name: string, content: string, machine: string): Promise<void> {
  await drop(page, [name, content]);
  await page.waitForSelector("[data-result]");
  const field = page.getByLabel(/Name of the machine/u);
  if (await field.isVisible()) await field.fill(machine);
  await page.getByRole("button", { name: "Accept" }).click();
  await page.waitForSelector(`h1:text-is("${machine}")`);
}

async function importList(page: Page): Promise<void> {
  await openFile(page, "list.csv", LIST, "Pump bench");
  const card = page.locator(".choices button").first();
  if (await card.isVisible()) await card.click();
  await lookFor(page, "K1.A:1", "Path to…");
  await page.getByRole("combobox", { name: "second point" }).fill("B7.X:1");
  await page.keyboard.press("Escape");
  await page.getByRole("button", { name: "Ask", exact: true }).click();
  await page.waitForSelector(".strip");
}

/** What the page shows: which machine, which way. */
async function shown(page: Page): Promise<readonly (string | null)[]> {
  await page.waitForSelector(".strip");
  return [await page.textContent("h1"), await page.textContent(".strip"), new URL(page.url()).search];
}

/** Another answer of the server to the question for its machine. */
async function serverGives(context: BrowserContext, answer: "gone" | { status: number; body: string }): Promise<void> {
  await context.unroute("**/machine.ohm.json");
  await context.route("**/machine.ohm.json", (route) =>
    answer === "gone" ? route.abort() : route.fulfill({ contentType: "application/json", ...answer }),
  );
}

async function expectNoDemo(page: Page): Promise<void> {
  await page.waitForSelector(message);
  expect(await page.textContent("h1")).toBe("Ohmward");
  expect(await page.locator(".strip, .canvas").count()).toBe(0);
}

describe("a machine of one's own", () => {
  test("that was imported is still there after a reload and in another window, with its question", async () => {
    const page = await app.open(`?${QUESTION}`);
    await importList(page);
    const before = await shown(page);
    expect(before[2]).toMatch(/^\?machine=[0-9a-f]{12}&build=/u);
    await page.reload();
    expect(await shown(page)).toEqual(before);
    const other = await page.context().newPage();
    await other.goto(page.url());
    expect(await shown(other)).toEqual(before);
  });

  test("stays beside others that were opened before, opens again from their list, and goes only on purpose", async () => {
    const page = await app.open();
    await openFile(page, "own.ohm.json", own(), "Own machine");
    await openFile(page, "list.csv", LIST, "Pump bench");
    const toShelf = async (): Promise<void> => {
      await page.getByRole("button", { name: "Open, save" }).click();
      await page.getByRole("heading", { name: "Machines on this device" }).waitFor();
    };
    await toShelf();
    const shelf = page.locator("[data-shelf] li");
    expect(await shelf.allInnerTexts()).toEqual([
      expect.stringMatching(/^Pump bench[\s\S]*list\.csv[\s\S]*open/u),
      expect.stringMatching(/^Own machine[\s\S]*own\.ohm\.json[\s\S]*Open/u),
    ]);
    await shelf.nth(1).getByRole("button", { name: "Open Own machine" }).click();
    await page.waitForSelector("h1:text-is('Own machine')");
    await page.reload();
    await page.waitForSelector("h1:text-is('Own machine')");
    await toShelf();
    const pump = shelf.filter({ hasText: "Pump bench" });
    await pump.getByRole("button", { name: "Delete Pump bench" }).click();
    await pump.getByRole("button", { name: "Keep it" }).click();
    await pump.getByRole("button", { name: "Delete Pump bench" }).click();
    expect(await faultsOf(page)).toEqual([]);
    await pump.getByRole("button", { name: "Delete for good" }).click();
    await pump.waitFor({ state: "detached" });
    expect(await shelf.count()).toBe(1);
  });

  test("takes the place of its earlier self when it is changed, not a second one beside it", async () => {
    const page = await app.open();
    await openFile(page, "list.csv", LIST, "Pump bench");
    await page.getByRole("button", { name: "Open, save" }).click();
    const card = page.locator("[data-gaps]");
    await card.locator("input[autocomplete=name]").fill("A. Fitter");
    for (const id of ["K1.A", "B7.X"]) {
      const connector = card.locator("details", { hasText: `connector ${id}` });
      await connector.locator("summary").click();
      await connector.getByRole("button", { name: "Not sealed" }).click();
      await card.locator("[role=status]", { hasText: `${id}: sealed no` }).waitFor();
    }
    await page.reload();
    await page.getByRole("heading", { name: "Machines on this device" }).waitFor();
    expect(await page.locator("[data-shelf] li").count()).toBe(1);
    await page.locator("[data-gaps] summary", { hasText: "connector K1.A: 4 not known" }).waitFor();
  });

  test("is opened without a mark in the address too, where the server has none, and it is said", async () => {
    const page = await app.open();
    await importList(page);
    await page.goto(new URL("/", page.url()).href);
    await page.waitForSelector("h1:text-is('Pump bench')");
    await page.getByRole("status").getByText("Pump bench").waitFor();
    await page.getByRole("button", { name: "Open the demo machine" }).click();
    await page.waitForSelector("h1:has-text('Firnlark')");
  });

  test("is named where it is not here, and its question is asked once its file is opened", async () => {
    const page = await app.open();
    await openFile(page, "own.ohm.json", own(), "Own machine");
    const mark = new URL(page.url()).searchParams.get("machine") ?? "";
    const origin = new URL(page.url()).origin;
    await importList(page);
    // What is deleted on purpose is still known by its name.
    await page.getByRole("button", { name: "Open, save" }).click();
    await page.getByRole("button", { name: "Delete Own machine" }).click();
    await page.getByRole("button", { name: "Delete for good" }).click();
    await page.getByRole("button", { name: "Delete Own machine" }).waitFor({ state: "detached" });
    await page.goto(`${origin}/?machine=${mark}&${QUESTION}`);
    await expectNoDemo(page);
    expect(await page.innerText(message)).toMatch(new RegExp(`Own machine.*${mark}`, "su"));
    expect(await page.getByRole("button", { name: "Open Pump bench" }).count()).toBe(1);

    await page.getByRole("button", { name: "Open a file" }).click();
    await openFile(page, "own.ohm.json", own(), "Own machine");
    expect(await shown(page)).toEqual(["Own machine", expect.stringContaining("W89"), `?machine=${mark}&${QUESTION}`]);
  });

  test("of another device is not replaced by the demo, which opens without the question and only when told to", async () => {
    const page = await app.open();
    await page.goto(`${page.url().split("?")[0]}?${ELSEWHERE}&${QUESTION}`);
    await expectNoDemo(page);
    expect(await page.innerText(message)).toContain("0123456789ab");
    await page.getByRole("button", { name: "Open the demo machine" }).click();
    await page.waitForSelector("text=Which variant is this machine?");
    expect(await page.textContent("h1")).toContain("Firnlark");
    await page.goBack();
    await expectNoDemo(page);
  });

  test("comes back on the way back through the pages, not its question with another machine", async () => {
    const page = await app.open(`?${QUESTION}`);
    const demo = await shown(page);
    await importList(page);
    const list = await shown(page);
    const back = async (steps: number): Promise<void> => {
      await page.evaluate((by) => history.go(by), steps);
    };
    await back(-4);
    await page.waitForSelector("h1:has-text('Firnlark')");
    expect(await shown(page)).toEqual(demo);
    await back(4);
    await page.waitForSelector("h1:text-is('Pump bench')");
    expect(await shown(page)).toEqual(list);
  });

  test("that cannot be kept is said to be lost with the page, and is asked for after a reload", async () => {
    const page = await app.open();
    await page.addInitScript(() => {
      indexedDB.open = () => {
        throw new DOMException("storage is switched off", "SecurityError");
      };
    });
    await page.reload();
    await page.waitForSelector(".canvas canvas");
    await importList(page);
    await page.getByRole("alert").getByText("Pump bench is not saved on this device").waitFor();
    const mark = new URL(page.url()).searchParams.get("machine") ?? "";
    await page.reload();
    await expectNoDemo(page);
    expect(await page.innerText(message)).toContain(mark);
  });

  test("that finds no room is said to be lost with the page", async () => {
    const page = await app.open();
    await page.evaluate(() => {
      IDBObjectStore.prototype.put = () => {
        throw new DOMException("the device is full", "QuotaExceededError");
      };
    });
    await importList(page);
    await page.getByRole("alert").getByText("the device is full").waitFor();
  });
});

test("jobs that were stored before machines were kept are still there", async () => {
  const page = await app.open();
  // A page that leaves the database alone, so that it can be put back to its first form.
  await page.route("**/empty.html", (route) => route.fulfill({ contentType: "text/html", body: "<title>x</title>" }));
  const start = page.url();
  await page.goto(new URL("/empty.html", start).href);
  await page.evaluate(async () => {
    const done = (request: IDBOpenDBRequest): Promise<void> =>
      new Promise((resolve, reject) => {
        request.onsuccess = () => resolve();
        request.onerror = () => reject(new Error("no database"));
      });
    await done(indexedDB.deleteDatabase("ohmward"));
    const first = indexedDB.open("ohmward", 1);
    first.onupgradeneeded = () => {
      const facts = { machine: "Old", complaint: "no start", openedAt: "2026-01-01T00:00:00Z", isClosed: false };
      first.result.createObjectStore("jobs", { keyPath: "id" }).put({ id: "a1", text: "{}", eventCount: 1, ...facts });
    };
    await done(first);
    first.result.close();
  });
  await page.goto(start);
  await page.waitForSelector(".canvas canvas");
  await page.getByRole("button", { name: "Job", exact: true }).click();
  await page.locator('[data-job="a1"]').waitFor();
});

describe("a served machine", () => {
  test.each([
    ["that cannot be reached", "gone", /cannot be reached.*Start the server again/su],
    ["that fails", { status: 500, body: "The harness document cannot be read any more." }, /500.*read any more/su],
    ["whose data are broken", { status: 200, body: '{ "format": ' }, /cannot be opened/u],
    ["that sends a page instead", { status: 200, body: "<!doctype html><title>x</title>" }, /cannot be opened/u],
  ] as const)("of a server %s is asked for again; no demo", async (_name, answer, words) => {
    const page = await app.open(`?${QUESTION}`, { machine: own() });
    const before = await shown(page);
    expect(before[0]).toBe("Own machine");
    await serverGives(page.context(), answer);
    await page.reload();
    await expectNoDemo(page);
    expect(await page.innerText(message)).toMatch(words);
    expect(await page.innerText(message)).toContain("Own machine");
    await page.context().unroute("**/machine.ohm.json");
    await page.getByRole("button", { name: "Try again" }).click();
    expect(await shown(page)).toEqual(before);
  });

  test("of a server that cannot be reached at the first start is not the demo either", async () => {
    const page = await app.open("", { machine: own() });
    await serverGives(page.context(), "gone");
    await page.goto(new URL("/", page.url()).href);
    await expectNoDemo(page);
    await page.getByRole("button", { name: "Open the demo machine" }).click();
    await page.waitForSelector("h1:has-text('Firnlark')");
  });

  test("whose file was changed is opened with the question only when told to", async () => {
    const page = await app.open(`?${QUESTION}`, { machine: own() });
    const before = await shown(page);
    await serverGives(page.context(), { status: 200, body: own("Own machine", "2") });
    await page.reload();
    await expectNoDemo(page);
    await page.getByRole("button", { name: "Open Own machine" }).click();
    const after = await shown(page);
    expect(after.slice(0, 2)).toEqual(before.slice(0, 2));
    expect(after[2]).not.toBe(before[2]);
  });

  test("is opened by a link without a mark, and it is said which it is", async () => {
    const page = await app.open(`?${QUESTION}`, { machine: own() });
    await page
      .getByRole("status")
      .getByText(/names no machine.*Own machine/u)
      .waitFor();
    await page.reload();
    await page.waitForSelector(".strip");
    expect(await page.getByText("names no machine").count()).toBe(0);
  });
});

describe.each([
  ["tablet", 1280, 800],
  ["phone", 390, 844],
])("on a %s", (_name, width, height) => {
  test.each(themesAt(width))(
    "the message is without fault to axe-core, fits and suits gloves, %s",
    async (colorScheme) => {
      const page = await app.open("", { viewport: { width, height }, colorScheme });
      await importList(page);
      const faults: string[] = [];
      const start = new URL("/", page.url()).href;
      await page.goto(start);
      await page.waitForSelector("h1:text-is('Pump bench')");
      faults.push(...(await faultsOf(page)));
      await page.goto(`${start}?${ELSEWHERE}&${QUESTION}`);
      await expectNoDemo(page);
      faults.push(...(await faultsOf(page)));
      await serverGives(page.context(), "gone");
      await page.reload();
      await page.waitForSelector("text=cannot be reached");
      faults.push(...(await faultsOf(page)));
      expect(faults).toEqual([]);
    },
  );
});
