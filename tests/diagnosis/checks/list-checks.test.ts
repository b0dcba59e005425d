import { describeCheck, isMeterCheck, type Check } from "ohmward/diagnosis";
import { describe, expect, test } from "vitest";
import { begin, demo, newJob } from "../demo-job.ts";

const checksOf = (codes: readonly string[], bad: readonly string[] = []): readonly Check[] => [
  ...begin(newJob(codes, bad)).model.checks.values(),
];

/** Kind, leads and what is unplugged, without the way of touching. */
function inShort(check: Check): string {
  if (!isMeterCheck(check)) return `${check.kind} ${check.at.id}`;
  const leads = [check.red.at ?? "", check.black.at ?? ""].sort();
  return `${check.kind} ${leads.join(" ")} off ${check.need.unplugged.join()}`;
}

// Y1 is a valve of the demo machine: module A1.X1:53 - XP1:1 - Y1.X:1, and back by Y1.X:2 - XP1:2 - A1.X1:54.
describe("listMeterChecks()", () => {
  const injector = checksOf(["FE311"]).map(inShort);

  test("reads one line from end to end between two places, the control unit unplugged", () => {
    expect(injector).toContain("resistance A1.X1.harness:53 XP1o:1 off A1.X1");
    expect(injector).toContain("resistance XP1o:2 Y1.X.harness:2 off A1.X1");
  });

  test("does not read between two lines at two places", () => {
    expect(injector).not.toContain("resistance A1.X1.harness:53 XP1o:2 off A1.X1");
  });

  test("reads a line to ground with a connector of that line off, which parts it where it may be shorted", () => {
    expect(injector).toContain("resistance A1.X1.harness:53 G2- off A1.X1");
    expect(injector).toContain("resistance A1.X1.harness:53 G2- off A1.X1,XP1");
    expect(injector).toContain("resistance A1.X1.harness:53 G2- off A1.X1,Y1.X");
  });

  test("does not unplug for a reading to ground the very connector that an adapter sits in", () => {
    for (const check of checksOf(["FE311"]).filter(isMeterCheck)) {
      if (check.red.adapter === undefined || check.black.at !== "G2-") continue;
      const own = demo().nodes[demo().nodeNumbers.get(check.red.at ?? "") ?? -1];
      const isModule = own?.kind === "contact" && own.connector.id === "A1.X1";
      if (own?.kind === "contact" && !isModule) expect(check.need.unplugged, check.key).not.toContain(own.connector.id);
    }
  });

  test("never reads ohms with a control unit on the line, except on a data bus", () => {
    for (const check of checksOf(["FE141"]).filter((each) => each.kind === "resistance"))
      expect(check.need.unplugged, check.key).toContain("A1.X1");
    expect(checksOf(["FE411"]).map(inShort)).toContain("resistance XD1.harness:C XD1.harness:D off ");
  });
});

describe("listHandChecks()", () => {
  test("looks at the studs that rings sit on, with the supply isolated", () => {
    const look = checksOf([], ["M1"]).find((check) => check.kind === "visual-inspection" && check.at.id === "S10.1");
    if (!look) throw new Error("no look at S10.1");
    expect(look.need.state).toBe("OFF");
    const described = describeCheck(demo(), look);
    expect(described.title).toMatch(/^Visual inspection, .*terminal stud S10\.1$/u);
    expect(described.steps.join(" ")).toMatch(/corrosion.*loose nut/u);
  });
});
