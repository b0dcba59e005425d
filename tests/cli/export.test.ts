import { describe, expect, test } from "vitest";
import { ExportReport, EXPORT_FORMATS } from "ohmward/application";
import { demoText } from "../demo-harness/open-demo.ts";
import { run } from "./fake-io.ts";

const words = (line: string): readonly string[] => line.split(" ");

/** The demo machine written in a form, read back, as the text of a harness document. */
async function thereAndBack(form: string, more = ""): Promise<string> {
  const written = await run(words(`export demo --format ${form} -o out.file${more}`));
  expect([written.code, written.err]).toEqual([0, ""]);
  const read = await run(words("import out.file -o -"), {
    files: { "out.file": written.written.get("out.file") ?? "" },
  });
  expect(read.code).toBe(0);
  return read.out;
}

/** What a question prints, without the lines that speak of things a plain table cannot hold. */
async function asked(document: string, line: string): Promise<unknown> {
  const { code, out } = await run([...words(line), "--json"], { files: { "m.json": document } });
  return { code, answer: JSON.parse(out) as unknown };
}

describe("export", () => {
  test.each(EXPORT_FORMATS.map((form) => form.id))(
    "writes %s, the same bytes twice, and says what it holds",
    async (form) => {
      const line = `export demo --format ${form} -o out.file --json`;
      const [first, second] = [await run(words(line)), await run(words(line))];
      const report = ExportReport.parse(JSON.parse(first.out));
      expect(report).toMatchObject({ kind: "exported", format: form, written: "out.file" });
      expect(first.written.get("out.file")?.length).toBe(report.bytes);
      expect(first.written.get("out.file")).toEqual(second.written.get("out.file"));
    },
  );

  test.each(["json", "table-set", "table-set-zip"])("%s read back is the machine itself", async (form) => {
    expect(JSON.parse(await thereAndBack(form))).toEqual(JSON.parse(demoText("firnlark-45.ohm.json")));
  });

  test.each(["wire-list-csv", "pin-table-csv", "xlsx"])(
    "%s read back gives the same ways along the conductors",
    async (form) => {
      const own = demoText("firnlark-45.ohm.json");
      const made = await thereAndBack(form);
      for (const ends of ["A1.X1:36 B3.X:3", "A1.X1:41 Y8.X:4", "RT1.X:1 RT2.X:1"]) {
        const [before, after] = [own, made].map((document) =>
          run(words(`path m.json ${ends} -b base -t conductors --json`), { files: { "m.json": document } }),
        );
        const ids = async (ran: typeof before): Promise<unknown> => {
          const { path, mustPass } = JSON.parse((await ran)?.out ?? "{}") as {
            readonly path: readonly { readonly id: string }[];
            readonly mustPass: readonly { readonly id: string }[];
          };
          return [path.map(({ id }) => id), mustPass];
        };
        expect(await ids(after)).toEqual(await ids(before));
      }
    },
  );

  test.each(["table-set", "table-set-zip"])("%s read back answers between, shared and without alike", async (form) => {
    const own = demoText("firnlark-45.ohm.json");
    const made = await thereAndBack(form);
    for (const line of [
      "path m.json A3.F3 A1.X2:27 -b base",
      "common m.json FE111 FE121 FE151 FE141 -b base",
      "effect m.json XT1 -b cold",
      "test-points m.json B3.X:3 -b base -s KOEO",
    ])
      expect(await asked(made, line)).toEqual(await asked(own, line));
  });

  test("takes a name from the machine where none is given", async () => {
    const told = await run(words("export demo --format wire-list-csv --build tiller"));
    expect([...told.written.keys()]).toEqual(["tarnwick-firnlark-45-snow-groomer-invented-tiller-wires.csv"]);
    expect(told.out).toMatch(
      /build tiller\n\nData not saved in this format\n {2}- A plain table does not save the insides/u,
    );
  });

  test("to standard output keeps the report apart", async () => {
    const told = await run(words("export demo --format svg -b base -o -"));
    expect(told.out).toMatch(/^<\?xml[^]*<\/svg>\n$/u);
    expect(told.err).toMatch(/^standard output: Drawing of one build, SVG, /u);
  });

  test("says which build it took, or asks", async () => {
    expect((await run(words("export demo --format graphml"))).out).toMatch(
      /Assumptions\n {2}- No build was given\. Assumed: "base"/u,
    );
    const wrong = await run(words("export demo --format pin-table-csv -b winter"));
    expect([wrong.code, wrong.out, wrong.written.size]).toEqual([2, "", 0]);
    expect(wrong.err).toMatch(/no build "winter"/u);
  });

  test.each([
    ["export demo", /Required option '--format <format>' not specified/u],
    ["export demo --format png", /Allowed choices are json, wire-list-csv/u],
    ["export demo --format json -b base", /holds every build/u],
    ["export demo --format svg -o - --json", /Standard output can have one output only/u],
    ["export nothing.json --format svg", /there is no such file/u],
  ])("%s is wrong", async (line, text) => {
    const told = await run(words(line));
    expect([told.code, told.written.size]).toEqual([2, 0]);
    expect(told.err).toMatch(text);
  });

  test("replaces no file unless that is said", async () => {
    const files = { "a.svg": "old" };
    expect((await run(words("export demo --format svg -b base -o a.svg"), { files })).code).toBe(2);
    expect((await run(words("export demo --format svg -b base -o a.svg --force"), { files })).code).toBe(0);
  });
});
