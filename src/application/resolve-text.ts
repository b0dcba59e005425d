import { err, ok, type Result } from "../base/index.ts";
import { describeItem, resolve, type Item, type Resolved } from "../connectivity/index.ts";
import type { UnresolvedAnswer } from "./answer.ts";
import type { MachineContext } from "./machine-context.ts";

/**
 * Finds the one thing a text names in the build of a scene.
 *
 * @param context The machine in its build and state.
 * @param text What was typed: an address, an id, or words that fit one thing only.
 * @returns The thing, or an answer that says why there is none: unknown with suggestions, several to choose from, not fitted in this
 *   build with the builds that have it, an empty cavity.
 */
export function resolveText(context: MachineContext, text: string): Result<Resolved, UnresolvedAnswer> {
  const asked = text.trim();
  const resolution = resolve(context.harness, text);
  switch (resolution.kind) {
    case "one":
      return ok(resolution.item);
    case "several":
      return err(
        unresolved(context, asked, {
          kind: "ambiguous",
          text: `"${asked}" names several items. Choose one.`,
          items: resolution.items,
        }),
      );
    case "not-fitted":
      return err(notFitted(context, asked, { item: resolution.item, builds: resolution.fittedIn }));
    case "empty":
      return err(emptyCavity(context, asked, resolution.item));
    case "unknown":
      return err(unknown(context, asked, resolution.suggestions));
  }
}

interface Reason {
  readonly kind: UnresolvedAnswer["kind"];
  readonly text: string;
  readonly items: readonly Item[];
  readonly fittedIn?: readonly string[];
}

function unresolved(context: MachineContext, asked: string, { kind, text, items, fittedIn }: Reason): UnresolvedAnswer {
  // A thing that this build does not have is described from one that does.
  const elsewhere = fittedIn?.[0] === undefined ? undefined : context.machine.harness(fittedIn[0]);
  return {
    kind,
    machine: context.machine.document.about.machine,
    build: context.harness.build.id,
    text,
    asked,
    items: items.map((item) => describeItem(elsewhere ?? context.harness, item)),
    ...(fittedIn && { fittedIn }),
  };
}

function notFitted(
  context: MachineContext,
  asked: string,
  found: { item: Item; builds: readonly string[] },
): UnresolvedAnswer {
  const { item, builds } = found;
  const where = builds.length === 0 ? "No build of this machine has it." : `It is in: ${builds.join(", ")}.`;
  const text = `${item.id} is not fitted in build ${context.harness.build.id}. ${where}`;
  return unresolved(context, asked, { kind: "not-fitted", text, items: [item], fittedIn: builds });
}

function emptyCavity(context: MachineContext, asked: string, item: Item): UnresolvedAnswer {
  const { machine, harness } = context;
  const builds = machine.document.builds
    .map((build) => String(build.id))
    .filter((id) => {
      const other = id === harness.build.id ? undefined : machine.harness(id);
      return other !== undefined && resolve(other, item.id).kind === "one";
    });
  const where = builds.length === 0 ? "" : ` It is in use in: ${builds.join(", ")}.`;
  const { cavityNote } = describeItem(harness, item);
  const note = cavityNote === undefined ? "" : ` Note of the data on this cavity: ${cavityNote}.`;
  const text = `No wire in the data ends at ${item.id} in build ${harness.build.id}.${note}${where}`;
  return unresolved(context, asked, { kind: "empty", text, items: [item], fittedIn: builds });
}

function unknown(context: MachineContext, asked: string, suggestions: readonly Item[]): UnresolvedAnswer {
  const owner = ownerOf(context, asked);
  if (owner) return unresolved(context, asked, { kind: "unknown", ...owner });
  const text =
    asked === ""
      ? "Nothing was named. Enter a connector and cavity, a wire, a splice or a component."
      : suggestions.length === 0
        ? `Nothing has the name "${asked}".`
        : `Nothing has the name "${asked}". Similar names:`;
  return unresolved(context, asked, { kind: "unknown", text, items: suggestions });
}

/** The connector of an address whose cavity does not exist, with the cavities it has. */
function ownerOf({ harness }: MachineContext, asked: string): { text: string; items: readonly Item[] } | undefined {
  const colon = asked.lastIndexOf(":");
  if (colon <= 0) return undefined;
  const wanted = asked.slice(0, colon).toLowerCase();
  const connector =
    [...harness.book.connectors.values()].find((each) => each.id.toLowerCase() === wanted) ??
    [...harness.book.sides].find(([name]) => name.toLowerCase() === wanted)?.[1].connector;
  if (!connector) return undefined;
  const ids = connector.cavities.map((cavity) => cavity.id);
  const range = ids.length <= 12 ? ids.join(", ") : `${ids.length} of them, ${ids[0] ?? ""} to ${ids.at(-1) ?? ""}`;
  const cavity = asked.slice(colon + 1);
  return {
    text: `Connector ${connector.id} has no cavity "${cavity}". Its cavities: ${range}.`,
    items: [{ type: "connector", id: connector.id }],
  };
}
