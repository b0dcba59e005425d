import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { faultsOf } from "./support/accessibility.ts";
import { lookFor } from "./support/app.ts";
import { beginJob, RETURN_OPEN } from "./support/job-steps.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

/** How much of the window a picture has, from 0 to 1: the diagram or table of the answer and the drawing. */
async function pictureShare(page: Page): Promise<number> {
  return page.evaluate(() => {
    const boxes = [...document.querySelectorAll(".panes > *")].map((each) => each.getBoundingClientRect());
    const inside = (from: number, to: number, end: number): number =>
      Math.max(0, Math.min(to, end) - Math.max(from, 0));
    const area = boxes.reduce(
      (sum, { left, right, top, bottom }) =>
        sum + inside(left, right, window.innerWidth) * inside(top, bottom, window.innerHeight),
      0,
    );
    return area / window.innerWidth / window.innerHeight;
  });
}

/** Words of an answer that a person reads before asking for more: no buttons, labels of pictures, tables, cautions. */
async function wordsBeforeMore(page: Page): Promise<number> {
  return page.evaluate(() => {
    const copy = document.querySelector("section[aria-label=Answer]")?.cloneNode(true);
    if (!(copy instanceof Element)) return 0;
    for (const each of copy.querySelectorAll(
      "button, svg, table, .drawing, .cautions, form, fieldset, .strip, .unseen, .told",
    ))
      each.remove();
    for (const shut of copy.querySelectorAll("details:not([open]) > :not(summary)")) shut.remove();
    return copy.textContent.split(/\s+/u).filter((word) => /\p{L}/u.test(word)).length;
  });
}

/** Shuts what is told once about the machine of a bare address. */
async function shutNotice(page: Page): Promise<void> {
  const close = page.locator(".line[role=status]").getByRole("button", { name: "Close" });
  if (await close.isVisible()) await close.click();
}

const circuit = "?build=base&state=KOEO&ask=circuit&point=B3&selected=wire%20W89";
/** Width, height, least share of the picture with the cautions open; our own targets. */
const sizes = [
  [1440, 900, 0.5],
  [1280, 800, 0.5],
  [1024, 768, 0.55],
  [820, 1180, 0.55],
  [390, 844, 0.45],
] as const;

describe("the picture of a circuit", () => {
  test.each(sizes)(
    "at %i x %i it has its share of the window, and more once the cautions are read",
    async (width, height, least) => {
      const page = await app.open(circuit, { viewport: { width, height } });
      await page.waitForSelector("svg.circuit-diagram");
      await shutNotice(page);
      const open = await pictureShare(page);
      expect(open).toBeGreaterThanOrEqual(least);
      await page.getByRole("button", { name: "I have read them" }).click();
      await page.waitForSelector(".cautions.read");
      expect(await page.getByText(/\d cautions read/u).isVisible()).toBe(true);
      // They are one press away.
      await page.locator(".cautions").getByRole("button", { name: "Show" }).click();
      expect(await page.locator(".cautions li").count()).toBeGreaterThan(3);
    },
  );

  test("has no text under 12 px, and can be made larger and seen whole", async () => {
    const page = await app.open(circuit);
    await page.waitForSelector("svg.circuit-diagram");
    const heights = (): Promise<number> =>
      page.evaluate(() =>
        Math.min(
          ...[...document.querySelectorAll<SVGTextElement>(".circuit-diagram text")].map(
            (text) => parseFloat(getComputedStyle(text).fontSize) * (text.getCTM()?.a ?? 0),
          ),
        ),
      );
    expect(await heights()).toBeGreaterThanOrEqual(12);
    const width = async (): Promise<number> => (await page.locator("svg.circuit-diagram").boundingBox())?.width ?? 0;
    const before = await width();
    await page.getByRole("button", { name: "Zoom in on the diagram" }).click();
    expect(await width()).toBeGreaterThan(before * 1.2);
    await page.getByRole("button", { name: "Whole diagram" }).click();
    const frame = await page.locator(".frame").boundingBox();
    expect(await width()).toBeLessThanOrEqual(frame?.width ?? 0);
  });
});

describe("from the start to the first useful answer", () => {
  test.each([
    ["a trouble code", "FE111", "FE111"],
    ["a pin", "ecu 36", "A1.X1:36"],
    ["a fuse", "fuse 7", "A3.F7"],
    ["a colour", "wh/rd 0.5", "W"],
    ["a word", "injector 2", "Y2"],
  ])("%s takes two actions: type, Enter", async (_what, words, id) => {
    const page = await app.open("?build=base");
    await lookFor(page, words);
    await page.waitForSelector("section[aria-label=Answer] h2:not(:has-text('Calculating'))");
    expect(await page.textContent("aside h2")).toContain(id);
    expect(await page.locator("svg.circuit-diagram").count()).toBe(1);
  });

  test("from a code to the form of its job takes two: type, Start job", async () => {
    const page = await app.open("?build=base");
    await page.fill("[data-search]", "FE111");
    await page.getByRole("button", { name: "Start job" }).click();
    await page.waitForSelector('[data-code="FE111"]');
  });

  test("a complaint starts a job with its words", async () => {
    const page = await app.open("?build=base");
    await page.fill("[data-search]", "engine derates when warm");
    await page.getByRole("button", { name: /Start a job: “engine derates when warm”/u }).click();
    await page.getByLabel("Complaint, in the operator's words").waitFor();
    expect(await page.getByLabel("Complaint, in the operator's words").inputValue()).toBe("engine derates when warm");
  });

  test("what was asked about comes back as recent, after the page is opened again, until it is cleared", async () => {
    const page = await app.open("?build=base");
    await lookFor(page, "fuse 7");
    await page.goto(`${page.url().split("?")[0]}?build=base`);
    await page.locator(".recent", { hasText: "A3.F7" }).waitFor();
    await page.getByRole("button", { name: "Clear" }).click();
    expect(await page.locator(".recent").count()).toBe(0);
  });

  test("hits stand in groups, each hit with all that can be asked of it, and all of a group on demand", async () => {
    const page = await app.open("?build=base");
    await page.fill("[data-search]", "injector");
    await page.waitForSelector("[data-hit]");
    const titles = await page.locator(".results h2").allInnerTexts();
    expect(await faultsOf(page)).toEqual([]);
    expect(titles.slice(0, 2)).toEqual(["Part", "Trouble code (DTC)"]);
    expect(await page.locator("[data-hit]").first().innerText()).toContain("Y1");
    await page.getByRole("button", { name: "More to ask about Y2", exact: true }).click();
    const group = page.getByRole("group", { name: "Ask about Y2" });
    expect(await group.getByRole("button").allInnerTexts()).toEqual([
      "Circuit",
      "Path to…",
      "Test points",
      "Reading",
      "Effect if open",
      "Common wiring",
    ]);
    await page.locator(".results section[aria-label=Pin]").getByRole("button", { name: /^All/u }).click();
    await page.waitForFunction(() => document.querySelectorAll(".results section").length === 2);
    expect(await page.locator("[data-hit]").count()).toBeGreaterThan(3);
  });
});

describe("an answer", () => {
  test.each([
    ["a circuit", circuit],
    ["test points of a pin", "?build=base&state=KOEO&ask=test-points&item=B3.X:3"],
    ["test points of a connector of 60 pins", "?build=base&state=KOEO&ask=test-points&item=A1.X1"],
    ["a path", "?build=base&state=KOEO&ask=path&from=A1.X1:36&to=B3"],
    ["common wiring", "?build=base&ask=common&bad=B3&bad=B4&good=B5"],
  ])("%s says at most 120 words before More", async (_what, query) => {
    const page = await app.open(query);
    expect(await wordsBeforeMore(page)).toBeLessThanOrEqual(120);
    expect(await wordsBeforeMore(page)).toBeGreaterThan(3);
  });

  test("another question about the same item takes one action", async () => {
    const page = await app.open("?build=base&state=KOEO&ask=circuit&point=A1.X1:36");
    await page.getByRole("button", { name: "Test points", exact: true }).click();
    await page.waitForSelector("h2:has-text('Best test point for A1.X1:36')");
  });

  test("test points of a connector are a table by pin, and what is not permitted is told rule by rule", async () => {
    const page = await app.open("?build=base&state=KOEO&ask=test-points&item=A1.X1");
    await page.waitForSelector(".pane table");
    expect(await page.locator(".pane").evaluate((pane) => pane.querySelectorAll("*").length)).toBeLessThan(400);
    expect(await page.locator(".pane tbody tr").first().innerText()).toMatch(/A1\.X1:1\s/u);
    await page.getByRole("button", { name: "Why" }).click();
    const rules = await page.locator(".refusal").allInnerTexts();
    expect(rules.length).toBeLessThan(12);
    expect(rules[0]).toMatch(/Rule no-tip-in-socket[\s\S]*and \d+ more/u);
  });

  test("moves by less than 0.05 of the window while it comes", async () => {
    const page = await app.open("?build=base&state=KOEO");
    await page.evaluate(() => {
      const state = window as unknown as { shift: number };
      state.shift = 0;
      new PerformanceObserver((list) => {
        for (const entry of list.getEntries()) {
          const { value, hadRecentInput } = entry as unknown as { value: number; hadRecentInput: boolean };
          if (!hadRecentInput) state.shift += value;
        }
      }).observe({ type: "layout-shift", buffered: true });
    });
    await lookFor(page, "fuse 7");
    await page.waitForSelector("svg.circuit-diagram");
    await page.waitForTimeout(400);
    expect(await page.evaluate(() => (window as unknown as { shift: number }).shift)).toBeLessThan(0.05);
  });
});

describe("a connector", () => {
  test("is found by its name: both faces, and the pin-out table with the other ends", async () => {
    const page = await app.open("?build=base");
    await page.fill("[data-search]", "a1.x1");
    await page.waitForSelector("[data-hit]");
    await page.press("[data-search]", "Enter");
    await page.waitForSelector(".pane .pins");
    await shutNotice(page);
    expect(await faultsOf(page)).toEqual([]);
    expect(await page.locator(".pane figure").count()).toBe(2);
    expect(await page.locator(".pane figure strong").allInnerTexts()).toEqual(["Wire-entry view", "Mating-face view"]);
    // demo-harness/firnlark-45.ohm.json, wire W89; invented.
    expect(await page.getByRole("row", { name: /Rail pressure W89/u }).innerText()).toMatch(
      /36[\s\S]*WH\/RD[\s\S]*0\.5 mm²[\s\S]*Rail pressure sensor[\s\S]*B3\.X:3/u,
    );
    // Faces and table together; our own target.
    expect(await pictureShare(page)).toBeGreaterThanOrEqual(0.65);
    const rows = page.locator(".pins tbody tr");
    const used = await rows.count();
    await page.getByRole("button", { name: "Show empty" }).click();
    expect(await rows.count()).toBe(64);
    expect(used).toBeLessThan(64);
    await page.getByRole("button", { name: "36", exact: true }).click();
    await page.waitForSelector(".bar .of:has-text('A1.X1:36')");
    await page.locator(".bar").getByRole("button", { name: "Circuit" }).click();
    await page.waitForSelector("svg.circuit-diagram");
  });
});

describe("the check of a job", () => {
  test.each([
    [1280, 800],
    [1024, 768],
    [390, 844],
  ])(
    "at %i x %i the entry of the reading is in the first view and stays in view, with large targets",
    async (width, height) => {
      const page = await app.open("?build=base", { viewport: { width, height } });
      await shutNotice(page);
      await beginJob(page, RETURN_OPEN.codes);
      const entry = page.locator(".reading");
      const places = async (): Promise<readonly { x: number; y: number; width: number; height: number }[]> => {
        const parts = [
          entry.locator("input[type=text]").first(),
          entry.getByRole("button", { name: "Record the reading" }),
        ];
        return Promise.all(
          parts.map(async (part) => (await part.boundingBox()) ?? { x: 0, y: Infinity, width: 0, height: 0 }),
        );
      };
      for (const scrolled of [0, 300]) {
        await page.locator("main.job").evaluate((main, top) => main.scrollTo({ top }), scrolled);
        for (const { y, height: tall, width: wide } of await places()) {
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y + tall).toBeLessThanOrEqual(height);
          expect(Math.min(tall, wide)).toBeGreaterThanOrEqual(48);
        }
      }
      expect(await page.locator("[data-suspect]").count()).toBeLessThanOrEqual(5);
    },
  );
});
