import { describe, expect, test } from "vitest";
import { fitBuild, openHarness, type Harness, type HarnessDocument } from "ohmward/harness-model";
import { findProbePoints } from "ohmward/measurement-safety";
import { openDemo } from "../demo-harness/open-demo.ts";
import { generateHarness } from "../generate/generate-harness.ts";

type Plain = string | number | boolean | null | readonly Plain[] | { readonly [name: string]: Plain };

/** Every field of a document by the names that lead to it, list positions left out: `connectors halves contacts`. */
function fieldsOf(value: Plain, way: readonly string[] = [], found = new Set<string>()): ReadonlySet<string> {
  if (Array.isArray(value)) for (const each of value as readonly Plain[]) fieldsOf(each, way, found);
  else if (typeof value === "object" && value !== null)
    for (const [name, inner] of Object.entries(value)) {
      found.add([...way, name].join(" "));
      fieldsOf(inner, [...way, name], found);
    }
  return found;
}

/** The document with a field changed wherever it stands; undefined takes it out. */
function changed(value: Plain, field: string, change: (inner: Plain) => Plain | undefined, way = ""): Plain {
  if (Array.isArray(value)) return (value as readonly Plain[]).map((each) => changed(each, field, change, way));
  if (typeof value !== "object" || value === null) return value;
  const entries = Object.entries(value as { readonly [name: string]: Plain }).flatMap(([name, inner]) => {
    const path = way === "" ? name : `${way} ${name}`;
    const after = path === field ? change(inner) : changed(inner, field, change, path);
    return after === undefined ? [] : [[name, after] as const];
  });
  return Object.fromEntries(entries);
}

/** Everything that may be done in one build: state, contact and meter, each with the point it is about. */
function permissions(harness: Harness): ReadonlyMap<string, string> {
  const all = new Map<string, string>();
  for (const state of harness.document.states) {
    const found = findProbePoints(harness, { nodes: [...harness.nodes.keys()] }, state, { refusals: "none" });
    for (const { id, at, item, meters } of found.points)
      for (const meter of meters) all.set(`${state.id} ${id} ${meter}`, at ?? item.id);
  }
  return all;
}

/** What a changed document permits that the whole one does not; nothing if it does not open. */
function added(whole: Harness, before: ReadonlyMap<string, string>, text: string): readonly string[] {
  const opened = openHarness(text);
  const harness = opened.ok ? fitBuild(opened.value.document, whole.build.id) : undefined;
  if (!harness) return [];
  return [...permissions(harness)].flatMap(([permission, point]) => {
    // What is fitted only because its option expression is gone was no question before.
    const isKnown = whole.nodeNumbers.has(point) || whole.edgeNumbers.has(point);
    // A lead clipped on with the machine stopped is named only where the tip, which asks for more, is not permitted.
    return isKnown && !before.has(permission) && !before.has(permission.replace(" clip@", " tip@")) ? [permission] : [];
  });
}

/** Of all fields every so many, beginning with one. */
interface Share {
  readonly every: number;
  readonly from: number;
}

/** Takes out fields in turn, and empties lists in turn, and tells what that permits. */
function stripped(document: HarnessDocument, build: string, share: Share = { every: 1, from: 0 }): readonly string[] {
  const whole = fitBuild(document, build);
  if (!whole) throw new Error(`no build ${build}`);
  const before = permissions(whole);
  expect(before.size).toBeGreaterThan(0);
  const plain = document as unknown as Plain;
  const fields = [...fieldsOf(plain)].filter((_, at) => at % share.every === share.from % share.every);
  return fields.flatMap((field) => {
    const without = added(whole, before, JSON.stringify(changed(plain, field, () => undefined)));
    const emptied = changed(plain, field, (inner) => (Array.isArray(inner) ? [] : inner));
    const empty = added(whole, before, JSON.stringify(emptied));
    // An empty list of dangers is a statement that there are none.
    const isStatement = field.endsWith(" hazards");
    return [
      ...without.map((permission) => `without ${field}: ${permission}`),
      ...(isStatement ? [] : empty.map((permission) => `with empty ${field}: ${permission}`)),
    ];
  });
}

describe("what is not said permits nothing", () => {
  const demo = openDemo();
  // Each build takes a share of the fields; OHMWARD_WHOLE=1 takes all in each, and of each generated machine.
  const isWhole = process.env["OHMWARD_WHOLE"] === "1";
  test.each(demo.builds.map(({ id }, from) => ({ id, from })))(
    "no field of the demo machine adds a permission by its absence, build $id",
    ({ id, from }) => {
      expect(stripped(demo, id, { every: isWhole ? 1 : 3 * demo.builds.length, from })).toEqual([]);
    },
    600_000,
  );

  test(`nor any field of ${isWhole ? 50 : 18} generated machines, some with airbag and high-voltage lines`, () => {
    const found: string[] = [];
    for (let seed = 1; seed <= (isWhole ? 50 : 18); seed++) {
      const opened = openHarness(JSON.stringify(withDangers(generateHarness({ seed, wires: 30 }), seed)));
      if (!opened.ok) throw new Error(opened.error.map((each) => each.message).join("\n"));
      const build = opened.value.document.builds.at(-1)?.id ?? "";
      const share = { every: isWhole ? 1 : 20, from: seed };
      found.push(...stripped(opened.value.document, build, share).map((text) => `seed ${seed}, ${text}`));
    }
    expect(found).toEqual([]);
  }, 600_000);
});

type Generated = ReturnType<typeof generateHarness>;

/** Calls the net of one line an airbag, a high-voltage or a boosted line, with a name that shows it as such names do. */
function withDangers(document: Generated, seed: number): Generated {
  const [kind, name] = (
    [
      ["airbag", "SQUIB_LOOP"],
      ["high-voltage", "HV_PLUS"],
      ["boosted", "INJ_H"],
    ] as const
  )[seed % 3] ?? ["airbag", "SQUIB_LOOP"];
  // Supply and ground are told by their studs as well, whatever their label.
  const lines = document.nets.filter((net) => net.kind === "signal" || net.kind === "driver");
  const label = lines[seed % lines.length]?.id;
  if (label === undefined) return document;
  return {
    ...document,
    nets: document.nets.map((net) => {
      // A boosted line that names no states is forbidden wherever the battery is connected; of one of unknown kind nobody can tell.
      const boostedIn = kind === "boosted" ? { boostedIn: ["RUN"] } : {};
      return net.id === label ? { ...net, id: name, kind, ...boostedIn } : net;
    }),
    wires: document.wires.map((wire) => (wire.net === label ? { ...wire, net: name } : wire)),
  };
}
