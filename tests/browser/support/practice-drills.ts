import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";
import { connectorFace } from "ohmward/drawing";
import { drillsOfCode, type Drill } from "ohmward/training";
import { demoDocument, demoIn } from "../../training/support/machines.ts";
import { tabTo } from "./practice.ts";

/** Presses a button that hands out a file. */
export async function download(page: Page, button: string): Promise<{ readonly name: string; readonly text: string }> {
  const [file] = await Promise.all([
    page.waitForEvent("download"),
    page.getByRole("button", { name: button, exact: true }).click(),
  ]);
  return { name: file.suggestedFilename(), text: readFileSync(await file.path(), "utf8") };
}

/** The drills of a code, as the page draws them. */
export function drillsOf(code: string): readonly Drill[] {
  const set = drillsOfCode(demoDocument, code);
  if (!set.ok) throw new Error(set.error.message);
  return set.value.drills;
}

/** Chooses by keyboard: a choice of the list by its id, a place of a face by where it lies. */
export async function choose(page: Page, id: string): Promise<void> {
  const isFace = (await page.locator(".face input").count()) > 0;
  if (!isFace) {
    const escaped = id.replace(/[.*+?^${}()|[\]\\]/gu, "\\$&");
    await page.locator("fieldset input").first().focus();
    const isOne = (await page.locator("fieldset input[type=radio]").count()) > 0;
    if (isOne) await walk(page, new RegExp(`^\\s*${escaped}(?:\\s|$)`, "u"));
    else {
      await tabTo(page, new RegExp(`^\\s*${escaped}(?:\\s|$)`, "u"));
      await page.keyboard.press("Space");
    }
    return;
  }
  const place = await placeOnFace(page, id);
  await page.locator(".face input").first().focus();
  await walk(page, new RegExp(place, "u"));
}

/** Goes through radio buttons with the arrow keys. */
async function walk(page: Page, wanted: RegExp): Promise<void> {
  const count = await page.locator("input[type=radio]").count();
  for (let steps = 0; steps <= count; steps++) {
    await page.keyboard.press(steps === 0 ? "Space" : "ArrowDown");
    const text = await page.evaluate(() => document.activeElement?.closest("label")?.textContent.trim() ?? "");
    if (wanted.test(text)) return;
  }
  throw new Error(`No choice reads like ${String(wanted)}`);
}

/** Where a cavity lies, by the face the document gives: read off the drill itself, mirrored where the other side is shown. */
async function placeOnFace(page: Page, id: string): Promise<string> {
  const title = (await page.locator("#drill-question").textContent()) ?? "";
  const drill = drillsOf(new URL(page.url()).hash.split("/")[1] ?? "").find(({ question }) => question === title);
  if (drill?.context.kind !== "face") throw new Error("No face is asked about");
  const harness = demoIn("base");
  const { context } = drill;
  const connector = harness.fitted.connectors.get(context.connector);
  const side = harness.fitted.sides.get(context.connector)?.find((each) => each.id === context.side);
  if (!connector || !side) throw new Error("The connector is not fitted");
  const face = connectorFace(connector, side, context.view);
  const wanted = face.cavities.find((cavity) => cavity.id === id);
  const rows = [...new Set(face.cavities.map(({ y }) => Math.round(y)))].sort((a, b) => a - b);
  const row = face.cavities.filter(({ y }) => Math.round(y) === Math.round(wanted?.y ?? 0));
  const place = row.filter(({ x }) => x < (wanted?.x ?? 0)).length + 1;
  return `row ${rows.indexOf(Math.round(wanted?.y ?? 0)) + 1} from the top, place ${place} from the left`;
}
