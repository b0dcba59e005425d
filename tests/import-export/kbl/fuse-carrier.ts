/** How the matings of the carrier are said. */
export interface CarrierForm {
  /** Who says it: the slots of the box, the cavities of the box, or the slots of the plugs. */
  readonly said: "slots-of-box" | "cavities-of-box" | "slots-of-plugs";
  /** Whether a wire ends in the first connector of the box itself. */
  readonly isWired?: boolean;
}

const FIVE = [1, 2, 3, 4, 5];

/**
 * An invented KBL 2.4 file: a carrier with five fuses, each between the two cavities of a connector of its own, and five plugs that mate
 * with them. A wire leads from the second cavity of each plug to a ring terminal.
 */
export function fuseCarrier({ said, isWired = false }: CarrierForm): string {
  const each = (make: (number: number) => string): string => FIVE.map(make).join("");
  const two = (make: (cavity: number) => string): string => [1, 2].map(make).join("");
  const part = (number: string, description: string): string =>
    `<Part_number>${number}</Part_number><Company_name>Tarnwick</Company_name><Version>1</Version>` +
    `<Abbreviation>/NULL</Abbreviation><Description>${description}</Description>`;
  const wire = (id: string, ends: readonly [string, string]): string =>
    `<Connection id="con_${id}"><Id>${id}</Id><Wire>w_${id}</Wire>` +
    ends
      .map((end, at) => {
        const place = `<Position_on_wire>${at}</Position_on_wire>`;
        return `<Extremities id="x_${id}_${at}">${place}<Contact_point>${end}</Contact_point></Extremities>`;
      })
      .join("") +
    `</Connection><General_wire_occurrence xsi:type="kbl:Wire_occurrence" id="w_${id}"><Part>gw</Part>` +
    `<Wire_number>47-${id}</Wire_number></General_wire_occurrence>`;
  return (
    `<?xml version="1.0" encoding="UTF-8"?><kbl:KBL_container id="k" ` +
    `xmlns:kbl="http://www.prostep.org/Car_electric_container/KBL2.3/KBLSchema" ` +
    `xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">` +
    `<Component_box id="box">${part("FC-5", "Fuse carrier")}` +
    each(
      (n) =>
        `<Component_box_connectors id="b${n}"><Id>X${n}</Id><Integrated_slots xsi:type="kbl:Slot" id="b${n}s">` +
        two((c) => `<Cavities id="b${n}c${c}"><Cavity_number>${c}</Cavity_number></Cavities>`) +
        `</Integrated_slots></Component_box_connectors>`,
    ) +
    each(
      (n) =>
        `<Component_slots id="f${n}"><Id>F${n}</Id>` +
        two((c) => `<Component_cavities id="f${n}c${c}"><Cavity_number>${c}</Cavity_number></Component_cavities>`) +
        `</Component_slots>`,
    ) +
    each((n) =>
      two(
        (c) =>
          `<Connections id="j${n}${c}"><Id>${n}.${c}</Id><Cavities>b${n}c${c}</Cavities>` +
          `<Component_cavities>f${n}c${c}</Component_cavities></Connections>`,
      ),
    ) +
    `</Component_box>` +
    `<Cavity_plug id="cp">${part("PLUG-9", "Cavity plug")}</Cavity_plug>` +
    `<Component xsi:type="kbl:Fuse" id="fuse">${part("FUSE-15", "Fuse 15 A")}</Component>` +
    `<Connector_housing id="h">${part("HS-2", "Housing of two")}<Slots id="hs">` +
    two((c) => `<Cavities id="hc${c}"><Cavity_number>${c}</Cavity_number></Cavities>`) +
    `</Slots></Connector_housing>` +
    `<Connector_housing id="hr">${part("HR-1", "Ring, as a housing")}<Slots id="hrs"><Cavities id="hrc">` +
    `<Cavity_number>1</Cavity_number></Cavities></Slots></Connector_housing>` +
    `<General_terminal id="gt">${part("TERM-3", "Socket")}</General_terminal>` +
    `<General_terminal id="gr">${part("RING-8", "Ring M8")}</General_terminal>` +
    `<General_wire id="gw">${part("GW-1", "Wire")}<Wire_type>FLRY-B</Wire_type>` +
    `<Cover_colour id="gwc"><Colour_type>Base</Colour_type><Colour_value>RD</Colour_value></Cover_colour></General_wire>` +
    `<Harness id="harness">${part("H-1", "Carrier")}` +
    each((n) => `<Cavity_plug_occurrence id="po${n}"><Part>cp</Part></Cavity_plug_occurrence>`) +
    `<Component_box_occurrence id="A9"><Id>A9</Id><Part>box</Part>` +
    each(
      (n) =>
        `<Component_box_connectors id="o${n}"><Part>b${n}</Part><Slots xsi:type="kbl:Slot_occurrence" id="o${n}s">` +
        (said === "slots-of-box" ? `<Mated_slots>p${n}s</Mated_slots>` : "") +
        `<Part>b${n}s</Part>` +
        two((c) => {
          // The cavities of the box meet those of the plugs crosswise where cavities say it.
          const mated = said === "cavities-of-box" ? `<Mated_cavities>p${n}c${3 - c}</Mated_cavities>` : "";
          return `<Cavities id="o${n}c${c}">${mated}<Part>b${n}c${c}</Part></Cavities>`;
        }) +
        `</Slots></Component_box_connectors>`,
    ) +
    each(
      (n) =>
        `<Component_slots id="s${n}"><Part>f${n}</Part>` +
        two((c) => `<Component_cavities id="s${n}c${c}"><Part>f${n}c${c}</Part></Component_cavities>`) +
        `</Component_slots>`,
    ) +
    (isWired
      ? `<Contact_points id="cbox"><Id>A9:1</Id><Contacted_cavity>o1c1</Contacted_cavity></Contact_points>`
      : "") +
    `</Component_box_occurrence>` +
    each(
      (n) =>
        `<Component_occurrence id="fo${n}"><Id>F${n}</Id><Mounting>s${n}</Mounting><Part>fuse</Part></Component_occurrence>`,
    ) +
    each((n) => wire(`W${n}`, [`ct${n}`, "cring"])) +
    (isWired ? wire("W9", ["cbox", "cring"]) : "") +
    each(
      (n) =>
        `<Connector_occurrence id="P${n}"><Id>P${n}</Id><Part>h</Part><Contact_points id="ct${n}"><Id>P${n}:2</Id>` +
        `<Associated_parts>t${n}</Associated_parts><Contacted_cavity>p${n}c2</Contacted_cavity></Contact_points>` +
        `<Slots xsi:type="kbl:Slot_occurrence" id="p${n}s">` +
        (said === "slots-of-plugs" ? `<Mated_slots>o${n}s</Mated_slots>` : "") +
        `<Part>hs</Part><Cavities id="p${n}c1"><Associated_plug>po${n}</Associated_plug><Part>hc1</Part></Cavities>` +
        `<Cavities id="p${n}c2"><Part>hc2</Part></Cavities></Slots></Connector_occurrence>`,
    ) +
    `<Connector_occurrence id="R"><Id>R</Id><Usage>ring terminal</Usage><Part>hr</Part><Contact_points id="cring">` +
    `<Id>R:1</Id><Associated_parts>tr</Associated_parts><Contacted_cavity>rc</Contacted_cavity></Contact_points>` +
    `<Slots xsi:type="kbl:Slot_occurrence" id="rs"><Part>hrs</Part><Cavities id="rc"><Part>hrc</Part></Cavities></Slots>` +
    `</Connector_occurrence>` +
    `<Special_terminal_occurrence id="tr"><Id>R</Id><Part>gr</Part></Special_terminal_occurrence>` +
    each((n) => `<Terminal_occurrence id="t${n}"><Part>gt</Part></Terminal_occurrence>`) +
    `</Harness></kbl:KBL_container>`
  );
}
