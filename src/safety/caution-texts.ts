/** Said with every answer about where to put a meter. */
export const MAKER_FIRST =
  "The maker's procedure, local rules and licensed practice come before anything said here; where they differ, follow them.";

/** Said with every reading in volts, and to be asked for wherever 0 V or an open line is entered. */
export const METER_PROVEN =
  "A reading of 0 V, or of an open line, counts only if the meter was proven on a point known to be live just before and just after.";

/** Said with every reading in ohms. */
export const OHMS_DEAD =
  "Ohms only with the battery isolated and no other path across the two leads: unplug what hangs in parallel, control units above all.";
