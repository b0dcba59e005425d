import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { faultsOf } from "./support/accessibility.ts";
import { drop } from "./support/drop.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

const LIST =
  "Connector,Pin,Signal,Colour\nECU,1,5V,VT\nECU,2,PRESS,GN\nTANK,1,5V,VT\nTANK,2,PRESS,GN\nPUMP,1,,RD\nPUMP,2,,BU\n";

async function opened(): Promise<Page> {
  const page = await app.open("");
  await drop(page, ["pins.csv", LIST]);
  await page.waitForSelector("[data-result]");
  expect(await page.textContent("[data-result]")).toContain(
    "Circuits and paths: 6 wires, 6 of them with one end only.",
  );
  await page.getByRole("button", { name: "Accept" }).click();
  await page.waitForSelector(".canvas canvas");
  await page.getByRole("button", { name: "Open, save" }).click();
  await page.waitForSelector("[data-gaps]");
  return page;
}

test("what is missing is answered in one tap and joined by keyboard, with a name and never without", async () => {
  const page = await opened();
  const card = page.locator("[data-gaps]");
  await card.locator("summary", { hasText: "connector ECU" }).click();
  const sealed = card.locator("details", { hasText: "connector ECU" }).getByRole("button", { name: "Not sealed" });
  await sealed.click();
  expect(await card.locator("[role=status]").textContent()).toBe("Answer not saved. Enter your name first.");
  await card.locator("input[autocomplete=name]").fill("A. Fitter");
  await sealed.click();
  expect(await card.locator("[role=status]").textContent()).toContain("ECU: sealed no");
  // What is missing is worked out beside the page, so the card follows a moment later.
  await sealed.waitFor({ state: "detached" });
  await card.locator("input[type=checkbox][value=J1]").focus();
  await page.keyboard.press("Space");
  await card.getByRole("button", { name: "Join the ticked wires" }).click();
  await card.getByText("Circuits and paths: 5 wires, 4 of them with one end only.").waitFor();
});

test("what is inside a part is confirmed as proposed, or put together from usual parts", async () => {
  const page = await opened();
  const card = page.locator("[data-gaps]");
  await card.locator("input[autocomplete=name]").fill("A. Fitter");
  const pump = card.locator("details", { hasText: "component PUMP-unit" });
  await pump.locator("summary").click();
  await pump.getByRole("button", { name: "motor", exact: true }).click();
  await pump.waitFor({ state: "detached" });
  const tank = card.locator("details", { hasText: "component TANK-unit" });
  await tank.locator("summary").click();
  await tank.getByLabel("Part").selectOption("resistor");
  await tank.getByLabel("Value in Ω").fill("4,7 bar");
  await tank.getByLabel("Pin: one end").selectOption("1");
  await tank.getByLabel("Pin: other end").selectOption("2");
  await tank.getByRole("button", { name: "Add this part" }).click();
  await tank.getByRole("button", { name: "Enter", exact: false }).click();
  expect(await card.locator("[role=status]").textContent()).toContain("is no value in Ω");
  await tank.getByRole("button", { name: "Take out resistor 4,7 bar 1 2" }).click();
  await tank.getByLabel("Value in Ω").fill("4k7");
  await tank.getByRole("button", { name: "Add this part" }).click();
  await tank.getByRole("button", { name: "Enter", exact: false }).click();
  await tank.waitFor({ state: "detached" });
});

test.each([
  ["light", 1280, 800],
  ["dark", 390, 844],
] as const)("the list of what is missing is without fault to axe-core, %s", async (_theme, width, height) => {
  const page = await opened();
  await page.setViewportSize({ width, height });
  for (const summary of await page.locator("[data-gaps] summary").all()) await summary.click();
  expect(await faultsOf(page)).toEqual([]);
});
