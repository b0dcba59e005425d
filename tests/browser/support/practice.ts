import type { Page } from "playwright-core";
import { newTaskList, writeTaskCode, type Topic } from "ohmward/training";
import type { TrainingTask } from "ohmward/job-records";
import { demoDocument } from "../../training/support/machines.ts";
import { drop } from "./drop.ts";

/** A blown fuse of the heater, as a trainer writes it. */
export const HEATER: TrainingTask = {
  kind: "written",
  title: "Heater stays cold",
  build: "base",
  fault: "blown:FB1.FL2",
  level: 1,
};

/** The code of drills of the demo machine, easy ones. */
export function drillCode(topic: Topic, number = 7): string {
  return writeTaskCode(demoDocument, { topic, level: 1, build: "base", number });
}

/** The text of a task list. */
export function taskList(tasks: readonly TrainingTask[], asksHypothesis = true): string {
  const made = newTaskList(demoDocument, { title: "Monday group", asksHypothesis, tasks });
  if (!made.ok) throw new Error(made.error.map(({ message }) => message).join());
  return made.value;
}

/** Goes to a place of the training page by its address, as a link does. */
export async function goTo(page: Page, place: string): Promise<void> {
  const { origin, pathname, search } = new URL(page.url());
  await page.goto(`${origin}${pathname}${search}#practice${place === "" ? "" : `/${place}`}`);
}

/** Opens an exercise list that was dropped, and the exercise of a title in it. */
export async function openTask(page: Page, title: string, list: string): Promise<void> {
  await goTo(page, "");
  await page.getByRole("heading", { name: "Routing drills" }).waitFor();
  await drop(page, ["monday.ohmtasks.json", list]);
  await page.getByRole("button", { name: new RegExp(`Start.*${title}`, "u") }).click();
}

/** Moves the focus with the tabulator key until it is on something that reads like this. */
export async function tabTo(page: Page, wanted: RegExp): Promise<void> {
  for (let presses = 0; presses < 80; presses++) {
    const text = await page.evaluate(() => {
      const focused = document.activeElement;
      const label = focused instanceof HTMLInputElement ? focused.closest("label") : undefined;
      return [focused?.getAttribute("aria-label"), label?.textContent, focused?.textContent].join(" ").trim();
    });
    if (wanted.test(text)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`Nothing that can be focused reads like ${String(wanted)}`);
}

/** Enters a possible cause. */
export async function suspect(page: Page, id: string): Promise<void> {
  await page.getByRole("combobox", { name: "wire, contact, connector or part" }).fill(id);
  await page.keyboard.press("Enter");
  await sayAgain(page);
}

/** Enters the same possible causes again, as is asked before each step. */
export async function sayAgain(page: Page): Promise<void> {
  await page.getByRole("button", { name: /Enter causes|None yet/u }).click();
  await page.getByText("Entered for the next step.").waitFor();
}

/** Lays a lead on a point. */
export async function layLead(
  page: Page,
  lead: "red (V/Ω) lead" | "black (COM) lead",
  { id, point, how }: { readonly id: string; readonly point?: string; readonly how: string },
): Promise<void> {
  const group = page.getByRole("group", { name: lead, exact: true });
  await group.getByRole("combobox", { name: `${lead} at` }).fill(id);
  await page.keyboard.press("Enter");
  if (point !== undefined) await group.getByRole("combobox", { name: "point" }).selectOption(point);
  await group.getByRole("combobox", { name: "how" }).selectOption(how);
}

/** Sets the machine to a state. */
export async function setMachine(page: Page, state: string): Promise<void> {
  await page.getByRole("combobox", { name: "set the state to" }).selectOption(state);
  await page.getByRole("button", { name: "Set", exact: true }).click();
  await operatingPoint(page);
}

/** Waits until nothing is being worked out. */
export async function operatingPoint(page: Page): Promise<void> {
  await page.locator("[aria-label='Next step'][aria-busy=false]").waitFor();
}
