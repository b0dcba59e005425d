import { expect, test } from "vitest";
import { litWires } from "./support/app.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

const headline = "section[aria-label=Answer] h2";

test("a link brings back question, build, state and selection", async () => {
  const page = await app.open(
    "?build=tiller&state=CRANK&ask=between&from=S1.X:50&to=A3.X2:3&through=series&selected=contact%20XC1:3",
  );
  await page.waitForSelector(".strip");
  const [address, text] = [page.url(), await page.textContent(headline)];
  expect(await page.getByLabel("Build").inputValue()).toBe("tiller");
  expect(await page.getByLabel("State").inputValue()).toBe("CRANK");
  expect(await page.textContent("aside h2")).toBe("XC1:3");
  expect(await litWires(page)).toContain("W25");
  await page.reload();
  await page.waitForSelector(".strip");
  expect([page.url(), await page.textContent(headline)]).toEqual([address, text]);
});

test("back and forward go through the questions and settings", async () => {
  const page = await app.open("?build=base&ask=trace&point=B3");
  await page.waitForSelector(headline);
  await page.getByLabel("Build").selectOption("tiller");
  await page.getByRole("button", { name: "Effect if open" }).click();
  await page.waitForSelector(`${headline}:has-text('Open circuit at B3')`);
  await page.goBack();
  await page.waitForSelector(`${headline}:has-text('B3: part of')`);
  expect(await page.getByLabel("Build").inputValue()).toBe("tiller");
  await page.goBack();
  await page.waitForFunction(() => document.querySelector<HTMLSelectElement>("header select")?.value === "base");
  await page.goForward();
  await page.goForward();
  await page.waitForSelector(`${headline}:has-text('Open circuit at B3')`);
});

test("a broken link opens the machine and claims nothing", async () => {
  const page = await app.open("?build=nonsense&ask=between&from=%E0%A4%A&selected=wire%20nothing");
  expect(await page.isVisible("text=Which variant is this machine?")).toBe(true);
});

test("a question is asked with the keyboard alone", async () => {
  const page = await app.open();
  await page.waitForSelector("text=Which variant is this machine?");
  const press = async (key: string, times = 1): Promise<void> => {
    for (let at = 0; at < times; at++) await page.keyboard.press(key);
  };
  const focused = (): Promise<string> => page.evaluate(() => document.activeElement?.textContent.trim() ?? "");
  for (let at = 0; at < 20 && !(await focused()).startsWith("Base machine"); at++) await press("Tab");
  await press("Enter");
  await page.waitForSelector("[data-search]:enabled");
  await press("/");
  await page.keyboard.type("ecu 36");
  await page.waitForSelector("[data-hit]");
  await press("ArrowDown");
  expect(await page.evaluate(() => document.activeElement?.getAttribute("data-hit"))).toBe("A1.X1:36");
  await press("Tab", 2);
  expect(await focused()).toBe("Path to…");
  await press("Enter");
  await page.waitForSelector("[role=combobox]");
  const isAtSecond = (): Promise<boolean> =>
    page.evaluate(() => document.activeElement?.matches("[role=combobox]") === true);
  for (let at = 0; at < 5 && !(await isAtSecond()); at++) await press("Tab");
  await page.keyboard.type("rail pressure sensor");
  await page.waitForSelector("[role=option]:has-text('B3')");
  await press("ArrowDown");
  await press("Enter", 2);
  await page.waitForSelector(".strip");
  expect(await page.textContent(headline)).toMatch(/^A1\.X1:36 to B3/u);
  // On to the way itself, and a thing of it.
  const isAtWire = (): Promise<boolean> =>
    page.evaluate(
      () =>
        document.activeElement?.matches(".strip button") === true && document.activeElement.textContent.includes("W89"),
    );
  for (let at = 0; at < 30 && !(await isAtWire()); at++) await press("Tab");
  await press("Enter");
  await page.waitForSelector("aside h2:has-text('W89')");
});

test("the help opens and shuts with keys and gives the focus back", async () => {
  const page = await app.open("?build=base");
  await page.locator("header button[data-help]").focus();
  await page.keyboard.press("?");
  await page.waitForSelector("dialog[open]");
  await page.keyboard.press("Escape");
  await page.waitForSelector("dialog[open]", { state: "detached" });
  expect(await page.evaluate(() => document.activeElement?.hasAttribute("data-help"))).toBe(true);
});
