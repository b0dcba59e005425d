import { describe, expect, test } from "vitest";
import { readPageLink, writePageLink } from "../../../src/ui/state/page-link.ts";

const mark = "181e74bda705";

describe("the mark of the machine in the address of the page", () => {
  test("stands first, before the question, and is read back", () => {
    const question = { kind: "circuit", point: "A1.X1:36" } as const;
    const link = writePageLink({ machine: mark, setting: { build: "base" }, question });
    expect(link).toBe(`?machine=${mark}&build=base&ask=circuit&point=A1.X1:36`);
    expect(readPageLink(link)).toMatchObject({ machine: mark, setting: { build: "base" }, question });
  });

  test("is there without a question too", () => {
    expect(writePageLink({ machine: mark, setting: {} })).toBe(`?machine=${mark}`);
    expect(readPageLink(`?machine=${mark}`).machine).toBe(mark);
  });

  test.each(["", "?", "?build=base&ask=circuit&point=B3", "?machine=", "?machine"])("is missing in %s", (search) => {
    expect(readPageLink(search)).not.toHaveProperty("machine");
  });

  test("that was cut or changed stays what it is: the mark of no machine", () => {
    expect(readPageLink("?machine=181e%20<b>&machine=x").machine).toBe("181e <b>");
  });
});
