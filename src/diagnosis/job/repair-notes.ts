/** What a repair of one sort takes, to the standard of the trade. */
export interface RepairNotes {
  readonly notes: readonly string[];
}

const AFTER: readonly string[] = [
  "Mend the reason too: chafe, drip, missing clip, missing seal, a plug that was not seated.",
  "Refit locks, seals, covers and clips, and secure the harness as it was.",
];

const NOTES: Readonly<Record<string, readonly string[]>> = {
  contact: [
    "Open the connector with the key off and look at both halves: spread socket, pushed-back pin, corrosion, torn seal.",
    "Renew the terminal with the maker's terminal and crimp tool; do not solder a crimp, do not bend a spread terminal back.",
    "Check the lock and pull the wire: the terminal must stay. Dry a wet connector and find where the water came in.",
  ],
  cavities: [
    "Open the connector with the key off. Look for water, metal swarf, swapped or pushed-over terminals and a split seal.",
    "Clean without a metal brush, let it dry, renew damaged terminals and seals, and find where the water came in.",
    "Compare every wire with the cavity list in the named view before plugging in again.",
  ],
  wire: [
    "Find the damaged place along the route: free loops, clips, edges, hot and moving parts first.",
    "Lay a new wire of the same cross-section and colour along the harness, or splice with a crimped, sealed splice clear of bends and other splices.",
    "Cut off and seal the dead ends; note the place and the wire in the record.",
  ],
  splice: [
    "Open the covering at the splice, cut back to bright copper and make a new crimped splice with sealed heat-shrink.",
    "Keep it away from bends and other splices, cover it as it was.",
  ],
  ring: [
    "Isolate the battery. Take the ring off, clean ring and seat to bright metal, renew a cracked or loose crimp.",
    "Fit it with the right lock washer and torque, then protect it against corrosion.",
  ],
  plug: [
    "Look at both halves for the reason it was off, then plug it in until the lock clicks and refit the secondary lock.",
  ],
  fuse: [
    "Find out why it blew before fitting a new one: measure the line behind it to ground with the supply isolated.",
    "Fit a fuse of the same rating and type; never a larger one.",
  ],
  relay: ["Fit a relay of the same type. Look at the socket: heat, loose terminals, water."],
  part: [
    "Prove the part is the cause before ordering: its supply, ground and signal were right at its own connector, or the complaint went with a known-good part.",
    "Renew the part and its seal; look at the terminals of the old one.",
  ],
  bias: [
    "The control unit is the last suspect: prove all supplies, grounds and lines at its connector again before it is exchanged.",
  ],
};

/**
 * Notes for a repair group.
 *
 * @param group Name of the group, such as `contact B3.X:2`.
 */
export function repairNotes(group: string): readonly string[] {
  const parts = group.split(" and ");
  const own = parts.flatMap((part) => {
    const sort = part.split(" ")[0] ?? "";
    return NOTES[sort] ?? NOTES["part"] ?? [];
  });
  return [...new Set([...own, ...AFTER])];
}
