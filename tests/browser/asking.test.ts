import type { Page } from "playwright-core";
import { describe, expect, test } from "vitest";
import { litWires, lookFor, placeOf } from "./support/app.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

const answer = "section[aria-label=Answer]";

async function headline(page: Page): Promise<string> {
  return (await page.textContent(`${answer} h2`)) ?? "";
}

describe("the screen", () => {
  test("asks which variant it is before anything can be asked", async () => {
    const page = await app.open();
    expect(await page.isVisible("text=Which variant is this machine?")).toBe(true);
    expect(await page.isDisabled("[data-search]")).toBe(true);
    await page.click("button:has-text('Base machine')");
    await page.waitForSelector("[data-search]:enabled");
    expect(new URL(page.url()).searchParams.get("build")).toBe("base");
  });

  test("says that the machine is invented", async () => {
    const page = await app.open("?build=base");
    expect(await page.textContent("header")).toContain("invented data");
  });

  test("answers the path between two points by typing: path, highlight, colours, marks", async () => {
    const page = await app.open("?build=base&state=KOEO");
    await lookFor(page, "ecu 36", "Path to…");
    await page.getByRole("combobox", { name: "second point" }).fill("B3");
    await page.getByRole("button", { name: "Ask" }).click();
    await page.waitForSelector(".strip");
    expect(await headline(page)).toBe("A1.X1:36 to B3: 3 items on the path, 1.06 m of wire");
    const boxes = await page.locator(".strip li").allInnerTexts();
    expect(boxes.map((box) => box.split("\n").find((line) => /^[A-Z]/u.test(line) && /\d/u.test(line)))).toHaveLength(
      3,
    );
    expect(boxes[1]).toMatch(/W89[\s\S]*WH\/RD[\s\S]*white with red stripe[\s\S]*0.5 mm²/u);
    expect(boxes.every((box) => box.includes("every path"))).toBe(true);
    expect(boxes[2]).toContain("P2");
    expect(await litWires(page)).toEqual(["W89"]);
  });

  test("answers the path between two points by picking on the drawing", async () => {
    const page = await app.open("?build=base");
    await lookFor(page, "RT1", "Path to…");
    for (const [field, key] of [
      ["first point", "connector RT1.X"],
      ["second point", "connector XD1"],
    ] as const) {
      await page.getByRole("button", { name: `Pick ${field} on the drawing` }).click();
      const { x, y } = await placeOf(page, key);
      await page.mouse.click(x, y);
    }
    expect(await page.getByRole("combobox", { name: "first point" }).inputValue()).toBe("RT1.X");
    expect(await page.getByRole("combobox", { name: "second point" }).inputValue()).toBe("XD1");
    await page.getByRole("button", { name: "Ask" }).click();
    await page.waitForSelector(".strip");
    expect(await headline(page)).toMatch(/^RT1\.X to XD1/u);
    expect(await litWires(page)).toContain("W44");
  });

  test("selects everywhere what is picked anywhere", async () => {
    const page = await app.open("?build=base&ask=between&from=A1.X1:36&to=B3");
    const { x, y } = await placeOf(page, "connector B3.X");
    await page.mouse.click(x, y);
    await page.waitForSelector("aside h2:has-text('B3.X')");
    await page.click(".strip button:has-text('W89')");
    await page.waitForSelector("aside h2:has-text('W89')");
    expect(await page.getAttribute(".strip button:has-text('W89')", "aria-pressed")).toBe("true");
    expect(new URL(page.url()).searchParams.get("selected")).toBe("wire W89");
  });

  test("shows both faces of a connector by name, mirrored, with the cavity in question", async () => {
    const page = await app.open("?build=base&selected=contact%20B3.X:3");
    const faces = page.locator("aside figure");
    expect(await faces.count()).toBe(2);
    expect(await faces.nth(0).locator("strong").first().innerText()).toBe("Wire-entry view");
    expect(await faces.nth(1).locator("strong").first().innerText()).toBe("Mating-face view");
    const order = (at: number): Promise<readonly string[]> => faces.nth(at).locator("text.number").allTextContents();
    const x = (at: number): Promise<number> =>
      faces
        .nth(at)
        .locator("circle.halo")
        .evaluate((halo) => halo.getBoundingClientRect().x - (halo.closest("svg")?.getBoundingClientRect().x ?? 0));
    expect(await order(0)).toEqual(["1", "2", "3"]);
    expect(await x(0)).toBeGreaterThan(await x(1));
    expect(await page.locator("aside .latch").count()).toBe(2);
    expect(await page.locator("aside .key").count()).toBe(2);
  });

  test("ranks test points, and says what is not permitted with rule, reason and the nearest permitted point", async () => {
    const page = await app.open("?build=base&state=KOEO&ask=probe&item=B3.X:3");
    await page.waitForSelector(`${answer} .rank`);
    const classes = await page.locator(`${answer} summary`).allInnerTexts();
    // What gives a voltage comes before a clamp, which does not.
    expect(classes.map((text) => /P\d/u.exec(text)?.[0])).toEqual(["P2", "P2", "P3", "P0"]);
    expect(await headline(page)).toMatch(/^Best test point for B3\.X:3: .*B3\.X\.harness:3, 3 min$/u);
    await page.getByRole("button", { name: "Why" }).click();
    const refusals = await page.locator(".refusal").allInnerTexts();
    const behind = refusals.find((text) => text.includes("back-probing"));
    expect(behind).toMatch(/seal[\s\S]*Rule no-back-probe-sealed[\s\S]*P2[\s\S]*B3\.X\.harness:3/u);
    await page.locator(".refusal button:has-text('P2')").first().click();
    expect(await page.evaluate(() => document.activeElement?.id)).toContain("in-line@");
  });

  test("finds the common wiring of failing circuits and asks again when a mark is changed", async () => {
    const page = await app.open("?build=base&ask=shared&bad=B3&bad=B4&good=B5");
    await page.waitForSelector("tr.suspect");
    const suspects = async (): Promise<readonly string[]> => page.locator("tr.suspect td:first-child").allInnerTexts();
    expect(await suspects()).toContain("SP11");
    expect(await suspects()).not.toContain("SP13");
    await page.getByRole("group", { name: "Symptom of B5" }).getByText("fails").click();
    await page.waitForFunction(() => !document.querySelector("tr.suspect td")?.textContent.includes("SP11"));
    expect(await suspects()).toContain("SP13");
    expect(await suspects()).not.toContain("SP11");
    expect(new URL(page.url()).searchParams.getAll("bad")).toEqual(["B3", "B4", "B5"]);
  });

  test("answers the effect of an open circuit, and the circuit at a point", async () => {
    const page = await app.open("?build=base&ask=without&item=XT1");
    await page.waitForSelector(`${answer} .pane li`);
    expect(await headline(page)).toMatch(/^Open circuit at XT1/u);
    await page.getByRole("button", { name: "Circuit", exact: true }).click();
    await page.waitForSelector(`${answer} h2:has-text('XT1: part of')`);
  });

  test("says why there is no path and in which build there is one", async () => {
    const page = await app.open("?build=base&ask=between&from=S4&to=XT1:1");
    await page.getByRole("button", { name: "Tiller", exact: true }).click();
    await page.waitForSelector(".strip");
    expect(new URL(page.url()).searchParams.get("build")).toBe("tiller");
  });

  test("offers what is nearest to a typing error", async () => {
    const page = await app.open("?build=base");
    await page.fill("[data-search]", "rail presure sensor");
    await page.waitForSelector("[data-hit]");
    expect(await page.locator("[data-hit]").first().innerText()).toContain("B3");
  });
});
