import { err, ok, type Result } from "../base/index.ts";
import type { Build } from "../harness-model/index.ts";
import type { ChooseAnswer } from "./answer.ts";
import type { Machine } from "./open-machine.ts";

/** The build a question is asked of, and what was assumed to get there. */
export interface ChosenBuild {
  readonly build: Build;
  readonly assumptions: readonly string[];
}

/**
 * Chooses the build a question is asked of: the one asked for; or, if none was, the only one there is; or the only one without
 * options, which is then said among the assumptions. Anything else asks, since a way traced on the wrong build misleads.
 *
 * @param machine The machine.
 * @param asked Id of a build, if one was given; capital and small letters are the same.
 * @returns The build, or an answer that lists the builds there are.
 */
export function chooseBuild(machine: Machine, asked: string | undefined): Result<ChosenBuild, ChooseAnswer> {
  const { builds } = machine.document;
  if (asked !== undefined) {
    const build =
      builds.find((each) => each.id === asked) ??
      builds.find((each) => each.id.toLowerCase() === asked.trim().toLowerCase());
    if (build) return ok({ build, assumptions: [] });
    return err(
      chooseAnswer(machine, `This machine has no build "${asked}". Choose one of its builds (variants).`, asked),
    );
  }
  const [only, second] = builds;
  if (only && !second) return ok({ build: only, assumptions: [] });
  const [bare, otherBare] = builds.filter((build) => build.options.length === 0);
  if (bare && !otherBare) {
    return ok({ build: bare, assumptions: [`No build was given. Assumed: "${bare.id}", the build without options.`] });
  }
  const text = "This machine has several builds (variants). The route of a wire can differ between them. Choose one.";
  return err(chooseAnswer(machine, text, undefined));
}

function chooseAnswer(machine: Machine, text: string, asked: string | undefined): ChooseAnswer {
  const choices = machine.document.builds.map(({ id, label }) => ({ id, label }));
  return {
    kind: "choose-build",
    machine: machine.document.about.machine,
    text,
    ...(asked === undefined ? {} : { asked }),
    choices,
  };
}
