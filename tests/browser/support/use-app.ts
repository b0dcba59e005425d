import { afterAll, afterEach, beforeAll, expect } from "vitest";
import { misdeeds, startApp, type App } from "./app.ts";

/**
 * The built screen for the tests of one file: started before the first, its pages closed after each, all of it after the last, when no page
 * may have done what pages must not.
 */
export function useApp(): Pick<App, "open"> {
  let app: App | undefined;
  beforeAll(async () => {
    app = await startApp();
  });
  afterEach(async () => {
    await app?.closePages();
  });
  afterAll(async () => {
    await app?.close();
    expect(misdeeds).toEqual([]);
  });
  return {
    open: (...wanted) => {
      if (!app) throw new Error("The screen is opened in tests only, once it was started");
      return app.open(...wanted);
    },
  };
}
