import type { WorkshopCase } from "./cases.ts";
import { MOST_CHECKS, type Played, type PlayedCheck } from "./player.ts";

/** How a played case ended. */
export type Outcome = "first" | "second" | "later" | "missed" | "certain and wrong" | "no end";

/** What a played case is worth. */
export interface Score {
  readonly outcome: Outcome;
  /** Place of a right repair among those that were named, from 1; 0 where none was. */
  readonly rank: number;
  /** Place of a right repair among all suspects in the end, from 1; 0 where it is none. */
  readonly suspectRank: number;
  readonly checks: number;
  readonly minutes: number;
  readonly isInChecks: boolean;
  readonly isInMinutes: boolean;
  readonly first: PlayedCheck | undefined;
  /** Ohms across the machine, through control units, or where volts stand. */
  readonly badOhms: number;
  readonly implied: number;
}

const named = (names: readonly string[], wanted: readonly string[]): number =>
  names.findIndex((name) => name.split(" and ").some((part) => wanted.includes(part))) + 1;

/** Place of the last of the repairs that are all needed; 0 where one is not named. */
function rankOf(each: WorkshopCase, names: readonly string[]): number {
  if (each.allOf.length === 0) return named(names, each.repairs);
  const ranks = each.allOf.map((entry) => named(names, typeof entry === "string" ? [entry] : entry));
  // Two faults named together or one after the other are both named first.
  return ranks.includes(0) ? 0 : Math.max(1, Math.max(...ranks) - ranks.length + 1);
}

/** Scores a played case. */
export function scoreOf(each: WorkshopCase, { checks, end, minutes, suspects, secondEnd }: Played): Score {
  const names = [...(end?.names.slice(0, secondEnd === undefined ? undefined : 1) ?? []), ...(secondEnd?.names ?? [])];
  const rank = each.noElectricalFault ? Number(end?.way === "nothing electrical") : rankOf(each, names);
  return {
    outcome: outcomeOf(
      rank,
      end === undefined || (secondEnd === undefined && checks.length >= MOST_CHECKS),
      end?.way === "one repair",
    ),
    rank,
    suspectRank: rankOf(each, suspects),
    checks: checks.length,
    minutes,
    isInChecks: checks.length <= each.maxChecks,
    isInMinutes: minutes <= each.maxMinutes,
    first: checks[0],
    badOhms: checks.filter(({ badOhms }) => badOhms !== undefined).length,
    implied: checks.filter(({ isImplied }) => isImplied).length,
  };
}

function outcomeOf(rank: number, isOpen: boolean, isCertain: boolean): Outcome {
  if (rank === 1) return "first";
  if (rank === 2) return "second";
  if (rank > 2) return "later";
  if (isOpen) return "no end";
  return isCertain ? "certain and wrong" : "missed";
}
