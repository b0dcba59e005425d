import type { MeterSetting, TrueMachine } from "./truth/machine.ts";

/** What is wrong with a reading of ohms as a choice; `fine` where nothing is. */
export type OhmsJudged = "fine" | "powered" | "through electronics" | "whole machine";

/** Share of the current above which a part counts as being in the way. */
const IN_THE_WAY = 0.02;
/** So many components beside each other are the machine, not a part of it. */
const MANY = 3;

/**
 * Judges ohms by where the current of the meter goes in the sound machine: through an unpowered control unit or active sensor, or through
 * all that hangs between supply and ground.
 *
 * @param sound The machine without a fault.
 * @param setting Where the leads are.
 */
export function judgeOhms(sound: TrueMachine, setting: MeterSetting): OhmsJudged {
  const shares = sound.ohmPaths(setting);
  if (shares === "powered") return "powered";
  const used = [...shares].filter(([, share]) => share > IN_THE_WAY).map(([id]) => id);
  const electronics = sound.electronics();
  const isElectronic = used.some((id) => electronics.has(id));
  if (used.length >= MANY || (isElectronic && used.length > 1)) return "whole machine";
  return isElectronic ? "through electronics" : "fine";
}
