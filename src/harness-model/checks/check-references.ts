import { lookUpPoint } from "../address-book.ts";
import { problem } from "../problem.ts";
import type { Access, Hazard } from "../schema/common.ts";
import type { CheckContext } from "./check-context.ts";

/** Every id that names another thing names one that exists. */
export function checkReferences(context: CheckContext): void {
  const { document } = context;
  const want = wanter(context);
  document.builds.forEach((build, at) => {
    build.options.forEach((id, place) => {
      want("option", id, `builds[${at}].options[${place}]`);
    });
  });
  document.zones.forEach((zone, at) => {
    checkHazards(want, zone.hazards, `zones[${at}]`);
  });
  document.segments.forEach((segment, at) => {
    want("place", segment.from, `segments[${at}].from`);
    want("place", segment.to, `segments[${at}].to`);
    want("zone", segment.zone, `segments[${at}].zone`);
    checkHazards(want, segment.hazards, `segments[${at}]`);
  });
  for (const name of ["components", "connectors", "splices", "terminalStuds"] as const) {
    document[name].forEach((item, at) => {
      want("zone", item.zone, `${name}[${at}].zone`);
      if ("place" in item) want("place", item.place, `${name}[${at}].place`);
      if ("component" in item) want("component", item.component, `${name}[${at}].component`);
      if ("access" in item) {
        checkAccess(want, item.access, `${name}[${at}].access`);
      }
    });
  }
  checkMachine(context, want);
}

type Want = (what: keyof Known, id: string | undefined, path: string) => void;
type Known = Record<"option" | "zone" | "place" | "component" | "state" | "element" | "net", ReadonlySet<string>>;

function wanter({ document, report }: CheckContext): Want {
  const ids = (items: readonly { readonly id: string }[]): ReadonlySet<string> => new Set(items.map((item) => item.id));
  const known: Known = {
    option: ids(document.options),
    zone: ids(document.zones),
    place: ids(document.topologyNodes),
    component: ids(document.components),
    state: ids(document.states),
    net: ids(document.nets),
    element: new Set(document.components.flatMap((part) => part.elements.map((element) => `${part.id}.${element.id}`))),
  };
  return (what, id, path) => {
    if (id !== undefined && !known[what].has(id)) report(problem("unknown-reference", { path }, { what, id }));
  };
}

function checkAccess(want: Want, access: Access | undefined, path: string): void {
  if (access?.states === undefined || access.states === "any") return;
  access.states.forEach((id, place) => {
    want("state", id, `${path}.states[${place}]`);
  });
}

function checkHazards(want: Want, hazards: readonly Hazard[] | undefined, path: string): void {
  hazards?.forEach((hazard, at) => {
    hazard.states?.forEach((id, place) => {
      want("state", id, `${path}.hazards[${at}].states[${place}]`);
    });
  });
}

function checkMachine({ document, book, report }: CheckContext, want: Want): void {
  document.states.forEach((state, at) => {
    state.settings?.forEach((setting, place) => {
      want("element", setting.of, `states[${at}].settings[${place}].of`);
    });
  });
  document.nets.forEach((net, at) => {
    net.boostedIn?.forEach((id, place) => {
      want("state", id, `nets[${at}].boostedIn[${place}]`);
    });
  });
  const sideOrElement = new Set([...book.connectors.keys(), ...book.sides.keys()]);
  document.adapters.forEach((adapter, at) => {
    adapter.fits.forEach((id, place) => {
      if (!sideOrElement.has(id)) want("element", id, `adapters[${at}].fits[${place}]`);
    });
    if (adapter.points !== "all") checkPoints(adapter.points, `adapters[${at}].points`);
  });
  document.codes.forEach((code, at) => {
    want("component", code.module, `codes[${at}].module`);
    checkPoints(code.points, `codes[${at}].points`);
  });
  document.cautions.forEach((caution, at) => {
    const path = `cautions[${at}].on`;
    caution.on?.zones?.forEach((id, place) => {
      want("zone", id, `${path}.zones[${place}]`);
    });
    caution.on?.nets?.forEach((id, place) => {
      want("net", id, `${path}.nets[${place}]`);
    });
    caution.on?.components?.forEach((id, place) => {
      want("component", id, `${path}.components[${place}]`);
    });
    caution.on?.states?.forEach((id, place) => {
      want("state", id, `${path}.states[${place}]`);
    });
  });
  checkAccess(want, document.system.usualAccess, "system.usualAccess");
  if (document.system.supply) {
    checkPoint(document.system.supply.positive, "system.supply.positive");
    checkPoint(document.system.supply.negative, "system.supply.negative");
  }

  function checkPoints(points: readonly string[] | undefined, path: string): void {
    points?.forEach((address, place) => {
      checkPoint(address, `${path}[${place}]`);
    });
  }

  function checkPoint(address: string, path: string): void {
    const point = lookUpPoint(book, address, { by: "wire" });
    if (point.kind === "none") report(problem("dangling-end", { path }, { address, reason: point.reason }));
  }
}
