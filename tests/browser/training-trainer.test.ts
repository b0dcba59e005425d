import { newResult } from "ohmward/training";
import type { TrainingWork } from "ohmward/job-records";
import { describe, expect, test } from "vitest";
import { demoDocument } from "../training/support/machines.ts";
import { drop } from "./support/drop.ts";
import { download, drillsOf } from "./support/practice-drills.ts";
import { drillCode, goTo, taskList } from "./support/practice.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

describe("a trainer", () => {
  test("makes a list, hands it out as a file and as a link, and a fault that does not show is refused", async () => {
    const page = await app.open("?build=base");
    await goTo(page, "trainer");
    await page.getByRole("combobox", { name: "exercise", exact: true }).selectOption("cavity");
    await page.getByRole("combobox", { name: "how many" }).selectOption("2");
    await page.getByRole("button", { name: "Add to the list", exact: true }).click();
    await page.getByRole("heading", { name: "Exercise list: 2" }).waitFor();
    await page.getByRole("textbox", { name: "title for the class" }).fill("Heater stays cold");
    await page.getByRole("combobox", { name: "kind of fault" }).selectOption("blown");
    await page.getByRole("textbox", { name: "wire, contact or part with the fault" }).fill("FB1.FL9");
    await page.getByRole("button", { name: "Test it and add it to the list" }).click();
    await page.locator(".problem").waitFor();
    await page.getByRole("textbox", { name: "wire, contact or part with the fault" }).fill("FB1.FL2");
    await page.getByRole("button", { name: "Test it and add it to the list" }).click();
    await page.getByRole("heading", { name: "Exercise list: 3" }).waitFor();
    await page.getByRole("textbox", { name: "title of the list" }).fill("Monday group");
    await page.reload();
    await page.getByRole("heading", { name: "Exercise list: 3" }).waitFor();
    const file = await download(page, "Save as a file");
    expect(file.name).toBe("Monday-group.ohmtasks.json");
    const { tasks } = JSON.parse(file.text) as { tasks: readonly unknown[] };
    expect(tasks).toHaveLength(3);
    await page.getByRole("button", { name: "Make a link" }).click();
    const link = await page.getByRole("textbox", { name: "link to the whole list" }).inputValue();
    await page.goto(link);
    await page.getByRole("heading", { name: "Exercise list: Monday group" }).waitFor();
    expect(await page.getByRole("button", { name: /^Start.*:/u }).count()).toBe(3);
    await page.context().close();
  });

  test("collects result files, a broken and an edited one among them, and gets the class by task and by skill", async () => {
    const page = await app.open("?build=base");
    await goTo(page, "class");
    await page.getByRole("heading", { name: "Result files of a class" }).waitFor();
    const kim = resultFile("Kim", 7);
    const lee = resultFile("Lee", 4);
    const edited = resultFile("Max", 3).replace('"points": 30', '"points": 100');
    const other = structuredClone(demoDocument);
    other.about.revision = "9";
    const foreign = newResult(other, "Uli", []);
    await drop(
      page,
      ["kim.ohmresult.json", kim],
      ["lee.ohmresult.json", lee],
      ["max.ohmresult.json", edited],
      ["cut.ohmresult.json", kim.slice(0, 300)],
      ["uli.ohmresult.json", foreign],
    );
    await page.getByRole("heading", { name: "Files: 5" }).waitFor();
    const files = await page
      .locator("[data-file]")
      .evaluateAll((all) => all.map((each) => each.getAttribute("data-file")));
    expect(files).toEqual(["as written", "as written", "edited", "cannot be read", "other harness data"]);
    expect(await page.locator("[data-file=edited]").textContent()).toContain("checksum does not fit");
    const rows = await page
      .locator("main tbody tr")
      .evaluateAll((all) => all.map((row) => [...row.children].slice(0, 2).map((cell) => cell.textContent)));
    expect(rows.slice(0, 3)).toEqual([
      ["Kim", "70"],
      ["Lee", "40"],
      ["Max", "30"],
    ]);
    expect(await page.locator("main tbody tr", { hasText: "Max" }).textContent()).toContain("The file has 100 points");
    const csv = await download(page, "Save as CSV");
    expect(csv.text).toMatch(/^\uFEFF?Name,Faces,Mean,Remarks\r\nKim,70,70/u);
    await page.getByRole("button", { name: "By skill" }).click();
    expect(await page.locator("main thead").textContent()).toContain("Cavity and face");
    await page.emulateMedia({ media: "print" });
    expect(await page.locator("[data-practice-sheet]").isVisible()).toBe(true);
    expect(await page.locator("[data-practice-sheet]").innerText()).toContain("Kim");
    expect(await page.locator(".screen").isVisible()).toBe(false);
    await page.context().close();
  });

  test("who drops a broken task list is told why, and what was there stays", async () => {
    const page = await app.open("?build=base");
    await goTo(page, "");
    const list = taskList([{ kind: "code", code: drillCode("route"), title: "Ways" }]);
    await drop(page, ["a.ohmtasks.json", list]);
    await page.locator("main li").getByText("Ways", { exact: true }).waitFor();
    await drop(page, ["b.ohmtasks.json", "{"]);
    await page.getByText(/was not opened/u).waitFor();
    await page.reload();
    await page.locator("main li").getByText("Ways", { exact: true }).waitFor();
    await page.context().close();
  });
});

/** A result file of ten drills on faces with so many right. */
function resultFile(name: string, right: number): string {
  const code = drillCode("cavity");
  const answers = drillsOf(code).map((drill, at) => ({
    drill: drill.id,
    picked: at < right ? [...(drill.accepted[0] ?? [])] : ["none"],
  }));
  const work: TrainingWork = {
    kind: "drills",
    task: { kind: "code", code, title: "Faces" },
    answers,
    points: right * 10,
  };
  return newResult(demoDocument, name, [work]);
}
