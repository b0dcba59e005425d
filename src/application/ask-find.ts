import { describeItem, find, type Hit } from "../connectivity/index.ts";
import type { FindAnswer } from "./answer.ts";
import { cautionsForList } from "./cautions.ts";
import { FIND_GROUPS, groupOf, type FindGroup } from "./find-groups.ts";
import { makeHeader } from "./header.ts";
import { actionsOf } from "./item-actions.ts";
import type { Question } from "./question.ts";
import type { MachineContext } from "./machine-context.ts";

/** Most hits of a group that an answer lists; and where the whole of one group is wanted. */
const MOST = { each: 3, whole: 200 };
/** Most items that are told where nothing fits all words. */
const MOST_NEAREST = 3;
/** Most hits that are looked through: a word of a kind fits every item of a large harness. */
const MOST_HITS = 2000;

/**
 * Items that fit the words of a search, in groups; the group of the best hit first, in each group the best hit first.
 *
 * @param context The machine in its build and state.
 * @param question The words as typed; `group` for the whole of one group.
 */
export function askFind(context: MachineContext, question: Extract<Question, { kind: "find" }>): FindAnswer {
  const { machine, harness } = context;
  const found = find(harness, question.text, { limit: MOST_HITS });
  const grouped = new Map<FindGroup, Hit[]>();
  for (const hit of found) {
    const group = groupOf(harness, hit.item);
    const list = grouped.get(group);
    if (list) list.push(hit);
    else grouped.set(group, [hit]);
  }
  const groups = [...grouped]
    .filter(([group]) => question.group === undefined || group === question.group)
    .sort(([a, [first]], [b, [second]]) => distance(first) - distance(second) || place(a) - place(b));
  const most = question.group === undefined ? MOST.each : MOST.whole;
  const hits = groups.flatMap(([group, list]) => list.slice(0, most).map((hit) => ({ group, hit })));
  const nearest = found.length === 0 ? nearestOf(context, question.text) : [];
  const items = [...hits.map(({ hit }) => hit.item), ...nearest.map(({ item }) => item)];
  const facts = ({ item, label }: Hit): FindAnswer["nearest"][number] => ({ ...describeItem(harness, item), label });
  return {
    kind: "find",
    ...makeHeader(context, { cautions: cautionsForList(context, items) }),
    text: question.text.trim(),
    groups: groups.map(([group, list]) => ({ group, count: list.length })),
    hits: hits.map(({ group, hit }) => ({ ...facts(hit), group, actions: [...actionsOf(hit.item.type)] })),
    nearest: nearest.map(facts),
    foundIn: machine.document.builds
      .map((build) => String(build.id))
      .filter((id) => {
        const other = found.length > 0 || id === harness.build.id ? undefined : machine.harness(id);
        return other !== undefined && find(other, question.text, { limit: 1 }).length > 0;
      }),
  };
}

function distance(hit: Hit | undefined): number {
  return hit?.distance ?? 0;
}

function place(group: FindGroup): number {
  return FIND_GROUPS.indexOf(group);
}

/** The items that fit the most of the words, where none fits them all. */
function nearestOf({ harness }: MachineContext, text: string): readonly Hit[] {
  const fits = new Map<string, { readonly hit: Hit; count: number }>();
  for (const word of new Set(text.split(/\s+/u).slice(0, 12)))
    for (const hit of find(harness, word, { limit: MOST_HITS })) {
      const known = fits.get(`${hit.item.type} ${hit.item.id}`);
      if (known) known.count++;
      else fits.set(`${hit.item.type} ${hit.item.id}`, { hit, count: 1 });
    }
  return [...fits.values()]
    .sort((a, b) => b.count - a.count)
    .slice(0, MOST_NEAREST)
    .map(({ hit }) => hit);
}
