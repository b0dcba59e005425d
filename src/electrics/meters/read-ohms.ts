import { formatQuantity } from "../../base/index.ts";
import { lookAtValues } from "../solver/two-points.ts";
import type { Settled } from "../network/settle.ts";
import { findPair, type Bench } from "./at-points.ts";
import { makeBand } from "./band.ts";
import { liveSources, whatToDisconnect } from "./live-sources.ts";
import { meterLimit } from "./meter-spec.ts";
import type { Because, Leads, PlainReading, Probe } from "./reading.ts";
import { ohmSpread, type Spread } from "./spread.ts";

/**
 * Below this, in ohm, a resistance reading is no evidence that a way carries its load.
 *
 * Source: leads of 0.2 to 0.5 ohm and counts of 0.1 ohm in instrument manuals.
 */
export const OHMS_NO_EVIDENCE = 0.5;

/** Leads where nothing is said: 0.3 ohm, taken off the reading beforehand. Typical, instrument manuals name 0.1 to 0.5 ohm. */
const USUAL_LEADS: Leads = { ohm: 0.3, subtracted: true };
/** How much of the resistance of leads stays uncertain, as a share: their contact differs each time. Common practice, no source. */
const LEAD_SHARE = 0.3;

/** What an ohmmeter shows between two points; refused on anything that is not dead. */
export function readOhms(bench: Bench, probe: Extract<Probe, { kind: "ohms" }>): PlainReading {
  const pair = findPair(bench, probe);
  if (pair.kind === "wrong-question") return pair;
  const { harness, settled, meter } = bench;
  const { red, black } = pair;
  const live = liveSources(settled, red, black);
  if (live.length > 0) {
    const text =
      "Ohms on a circuit with voltage mean nothing and can harm the meter: make it dead and isolate it first";
    const disconnect = whatToDisconnect(harness, settled, live);
    return { kind: "refused", disconnect, because: [{ code: "live", text }] };
  }
  const seen = lookAtValues(settled.list.shape, settled.values, [red, black]);
  if (seen.kind === "contradictory") return { kind: "contradictory", sources: [] };
  if (seen.kind === "apart") return { kind: "over-range", unit: "Ω", because: [] };
  const leads = probe.leads ?? USUAL_LEADS;
  const value = seen.ohm + (leads.subtracted ? 0 : leads.ohm);
  const limit = meterLimit(meter.ohms, value);
  if (!limit) {
    const text = `${formatQuantity(seen.ohm, "Ω")} between the points, more than the highest range`;
    return { kind: "over-range", unit: "Ω", because: [{ code: "meter", text }] };
  }
  if (!bench.isBandWanted) return { kind: "value", value, unit: "Ω", low: value, high: value, because: [] };
  const spread = ohmSpread(settled, red, black);
  const leadLimit = LEAD_SHARE * leads.ohm;
  const known = { name: meter.name, limit: Math.hypot(limit.limit, leadLimit), count: limit.count };
  const band = makeBand({ settled, unit: "Ω", value, spread, meter: known, scale: 1 });
  const because: Because[] = [...band.because, leadsText(leads)];
  if (seen.ohm < OHMS_NO_EVIDENCE) {
    const text = `Below ${OHMS_NO_EVIDENCE} ohm a meter cannot tell a good way from a bad one: read the volts from ${probe.red} to ${probe.black} with the load switched on instead`;
    because.push({ code: "ohms-no-evidence", text });
  }
  if (passesDiode(settled, spread, seen.ohm)) {
    const text =
      "A diode lies in the way: with the leads the other way round the meter may show less. It is taken as blocking";
    because.push({ code: "polarity", text });
  }
  return { kind: "value", value, unit: "Ω", low: Math.max(0, band.low), high: band.high, because };
}

function leadsText(leads: Leads): Because {
  const text = leads.subtracted
    ? `Leads of ${formatQuantity(leads.ohm, "Ω")} taken off: zero the meter with the tips together first`
    : `Leads of ${formatQuantity(leads.ohm, "Ω")} are in the reading`;
  return { code: "leads", text };
}

/** Whether a blocking diode has a good part of the meter's own voltage across it. */
function passesDiode({ list }: Settled, { unitVolts }: Spread, ohm: number): boolean {
  return list.parts.some((part, at) => {
    if (part.control?.kind !== "diode") return false;
    const across = (unitVolts[list.shape.from[at] ?? 0] ?? 0) - (unitVolts[list.shape.to[at] ?? 0] ?? 0);
    return Math.abs(across) > 0.05 * ohm;
  });
}
