import { describe, expect, test } from "vitest";
import { faultsOf, sizesOf, themesAt } from "./support/accessibility.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

const views = [
  ["the choice of a build", ""],
  ["an empty question", "?build=base"],
  ["path", "?build=base&state=KOEO&ask=between&from=A1.X1:36&to=B3&selected=contact%20B3.X:3"],
  ["a circuit", "?build=base&state=KOEO&ask=trace&point=B3&selected=wire%20W71"],
  ["common", "?build=base&ask=shared&bad=B3&bad=B4&good=B5&selected=splice%20SP11"],
  ["effect", "?build=base&ask=without&item=A3.F3"],
  ["test points", "?build=base&state=KOEO&ask=probe&item=B3.X:3&selected=contact%20A1.X1:36"],
  ["no path", "?build=base&ask=between&from=S4&to=XT1:1"],
  ["an item that is not known", "?build=base&ask=trace&point=rail"],
] as const;
const sizes = [
  ["tablet", 1280, 800],
  ["phone", 390, 844],
  ["desk", 1440, 900],
] as const;

describe.each(sizesOf(sizes))("on a %s", (_name, width, height) => {
  test.each(themesAt(width))(
    "every view is without fault to axe-core, fits and suits gloves, %s",
    async (colorScheme) => {
      const found: string[] = [];
      for (const [name, query] of views) {
        const page = await app.open(query, { viewport: { width, height }, colorScheme, reducedMotion: "reduce" });
        const faults = await faultsOf(page);
        found.push(...faults.map((fault) => `${name}: ${fault}`));
        await page.context().close();
      }
      expect(found).toEqual([]);
    },
  );
});

test("the theme can be chosen against the device, and stays chosen", async () => {
  const page = await app.open("?build=base", { colorScheme: "light" });
  const paper = (): Promise<string> => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);
  const day = await paper();
  await page.getByRole("button", { name: /Auto light of the page/u }).click();
  await page.getByRole("button", { name: /Day light of the page/u }).click();
  await page.waitForSelector("html[data-theme=night]");
  expect(await paper()).not.toBe(day);
  await page.reload();
  await page.waitForSelector("html[data-theme=night]");
});
