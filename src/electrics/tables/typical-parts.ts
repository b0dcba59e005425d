/**
 * Voltages at which a relay coil pulls in and lets go, as shares of the nominal voltage, where the document gives none.
 *
 * Source: data sheets of 12 V relays: pick-up at most 7.0 to 8.0 V, drop-out at least 0.5 to 1.2 V. Typical.
 */
export const TYPICAL_PULL_IN_SHARE = 0.65;
/** See {@link TYPICAL_PULL_IN_SHARE}. */
export const TYPICAL_DROP_OUT_SHARE = 0.1;

/** A silicon diode where nothing is given: forward voltage and resistance behind it. Typical, common practice, no source. */
export const TYPICAL_DIODE = { forwardVolt: 0.7, resistanceOhm: 0.05 } as const;

/** Supply a ratiometric sensor is meant for, in volt; its own consumption is counted at it. Common practice, no source. */
export const SENSOR_SUPPLY_VOLT = 5;
