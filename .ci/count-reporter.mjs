// A Vitest reporter that prints nothing: it writes what became of every test to the file named by OHMWARD_TEST_COUNT.
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";

export default class CountReporter {
  /**
   * @param {readonly import("vitest/node").TestModule[]} modules the test files
   * @param {readonly unknown[]} errors what was thrown outside any test
   */
  onTestRunEnd(modules, errors) {
    const tests = modules.flatMap((module) => outcomesOf(module));
    tests.push(...errors.map(() => ({ name: "an error outside any test", outcome: "failed" })));
    const path = process.env.OHMWARD_TEST_COUNT;
    if (!path) return;
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, JSON.stringify(tests));
  }
}

function outcomesOf(module) {
  const tests = [...module.children.allTests()].map((test) => ({
    name: `${module.relativeModuleId} > ${test.fullName}`,
    outcome: test.result().state,
  }));
  // A file that cannot even be read has no tests, yet it counts as one that failed.
  const hasOwnFailure = module.state() === "failed" && !tests.some((test) => test.outcome === "failed");
  return hasOwnFailure ? [...tests, { name: module.relativeModuleId, outcome: "failed" }] : tests;
}
