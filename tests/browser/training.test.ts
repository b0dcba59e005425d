import { makeGrader } from "ohmward/training";
import { describe, expect, test } from "vitest";
import { demoDocument } from "../training/support/machines.ts";
import { placeOf } from "./support/app.ts";
import { choose, download, drillsOf } from "./support/practice-drills.ts";
import {
  drillCode,
  goTo,
  HEATER,
  layLead,
  openTask,
  sayAgain,
  setMachine,
  operatingPoint,
  suspect,
  tabTo,
  taskList,
} from "./support/practice.ts";
import { useApp } from "./support/use-app.ts";

const app = useApp();

describe("routing drills", () => {
  test("are done by keyboard alone, the code typed, with the reason at once and the points at the end", async () => {
    const page = await app.open("?build=base");
    await tabTo(page, /^\W*Training$/u);
    await page.keyboard.press("Enter");
    await page.getByRole("heading", { name: "Routing drills" }).waitFor();
    await tabTo(page, /^exercise code$/u);
    const code = drillCode("drills");
    await page.keyboard.type(code.toLowerCase().replaceAll("-", " "));
    await page.keyboard.press("Enter");
    const drills = drillsOf(code);
    expect(drills).toHaveLength(10);
    for (const [at, drill] of drills.entries()) {
      await page.getByRole("heading", { name: drill.question }).waitFor();
      // The second and the fifth are answered wrong: with the first of the things that are no part of any right answer.
      const wrong = drill.pick.choices.find((id) => !drill.accepted.flat().includes(id));
      const isWrong = (at === 1 || at === 4) && wrong !== undefined;
      for (const id of isWrong ? [wrong] : (drill.accepted[0] ?? [])) await choose(page, id);
      await tabTo(page, /^Check$/u);
      await page.keyboard.press("Enter");
      const verdict = page.locator("[data-verdict]");
      await verdict.waitFor();
      expect(await verdict.getAttribute("data-verdict"), drill.id).toBe(isWrong ? "wrong" : "right");
      for (const reason of drill.why) expect(await verdict.textContent()).toContain(reason);
      // The way on has the focus already.
      await page.keyboard.press("Enter");
    }
    const end = page.locator("[data-drills-end]");
    await end.waitFor();
    expect(await end.textContent()).toContain("8 of 10 correct");
    await page.context().close();
  });

  test("go on where the device keeps nothing, and it is said", async () => {
    const page = await app.open("?build=base");
    // As a browser does whose storage is full.
    await page.evaluate(() => {
      Storage.prototype.setItem = () => {
        throw new DOMException("full", "QuotaExceededError");
      };
    });
    const code = drillCode("cavity");
    await goTo(page, code);
    const [drill] = drillsOf(code);
    await page.getByRole("heading", { name: drill?.question ?? "" }).waitFor();
    for (const id of drill?.accepted[0] ?? []) await choose(page, id);
    await page.getByRole("button", { name: "Check", exact: true }).click();
    await page.locator("[data-verdict=right]").waitFor();
    await goTo(page, "");
    await page.getByText("This device saves nothing for this page", { exact: false }).waitFor();
    await page.context().close();
  });

  test("are picked on the drawing as well", async () => {
    const page = await app.open("?build=base");
    const code = drillCode("next-connector");
    await goTo(page, code);
    const [drill] = drillsOf(code);
    await page.getByRole("heading", { name: drill?.question ?? "" }).waitFor();
    await page.waitForSelector(".canvas canvas");
    for (const id of drill?.accepted[0] ?? []) {
      const { x, y } = await placeOf(page, `connector ${id}`);
      await page.mouse.click(x, y);
    }
    await page.getByRole("button", { name: "Check" }).click();
    expect(await page.locator("[data-verdict]").getAttribute("data-verdict")).toBe("right");
    await page.context().close();
  });

  test("show no splice on the drawing while one is looked for, and no number on a face", async () => {
    const page = await app.open("?build=base");
    await goTo(page, drillCode("splice"));
    await page.waitForSelector("#drill-question");
    await page.waitForSelector(".canvas canvas");
    const [splice] = drillsOf(drillCode("splice"));
    await expect(placeOf(page, splice?.id ?? "")).rejects.toThrow("The drawing has no");
    await goTo(page, drillCode("next-connector"));
    await page.getByRole("heading", { name: /Which connectors come next/u }).waitFor();
    await page.waitForSelector(".canvas canvas");
    expect((await placeOf(page, splice?.id ?? "")).x).toBeGreaterThan(0);
    const code = drillCode("cavity");
    await goTo(page, code);
    const place = drillsOf(code).findIndex(({ context }) => context.kind === "face" && context.marked === undefined);
    expect(place).toBeGreaterThanOrEqual(0);
    await page.waitForSelector(".face");
    expect((await page.locator(".face [aria-hidden]").allTextContents()).join("").replaceAll("?", "").trim()).toBe("");
    await page.context().close();
  });

  test("that were wrong come again the next day, and are kept when the page is closed", async () => {
    const page = await app.open("?build=base");
    const code = drillCode("colour");
    const [drill] = drillsOf(code);
    await goTo(page, code);
    await page.waitForSelector("#drill-question");
    await choose(page, drill?.pick.choices.find((id) => !drill.accepted.flat().includes(id)) ?? "");
    await page.getByRole("button", { name: "Check" }).click();
    await page.locator("[data-verdict=wrong]").waitFor();
    await goTo(page, "");
    expect(await page.getByText(/0 due today, 1 later/u).count()).toBe(1);
    await page.clock.setSystemTime(Date.now() + 86_400_000);
    await page.reload();
    await page.getByRole("button", { name: "Repeat 1" }).click();
    await page.getByRole("heading", { name: drill?.question ?? "" }).waitFor();
    for (const id of drill?.accepted[0] ?? []) await choose(page, id);
    await page.getByRole("button", { name: "Check" }).click();
    await page.locator("[data-verdict=right]").waitFor();
    await goTo(page, "");
    expect(await page.getByText(/0 due today, 1 later/u).count()).toBe(1);
    await page.context().close();
  });

  test("say what is wrong with a code", async () => {
    const page = await app.open("?build=base");
    const code = drillCode("route");
    await goTo(page, "");
    const other = `${code.startsWith("A") ? "C" : "A"}${code.slice(1)}`;
    for (const [typed, said] of [
      [other, "compare the code"],
      ["ABC", "is not a character of an exercise code"],
      [code.slice(0, 6), "12 characters"],
    ] as const) {
      await page.getByRole("textbox", { name: "exercise code" }).fill(typed);
      await page.getByRole("button", { name: "Open", exact: true }).click();
      expect(await page.locator("#given-problem").textContent()).toContain(said);
    }
    await goTo(page, other);
    await page.getByRole("heading", { name: "This exercise cannot be opened" }).waitFor();
    await page.context().close();
  });
});

describe("a fault hunt", () => {
  test("goes from the complaint to the score, outlives a closed page, and is graded the same from its file", async () => {
    const page = await app.open("?build=base");
    await openTask(page, "Heater stays cold", taskList([HEATER]));
    await page
      .locator("main")
      .getByText(/Intake grid heater.*does not work/u)
      .waitFor();
    // An action before a word of what is suspected is put off.
    await layLead(page, "red (V/Ω) lead", { id: "FB1.1", how: "tip" });
    await layLead(page, "black (COM) lead", { id: "G2-", how: "tip" });
    await page.getByRole("button", { name: "Take the reading", exact: true }).click();
    await page.locator("[data-seen=not-ready]").waitFor();
    await suspect(page, "FB1.FL2");
    await setMachine(page, "HEAT");
    await page.getByRole("button", { name: "Take the reading", exact: true }).click();
    // 12.63 V on the strip with its fuse blown, from demo-harness/expected.json; the meter may be off by 0.5 %.
    const volts = Number((await page.locator("[data-display=value] .digits span").first().textContent()) ?? "");
    expect(Math.abs(volts - 12.63)).toBeLessThan(0.09);

    // A thin tip past a seal is stopped, with the damage.
    await sayAgain(page);
    await layLead(page, "red (V/Ω) lead", { id: "B3.X:1", point: "B3.X.harness:1", how: "back-probe" });
    await page.getByRole("button", { name: "Take the reading", exact: true }).click();
    await page.locator("[data-stopped]").waitFor();
    expect(await page.locator("[data-stopped]").textContent()).toMatch(/back-probe.*seal/su);

    await page.reload();
    await page.getByText("Take the reading", { exact: true }).waitFor();
    expect(await page.locator("main").getByText("Do not back-probe").count()).toBeGreaterThan(0);
    expect(await page.locator("[data-clock]").textContent()).toMatch(/min/u);

    await page.getByRole("button", { name: "State and repair" }).click();
    await page.getByRole("combobox", { name: /the one faulty wire/u }).fill("FB1.FL2");
    await page.keyboard.press("Enter");
    await page.getByRole("radio", { name: /blown/u }).check();
    await page.getByRole("button", { name: "State this cause" }).click();
    await page.locator("[data-seen=named]").waitFor();
    await setMachine(page, "OFF");
    await page.getByRole("button", { name: /^Repair/u }).click();
    await operatingPoint(page);
    await page.getByRole("button", { name: "Reproduce the complaint" }).click();
    await page.locator("[data-seen=tried]").waitFor();
    expect(await page.locator("[data-seen=tried]").textContent()).toContain("Everything works");
    await page.getByRole("button", { name: "End the exercise" }).click();

    const score = page.locator("[data-score]");
    await score.waitFor({ timeout: 110_000 });
    const points = Number(await score.getAttribute("data-score"));
    expect(await score.textContent()).toContain("40 of 40");
    expect(await page.getByRole("list", { name: "Your steps" }).locator("li").count()).toBeGreaterThan(5);
    expect(await page.getByRole("list", { name: "Recommended steps" }).locator("li").count()).toBeGreaterThan(1);
    // The planner says what it suspects as a trainee does, or is not asked: no check of its own is put off.
    expect(await page.getByRole("list", { name: "Recommended steps" }).textContent()).not.toContain("First say");
    // The file says no more of the trainee than the name, and working it out again gives the same points.
    const { text } = await download(page, "Save the result file");
    const graded = makeGrader(demoDocument).grade(text);
    expect(graded.ok && graded.value.work.map((work) => [work.points, work.remarks])).toEqual([[points, []]]);
    await page.reload();
    await score.waitFor({ timeout: 110_000 });
    await page.context().close();
  }, 240_000);

  test("has a meter that wanders on a lead that hangs on nothing, shows OL above its range and a sign", async () => {
    const page = await app.open("?build=base", { reducedMotion: "reduce" });
    const open = { ...HEATER, title: "Coolant sensor", fault: "open:W81" };
    await openTask(page, "Coolant sensor", taskList([open], false));
    await page.getByRole("button", { name: "Disconnect and fit" }).click();
    await page.getByRole("combobox", { name: "connector or relay" }).fill("B5.X");
    await page.keyboard.press("Enter");
    await page.getByRole("button", { name: "Disconnect B5.X" }).click();
    await page.getByRole("button", { name: "Connect B5.X" }).first().waitFor();
    await setMachine(page, "KOEO");
    await page.getByRole("button", { name: "Measure", exact: true }).click();
    await layLead(page, "red (V/Ω) lead", { id: "B5.X:2", point: "B5.X.harness:2", how: "front-probe" });
    await layLead(page, "black (COM) lead", { id: "G2-", how: "tip" });
    const read = page.getByRole("button", { name: "Take the reading", exact: true });
    await read.click();
    await page.locator("[data-display=wanders]").waitFor();
    expect(await page.locator("[data-display] .note").textContent()).toContain("Unstable reading");
    await layLead(page, "red (V/Ω) lead", { id: "G2+", how: "tip" });
    await page.getByRole("combobox", { name: "range" }).selectOption("6");
    await read.click();
    await page.locator("[data-display=overload]").waitFor();
    expect(await page.locator(".digits span").first().textContent()).toBe("OL");
    await page.getByRole("combobox", { name: "range" }).selectOption("");
    await page.getByRole("button", { name: "Swap the leads" }).click();
    await read.click();
    await page.locator("[data-display=value]").waitFor();
    expect(await page.locator(".digits span").first().textContent()).toMatch(/^[-−]12\./u);
    await page.context().close();
  });
});
