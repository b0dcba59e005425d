import { existsSync, readFileSync } from "node:fs";
import { createServer, type Server } from "node:http";
import { extname, join, normalize } from "node:path";
import type { Core } from "cytoscape";
import { chromium, type Browser, type BrowserContextOptions, type Page } from "playwright-core";
import { root } from "../../structure/support/project-files.ts";

const folder = join(root, "dist", "app");
const types: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript",
  ".css": "text/css",
  ".json": "application/json",
};

/** The built screen on a server of its own, and a browser to look at it. */
export interface App {
  /** Opens a page of the screen and waits until a machine is open. */
  open(query?: string, options?: BrowserContextOptions & { readonly machine?: string }): Promise<Page>;
  /** Closes every page that was opened: each one draws on, and what comes after would be slower with every page. */
  closePages(): Promise<void>;
  close(): Promise<void>;
}

/** What pages did that they must not: errors, and requests to anywhere else. */
export const misdeeds: string[] = [];

/** Starts server and browser. The built screen must be there: the browser tests run after the build. */
export async function startApp(): Promise<App> {
  if (!existsSync(join(folder, "index.html"))) throw new Error("There is no dist/app: run npm run build first");
  const browser = await chromium.launch({
    executablePath: process.env["OHMWARD_CHROMIUM"] ?? "/usr/bin/chromium",
    args: ["--no-sandbox", "--disable-gpu"],
  });
  const servers: Server[] = [];
  return {
    async open(query = "", { machine, ...options } = {}) {
      const { server, url } = await serve(machine);
      servers.push(server);
      const page = await openPage(browser, url, options);
      await page.goto(url + query);
      // On a narrow page the drawing may stand behind the answer.
      await page.waitForSelector(".canvas canvas", { state: "attached" });
      await untilAnswered(page);
      return page;
    },
    async closePages() {
      await Promise.all(browser.contexts().map((context) => context.close()));
      for (const server of servers.splice(0)) server.close();
    },
    async close() {
      await browser.close();
      for (const server of servers) server.close();
    },
  };
}

/**
 * Looks for words in the search of the page and asks about the first hit.
 *
 * @param page The page.
 * @param words What is typed.
 * @param action What is asked, as on its button; the circuit, by the Enter key, if nothing else is said.
 */
export async function lookFor(page: Page, words: string, action?: string): Promise<void> {
  await page.fill("[data-search]", words);
  await page.waitForSelector(".results [data-hit]");
  if (action === undefined) await page.press("[data-search]", "Enter");
  else await page.locator(".results").getByRole("button", { name: action, exact: true }).first().click();
  await page.waitForSelector(".results", { state: "detached" });
  await untilAnswered(page);
}

/** Waits until the question that is asked is answered. */
export async function untilAnswered(page: Page): Promise<void> {
  await page.waitForFunction(() => document.querySelector('[aria-label="Answer"][aria-busy="true"]') === null);
}

async function openPage(browser: Browser, url: string, options: BrowserContextOptions): Promise<Page> {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 800 },
    colorScheme: "light",
    ...options,
  });
  const page = await context.newPage();
  page.on("pageerror", (error) => misdeeds.push(`error: ${error.message}`));
  page.on("console", (message) => {
    // A missing machine.ohm.json is how the page finds out that the demo is wanted.
    if (message.type() === "error" && !message.location().url.endsWith("machine.ohm.json"))
      misdeeds.push(message.text());
  });
  page.on("request", (request) => {
    if (!/^(?:data|blob):/u.test(request.url()) && !request.url().startsWith(url))
      misdeeds.push(`request: ${request.url()}`);
  });
  return page;
}

async function serve(machine: string | undefined): Promise<{ readonly server: Server; readonly url: string }> {
  const server = createServer((request, response) => {
    const path = new URL(request.url ?? "/", "http://localhost").pathname;
    const file = join(folder, normalize(path === "/" ? "/index.html" : path));
    const body =
      path === "/machine.ohm.json"
        ? machine
        : file.startsWith(folder) && existsSync(file)
          ? readFileSync(file)
          : undefined;
    response.writeHead(body === undefined ? 404 : 200, {
      "content-type": types[extname(path) || ".html"] ?? "text/plain",
    });
    response.end(body);
  });
  await new Promise<void>((done) => server.listen(0, "127.0.0.1", done));
  const address = server.address();
  if (address === null || typeof address === "string") throw new Error("The server has no port");
  return { server, url: `http://127.0.0.1:${address.port}/` };
}

/** Where a thing of the drawing is on the page, by its key, such as `connector B3.X`. */
export async function placeOf(page: Page, key: string): Promise<{ readonly x: number; readonly y: number }> {
  const point = await page.evaluate((id) => {
    const canvas = document.querySelector<HTMLElement & { _cyreg?: { cy: Core } }>(".canvas");
    const node = canvas?._cyreg?.cy.getElementById(id);
    if (!canvas || !node || node.empty()) return undefined;
    const { x, y } = node.renderedPosition();
    const box = canvas.getBoundingClientRect();
    return { x: box.x + x, y: box.y + y };
  }, key);
  if (!point) throw new Error(`The drawing has no "${key}"`);
  return point;
}

/** Ids of the wires that are drawn over their bundles. */
export async function litWires(page: Page): Promise<readonly string[]> {
  const wires = await page.evaluate(() => {
    const canvas = document.querySelector<HTMLElement & { _cyreg?: { cy: Core } }>(".canvas");
    return canvas?._cyreg?.cy.edges(".wire").map((edge) => String(edge.data("item"))) ?? [];
  });
  return wires.toSorted();
}
