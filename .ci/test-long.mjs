// npm run test:long: the tests (those of the browser: OHMWARD_WHOLE=1 npm run test:browser) that take too long for every day, and the whole of those that npm test draws from. About an hour.
process.env["OHMWARD_LONG"] = "1";
process.env["OHMWARD_WHOLE"] = "1";
process.argv.push("run", "-c", ".ci/vitest.config.ts");
await import("vitest/vitest.mjs");
