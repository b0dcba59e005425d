// npm run bench -- page: what keeps the page from answering a hand. Opens a generated machine in Chromium, asks each question, and
// prints every task of the page's own thread above 100 ms, with the functions that take it; and how fast work can be stopped.
// `--wires 20000` chooses the size.
import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createServer } from "node:http";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { parseArgs } from "node:util";
import { chromium } from "playwright-core";
import { build } from "vite";
import { generateHarness } from "../generate/generate-harness.ts";
import { showTime } from "./parts/table.ts";

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly id?: string;
  readonly ts: number;
  readonly dur?: number;
  readonly args?: {
    readonly name?: string;
    readonly data?: {
      readonly cpuProfile?: { readonly nodes?: readonly ProfileNode[]; readonly samples?: readonly number[] };
      readonly timeDeltas?: readonly number[];
      readonly startTime?: number;
    };
  };
}

interface ProfileNode {
  readonly id: number;
  readonly parent?: number;
  readonly callFrame: { readonly functionName: string };
}

const LONG_MS = 100;
const { values } = parseArgs({
  options: { wires: { type: "string", default: "20000" } },
});
const machine = generateHarness({ seed: 45, wires: Number(values.wires) });
const text = JSON.stringify(machine);
const signals = machine.codes.flatMap(({ points }) => {
  const net = machine.wires.filter((wire) => wire.net === `signal ${points[0] ?? ""}`);
  const [first, last] = [net[0], net.at(-1)];
  return first && last ? [{ pin: first.ends[0], sensor: last.ends[1] ?? "", wire: first.id }] : [];
});
const [one, two] = signals;
if (!one || !two) throw new Error("The generated harness has no signals");
const enc = encodeURIComponent;
const state = machine.states[0]?.id ?? "";
const base = `build=${machine.builds[0]?.id ?? ""}&state=${enc(state)}`;
const QUESTIONS: Readonly<Record<string, string>> = {
  path: `${base}&ask=path&from=${enc(one.pin)}&to=${enc(one.sensor)}`,
  circuit: `${base}&ask=circuit&point=${enc(one.pin)}`,
  "common wiring": `${base}&ask=common&bad=${enc(one.wire)}&bad=${enc(two.wire)}`,
  "effect of an open": `${base}&ask=effect&item=${enc(one.wire)}`,
  "test points": `${base}&ask=test-points&item=${enc(one.pin)}`,
  "expected reading": `${base}&ask=expected&red=${enc(one.sensor)}`,
  "table of a circuit": `${base}&ask=table&item=${enc(one.sensor)}`,
  "path with voltages": `${base}&ask=path&from=${enc(one.pin)}&to=${enc(one.sensor)}&readings=1&fault=${enc(`open:${one.wire}`)}`,
};

/** Functions of the project and components of the page, by name: what else runs belongs to a library or to Chromium. */
const OURS = new Set(
  readdirSync("src", { recursive: true, encoding: "utf8" })
    .filter((file) => /\.(?:ts|svelte)$/u.test(file))
    .flatMap((file) => [
      basename(file, ".svelte"),
      ...[...readFileSync(join("src", file), "utf8").matchAll(/function (\w+)/gu)].flatMap(([, name]) => name ?? []),
    ]),
);
const app = mkdtempSync(join(tmpdir(), "ohmward-page-"));
const file = join(app, "machine.ohm.json");
await build({ configFile: ".ci/vite.app.config.ts", logLevel: "error", build: { minify: false, outDir: app } });
writeFileSync(file, text);
const url = await serve();
const browser = await chromium.launch({
  executablePath: process.env["OHMWARD_CHROMIUM"] ?? "/usr/bin/chromium",
  args: ["--no-sandbox", "--disable-gpu"],
});
const page = await browser.newPage({ viewport: { width: 1280, height: 800 } });
page.on("pageerror", (error) => console.log(`error on the page: ${error.message}`));
console.log(
  `${values.wires} wires, ${(text.length / 1e6).toFixed(1)} MB of text; tasks of the page's thread above ${LONG_MS} ms`,
);

await step("opening", async () => {
  await page.goto(url);
  await page.waitForSelector(".canvas canvas", { timeout: 120_000 });
});
for (const [name, query] of Object.entries(QUESTIONS)) {
  await step(name, async () => {
    await page.evaluate((search) => {
      window.history.pushState(null, "", `?${search}`);
      window.dispatchEvent(new PopStateEvent("popstate"));
    }, query);
    await answered();
  });
}
await step("typing three letters of a search", async () => {
  const field = page.locator("input[role=combobox]").first();
  await field.fill("");
  await field.pressSequentially("sig", { delay: 300 });
});
await step("details of a wire", () => goTo(`${base}&selected=${enc(`wire ${one.wire}`)}`));
await step("details of a connector", () => goTo(`${base}&selected=${enc(`connector ${one.pin.split(":")[0] ?? ""}`)}`));
await step("new job", async () => {
  await page.getByRole("button", { name: "Job", exact: true }).click();
  await page.getByRole("button", { name: "New job" }).click();
});
await step("page of data", () => page.getByRole("button", { name: "Open, save", exact: true }).click());
await step("importing the same file", async () => {
  await page.locator("input[type=file]").first().setInputFiles(file);
  await page.getByRole("button", { name: "Accept" }).and(page.locator(":enabled")).waitFor({ timeout: 120_000 });
});
await page.locator("input[type=file]").first().setInputFiles(file);
await page.getByRole("button", { name: "Cancel" }).waitFor();
console.log(`stopping an import: ${showTime(await stop())} until the page says so`);
await browser.close();
rmSync(app, { recursive: true });
process.exit();

async function goTo(query: string): Promise<void> {
  await page.evaluate((search) => {
    window.history.pushState(null, "", `?${search}`);
    window.dispatchEvent(new PopStateEvent("popstate"));
  }, query);
  await page.waitForTimeout(500);
}

async function answered(): Promise<void> {
  await page.waitForTimeout(50);
  await page.waitForFunction(
    () => document.querySelector('[aria-label="Answer"][aria-busy="true"]') === null,
    undefined,
    { timeout: 120_000 },
  );
}

async function stop(): Promise<number> {
  return await page.evaluate(async () => {
    const button = [...document.querySelectorAll("button")].find((each) => each.textContent.trim() === "Cancel");
    const start = performance.now();
    button?.click();
    while ([...document.querySelectorAll("button")].some((each) => each.textContent.trim() === "Cancel"))
      await new Promise((next) => requestAnimationFrame(next));
    return performance.now() - start;
  });
}

/** Does something under watch, and prints the long tasks of it. */
async function step(name: string, act: () => Promise<void>): Promise<void> {
  await browser.startTracing(page, {
    categories: [
      "toplevel",
      "disabled-by-default-devtools.timeline",
      "devtools.timeline",
      "blink.user_timing",
      "__metadata",
      "disabled-by-default-v8.cpu_profiler",
    ],
  });
  // Starting to watch takes a task of its own.
  await page.waitForTimeout(2500);
  await page.evaluate(() => performance.mark("the step starts"));
  const start = performance.now();
  await act();
  const took = performance.now() - start;
  await page.waitForTimeout(700);
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString()) as { traceEvents: TraceEvent[] };
  const long = longTasks(traceEvents);
  console.log(`\n${name}: ${showTime(took)}${long.length === 0 ? "; nothing above" : ""}`);
  for (const { ms, what } of long) console.log(`  ${showTime(ms).padStart(8)}  ${what}`);
}

function longTasks(events: readonly TraceEvent[]): readonly { readonly ms: number; readonly what: string }[] {
  // Two things are called so: the main thread of the page, and that of blank pages; the page's does the work.
  const mains = events.filter((each) => each.name === "thread_name" && each.args?.name === "CrRendererMain");
  const isMain = (each: TraceEvent): boolean => mains.some(({ pid, tid }) => each.pid === pid && each.tid === tid);
  const start = events.find((each) => each.name === "the step starts")?.ts ?? 0;
  const tasks = events.filter(
    (each) => each.name === "RunTask" && each.ts > start && (each.dur ?? 0) > LONG_MS * 1000 && isMain(each),
  );
  return tasks.map((task) => {
    const end = task.ts + (task.dur ?? 0);
    return { ms: (task.dur ?? 0) / 1000, what: functionsIn(events, task, end) || partsIn(events, task, end) };
  });
}

/** What Chromium did in a task, where no function of ours ran. */
function partsIn(events: readonly TraceEvent[], task: TraceEvent, end: number): string {
  const inside = events.filter(
    (each) =>
      each.name !== task.name &&
      !each.name.endsWith("RunTask") &&
      each.pid === task.pid &&
      each.tid === task.tid &&
      each.ts >= task.ts &&
      each.ts < end &&
      (each.dur ?? 0) > 50_000 &&
      !each.name.includes("GC"),
  );
  return inside.map(({ name, dur }) => `${name} ${showTime((dur ?? 0) / 1000)}`).join(", ");
}

/** The named functions in which a task spent most of its time, with all that they call. */
function functionsIn(events: readonly TraceEvent[], task: TraceEvent, end: number): string {
  const times = new Map<string, number>();
  for (const profile of events.filter(
    (each) => each.name === "Profile" && each.pid === task.pid && each.tid === task.tid,
  )) {
    const nodes = new Map<number, ProfileNode>();
    let at = profile.args?.data?.startTime ?? profile.ts;
    const chunks = events.filter(
      (each) => each.name === "ProfileChunk" && each.pid === profile.pid && each.id === profile.id,
    );
    for (const { args } of chunks) {
      for (const node of args?.data?.cpuProfile?.nodes ?? []) nodes.set(node.id, node);
      (args?.data?.cpuProfile?.samples ?? []).forEach((sample, index) => {
        const delta = args?.data?.timeDeltas?.[index] ?? 0;
        at += delta;
        if (at < task.ts || at > end) return;
        const names = new Set<string>();
        for (let node = nodes.get(sample); node; node = nodes.get(node.parent ?? -1))
          names.add(node.callFrame.functionName);
        for (const name of names) times.set(name, (times.get(name) ?? 0) + delta / 1000);
      });
    }
  }
  return [...times]
    .flatMap(([name, ms]): [string, number][] =>
      name === "renderFn" ? [["the drawing library paints", ms]] : OURS.has(name) ? [[name, ms]] : [],
    )
    .filter(([, ms]) => ms > 30)
    .toSorted((a, b) => b[1] - a[1])
    .slice(0, 5)
    .map(([name, ms]) => `${name} ${ms.toFixed(0)}`)
    .join(", ");
}

async function serve(): Promise<string> {
  const types: Readonly<Record<string, string>> = { html: "text/html", js: "text/javascript", css: "text/css" };
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? "/", "http://localhost").pathname;
    const file = join(app, path === "/" ? "index.html" : path);
    const body = existsSync(file) ? readFileSync(file) : undefined;
    response.writeHead(body === undefined ? 404 : 200, {
      "content-type": types[file.split(".").at(-1) ?? ""] ?? "text/plain",
    });
    response.end(body);
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const address = server.address();
  if (address === null || typeof address === "string") throw new Error("The server has no port");
  return `http://127.0.0.1:${address.port}/`;
}
