import { chromium } from "playwright-core";
import { writeDiagramSvg } from "ohmward/drawing";
import { describe, expect, test } from "vitest";
import { demo } from "../drawing/demo.ts";
import { diagramOf } from "../drawing/circuit-diagram/all-items.ts";
import { useApp } from "./support/use-app.ts";

const twelve = ["M2", "B3", "M1", "Y1", "CAN-H", "K10", "GND-C2", "Y8", "A1.supply", "A3.F6", "SP11", "A2"];

test("no two texts of a circuit diagram cover one another in a browser, whatever its type", async () => {
  const browser = await chromium.launch({
    executablePath: process.env["OHMWARD_CHROMIUM"] ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu"],
  });
  const page = await browser.newPage();
  const found: string[] = [];
  for (const id of twelve) {
    await page.setContent(writeDiagramSvg(diagramOf(demo, id)));
    const pairs = await page.evaluate(() => {
      // A row of type is taller than its letters: a pixel at the upper and lower edge may be shared.
      const boxes = [...document.querySelectorAll("text")].map((text) => ({
        text: text.textContent,
        box: text.getBoundingClientRect(),
      }));
      return boxes.flatMap((a, at) =>
        boxes.slice(at + 1).flatMap((b) => {
          const isApart =
            a.box.right <= b.box.left + 0.5 ||
            b.box.right <= a.box.left + 0.5 ||
            a.box.bottom <= b.box.top + 2 ||
            b.box.bottom <= a.box.top + 2;
          return isApart ? [] : [`${a.text} / ${b.text}`];
        }),
      );
    });
    found.push(...pairs.map((pair) => `${id}: ${pair}`));
  }
  await browser.close();
  expect(found).toEqual([]);
});

describe("the circuit diagram on the screen", () => {
  const app = useApp();

  test("shows the circuit, and its items are selected by a tap and by arrow keys", async () => {
    const page = await app.open("?build=base&ask=circuit&point=M2");
    await page.waitForSelector("svg.circuit-diagram");
    await page.locator('svg.circuit-diagram [data-id="W30"] rect').first().click();
    const details = page.locator("h2.id");
    expect(await details.textContent()).toBe("W30");
    await page.locator(".frame").focus();
    await page.keyboard.press("ArrowDown");
    await page.waitForSelector('svg.circuit-diagram [data-id="M2.X:1"] .marker');
    expect(await details.textContent()).toBe("M2.X:1");
  });
});
