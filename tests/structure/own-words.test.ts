import { expect, test } from "vitest";
import { projectFiles, type ProjectFile } from "./support/project-files.ts";

/** Words that speak of something other than the project: places on somebody's computer, notes that are not in it, how it was made. */
const foreign: readonly (readonly [string, RegExp])[] = [
  ["a folder of somebody's computer", /(?<![\w.~*-])\/(?:work|root|home|Users|mnt|workspace)\/[\w.-]+/u],
  ["a scratch folder with a name", /(?<![\w.])\/tmp\/[\w-]+/u],
  ["a drive of somebody's computer", /\b[A-Z]:\\(?:Users|work)\\/u],
  ["a folder that is not in the project", /(?<![\w/-])shared\//u],
  [
    "a note that is not in the project",
    /\b(?:trade-practice|reference-values|diagnosis-references|harness-standards)\.md\b/u,
  ],
  ["a computer on a local network", /\b(?:10|192\.168)(?:\.\d{1,3}){2,3}:\d+\/|\.(?:internal|corp|lan)\b\//u],
  ["how it was made", /\b(?:sub-?agent|language model|LLM|chat ?bot|Claude|Anthropic|OpenAI|GPT|Copilot)\b/iu],
  [
    "how it was made",
    /\b(?:as (?:requested|instructed)|the (?:user|lead) (?:asked|wants)|per the brief|helper session)\b/iu,
  ],
  ["what it was made from", /\b(?:transcripts?|training video|trainer video|video lesson)\b/iu],
];

/** Files that hold such words on purpose, or are written by a tool. */
const leftOut: ReadonlySet<string> = new Set(["tests/structure/own-words.test.ts", "package-lock.json"]);

function foreignWords(files: readonly ProjectFile[]): readonly string[] {
  return files.flatMap(({ path, text }) =>
    text.split("\n").flatMap((line, index) =>
      foreign.flatMap(([meaning, pattern]) => {
        const match = pattern.exec(line);
        return match === null ? [] : [`${path}:${index + 1} ${meaning}: "${match[0]}"`];
      }),
    ),
  );
}

test.each([
  "see /work/main/src",
  "cd /home/jo/ohmward",
  "file:///root/a.json",
  "written to /tmp/team/a",
  "C:\\Users\\jo",
  "from shared/design.md",
  "see trade-practice.md",
  "http://192.168.1.7:3000/",
  "made by a subagent",
  "as requested in the task",
  "from the transcript",
])("foreignWords() finds the planted %s", (text) => {
  expect(foreignWords([{ path: "a.md", text: `fine\n${text}` }])).toEqual([expect.stringMatching(/^a\.md:2 /u)]);
});

test.each([
  "a shared splice, shared by two circuits",
  "/usr/bin/chromium",
  "docs/workshop/root/cause.md",
  "the work/rest cycle",
  "the seed of a random stream",
  "http://127.0.0.1 is this computer",
])("foreignWords() leaves alone: %s", (text) => {
  expect(foreignWords([{ path: "a.md", text }])).toEqual([]);
});

test("the project speaks only of itself", () => {
  const files = projectFiles(/\.(?:ts|js|mjs|svelte|css|html|json|md|txt|csv|xml|kbl|vec|svg|cir|py)$|(?:^|\/)[^.]+$/u);
  expect(files.length).toBeGreaterThan(0);
  expect(foreignWords(files.filter((file) => !leftOut.has(file.path)))).toEqual([]);
});
