/** More than this beside a switch, in ohm, counts as nothing there: its line then stands where the switch puts it. */
const NOTHING_BESIDE_OHM = 1e9;

/**
 * The resistance that draws, all the time, the average current of a switch that is on for a share of the time.
 *
 * Seen from the switch the rest of the network is a source with a resistance beside it. On, the switch draws V / (on + beside); on
 * average a share of that. A resistance of (on + (1 - share) * beside) / share draws the same, and so gives the right average voltage
 * everywhere, as long as no second switch works in the same circuit in step with the first.
 *
 * @param onOhm Resistance of the switch while it is on.
 * @param share Share of the time it is on, above 0 and below 1.
 * @param besideOhm Resistance of the rest of the network at the switch; undefined before it is known.
 */
export function dutyOhm(onOhm: number, share: number, besideOhm: number | undefined): number {
  if (besideOhm === undefined || besideOhm > NOTHING_BESIDE_OHM) return onOhm;
  return (onOhm + (1 - share) * besideOhm) / share;
}
