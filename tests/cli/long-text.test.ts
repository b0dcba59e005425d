import { expect, test } from "vitest";
import { run } from "./fake-io.ts";

const LONG = "x".repeat(100_000);
const MOST = 10_000;

// A text that fills the terminal hides what is to be done.
test.each(
  [
    ["circuit", "demo", LONG, "-b", "base"],
    ["circuit", "demo", "B3", "-b", LONG],
    ["circuit", "demo", "B3", "-b", "base", "-s", LONG],
    ["circuit", LONG, "B3"],
    ["circuit", `--${LONG}`],
    [LONG],
    ["path", "demo", "B3", "B4", "--through", LONG],
    ["common", "demo", "B3", LONG, "-b", "base"],
    ["expected", "demo", "-b", "base", "--red", LONG],
    ["expected", "demo", "-b", "base", "-s", "KOEO", "--red", "B3.X:1", "--fault", LONG],
    ["expected", "demo", "-b", "base", "-s", "KOEO", "--red", "B3.X:1", "--set", LONG],
    ["expected", "demo", "-b", "base", "-s", "KOEO", "--red", "B3.X:1", "--unplugged", LONG],
    ["find", "demo", LONG, "-b", "base"],
    ["export", "demo", "--format", LONG],
    ["export", "demo", "--format", "svg", "--build", LONG],
    ["training", "new", "demo", "--drills", LONG],
    ["training", "new", "demo", "--drills", "1", "--build", LONG],
    ["job", "new", "demo", "--job", "/nowhere/a.ohmjob.json", "-b", "base", "-c", LONG],
    ["job", "new", "demo", "--job", "/nowhere/a.ohmjob.json", "-b", "base", "--fails", LONG],
    ["job", "new", "demo", "--job", "/nowhere/a.ohmjob.json", "-b", "base", "--probability-factor", LONG],
    ["job", "next", LONG],
  ].map((args) => [args.join(" ").replace(LONG, "LONG"), args] as const),
)("%s: a word of 100,000 letters does not fill the terminal", async (_, args) => {
  const told = await run(args);
  expect((told.out + told.err).length).toBeLessThan(MOST);
  const data = await run([...args, "--json"]);
  expect(() => JSON.parse(data.out) as unknown).not.toThrow();
});
