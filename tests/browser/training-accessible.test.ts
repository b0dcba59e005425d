import type { Page } from "playwright-core";
import { drillsOfCode, newResult } from "ohmward/training";
import { describe, expect, test } from "vitest";
import { demoDocument } from "../training/support/machines.ts";
import { faultsOf, themesAt } from "./support/accessibility.ts";
import { drop } from "./support/drop.ts";
import { drillCode, goTo, HEATER, layLead, openTask, setMachine, suspect, taskList } from "./support/practice.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

type Look = (name: string) => Promise<void>;

const sizes = [
  ["phone", 390, 844],
  ["tablet", 768, 1024],
] as const;

/** Where screenshots are put, to be looked at by a person; none are taken where it is not set. */
const shots = process.env["OHMWARD_SHOTS"];

describe.each(sizes)("training on a %s", (device, width, height) => {
  test.each(themesAt(width))(
    "every view is without fault to axe-core, fits and suits gloves, %s",
    async (colorScheme) => {
      const page = await app.open("?build=base", {
        viewport: { width, height },
        colorScheme,
        reducedMotion: "reduce",
      });
      const found: string[] = [];
      const look: Look = async (name) => {
        const path = `${shots ?? ""}/${device}-${colorScheme}-${name.replaceAll(" ", "-")}.png`;
        if (shots !== undefined) await page.screenshot({ path });
        found.push(...(await faultsOf(page)).map((fault) => `${name}: ${fault}`));
      };
      await goTo(page, "");
      await page.getByRole("heading", { name: "Routing drills" }).waitFor();
      await look("start");
      await seeDrills(page, look);
      await seeTrainer(page, look);
      await seeExercise(page, look);
      expect(found).toEqual([]);
      await page.context().close();
    },
    300_000,
  );
});

async function seeDrills(page: Page, look: Look): Promise<void> {
  for (const topic of ["route", "cavity", "colour", "effect", "splice"] as const) {
    await goTo(page, drillCode(topic));
    await page.waitForSelector("#drill-question");
    await page.locator(".face input, fieldset input").first().check({ force: true });
    await look(`drill ${topic}`);
    await page.getByRole("button", { name: "Check" }).click();
    await page.locator("[data-verdict]").waitFor();
    await look(`verdict ${topic}`);
  }
  const code = drillCode("zones");
  await goTo(page, code);
  const set = drillsOfCode(demoDocument, code);
  for (let at = 0; at < (set.ok ? set.value.drills.length : 0); at++) {
    await page.locator("fieldset input").first().check();
    await page.getByRole("button", { name: "Check" }).click();
    await page.getByRole("button", { name: /Next question|Show the result/u }).click();
  }
  await page.locator("[data-drills-end]").waitFor();
  await look("drills end");
  await goTo(page, "");
  await page.getByRole("heading", { name: "Wrong answers are repeated" }).waitFor();
  await look("start with progress");
}

async function seeTrainer(page: Page, look: Look): Promise<void> {
  await goTo(page, "trainer");
  await page.getByRole("combobox", { name: "exercise", exact: true }).selectOption("route");
  await page.getByRole("button", { name: "Add to the list", exact: true }).click();
  await page.getByRole("heading", { name: "Exercise list: 3" }).waitFor();
  await page.locator("ol summary").first().click();
  await page.getByRole("button", { name: "Make a link" }).click();
  await page.getByRole("textbox", { name: "link to the whole list" }).waitFor();
  await look("trainer");
  await goTo(page, "class");
  const code = drillCode("cavity");
  const work = { kind: "drills" as const, task: { kind: "code" as const, code }, answers: [], points: 50 };
  const file = newResult(demoDocument, "Kim", [work]);
  await drop(page, ["kim.ohmresult.json", file], ["cut.ohmresult.json", file.slice(0, 90)]);
  await page.getByRole("heading", { name: "Files: 2" }).waitFor();
  await look("class");
}

async function seeExercise(page: Page, look: Look): Promise<void> {
  await openTask(page, "Heater stays cold", taskList([HEATER]));
  await page.getByRole("heading", { name: "Complaint" }).waitFor();
  await look("exercise");
  await suspect(page, "FB1.FL2");
  await layLead(page, "red (V/Ω) lead", { id: "FB1.1", how: "tip" });
  await layLead(page, "black (COM) lead", { id: "G2-", how: "tip" });
  await setMachine(page, "HEAT");
  await page.getByRole("button", { name: "Take the reading", exact: true }).click();
  await page.locator("[data-display=value]").waitFor();
  await look("reading");
  await suspect(page, "W01");
  await layLead(page, "red (V/Ω) lead", { id: "B3.X:1", point: "B3.X.harness:1", how: "back-probe" });
  await page.getByRole("button", { name: "Take the reading", exact: true }).click();
  await page.locator("[data-stopped]").waitFor();
  await look("stopped");
  for (const tab of ["Inspect and move", "Disconnect and fit", "State and repair", "Hint"]) {
    await page.getByRole("button", { name: tab, exact: true }).click();
    if (tab === "Disconnect and fit") {
      await page.getByRole("combobox", { name: "connector or relay" }).fill("B3.X");
      await page.keyboard.press("Enter");
    }
    if (tab === "State and repair") {
      await page.getByRole("combobox", { name: /the one faulty wire/u }).fill("FB1.FL2");
      await page.keyboard.press("Enter");
      await page.getByRole("radio", { name: /blown/u }).waitFor();
    }
    await look(tab.toLowerCase());
  }
  await page.getByRole("button", { name: "State and repair", exact: true }).click();
  await page.getByRole("button", { name: "End the exercise" }).click();
  await page.locator("[data-score]").waitFor({ timeout: 180_000 });
  await look("score");
}
