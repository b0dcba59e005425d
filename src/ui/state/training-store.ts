import { migrateDocument, trainingMigrations, TrainingResult, TrainingTask } from "../../application/index.ts";
import type { RepetitionCard } from "../../training/index.ts";
import type { TrainingWork } from "../../job-records/index.ts";

/** What is kept of the training on this device, for one machine. */
export interface TrainingProgress {
  /** Drills that come again. */
  readonly cards: readonly RepetitionCard[];
  /** Exercises started and not ended. */
  readonly started: readonly TrainingWork[];
  readonly done: readonly TrainingWork[];
  /** Text of the exercise list that is open; empty where none is. */
  readonly list: string;
}

/** What was found on this device. */
export type StoredProgress =
  | { readonly kind: "read"; readonly progress: TrainingProgress }
  /** Written by a newer version of the program; it is left as it is, and nothing is kept meanwhile. */
  | { readonly kind: "newer" }
  /** What is there cannot be read; it was laid aside under another name. */
  | { readonly kind: "unreadable" };

/** The newest form of what is kept that this program knows. A change of it gets the next number and a step from the form before. */
const VERSION = 2;
const PREFIX = "ohmward-practice";
const NAME = `${PREFIX}-name`;
const MOST_WORK = 200;

/** Nothing done yet. */
export const NO_PROGRESS: TrainingProgress = { cards: [], started: [], done: [], list: "" };

/** Reads what is kept for the machine of a check. */
export function readProgress(check: string): StoredProgress {
  const text = readKey(keyOf(check));
  if (text === undefined) return { kind: "read", progress: NO_PROGRESS };
  const data = parse(text);
  if (isObject(data) && typeof data["version"] === "number" && data["version"] > VERSION) return { kind: "newer" };
  const progress = isObject(data) ? progressOf(ofToday(data)) : undefined;
  if (progress) return { kind: "read", progress };
  writeKey(`${keyOf(check)}-unreadable`, text);
  return { kind: "unreadable" };
}

/**
 * Keeps progress for the machine of a check.
 *
 * @returns Whether it was kept; storage may be forbidden or full.
 */
export function writeProgress(check: string, progress: TrainingProgress): boolean {
  const kept = { ...progress, started: progress.started.slice(-MOST_WORK), done: progress.done.slice(-MOST_WORK) };
  return writeKey(keyOf(check), JSON.stringify({ version: VERSION, ...kept }));
}

/** An exercise list as far as its trainer has come with it. */
export interface UnfinishedList {
  readonly title: string;
  readonly asksHypothesis: boolean;
  readonly tasks: readonly TrainingTask[];
}

/** The list that was being made for the machine of a check; undefined where none is kept or it cannot be read. */
export function readUnfinishedList(check: string): UnfinishedList | undefined {
  const data = parse(readKey(listKeyOf(check)) ?? "");
  if (!isObject(data)) return undefined;
  const { title, asksHypothesis } = data;
  const tasks = TrainingTask.array().safeParse(data["tasks"]);
  if (!tasks.success || typeof title !== "string" || typeof asksHypothesis !== "boolean") return undefined;
  return { title, asksHypothesis, tasks: tasks.data };
}

/** Keeps the list that is being made; an empty one is taken away. Returns whether it was kept. */
export function writeUnfinishedList(check: string, list: UnfinishedList): boolean {
  const isEmpty = list.tasks.length === 0 && list.title === "";
  return writeKey(listKeyOf(check), isEmpty ? "" : JSON.stringify(list));
}

/** The name that was typed on this device, for result files. */
export function readName(): string {
  return (readKey(NAME) ?? "").slice(0, 80);
}

/** Keeps the name; an empty one is taken away. */
export function writeName(name: string): void {
  writeKey(NAME, name);
}

function keyOf(check: string): string {
  return `${PREFIX}-${check}`;
}

function listKeyOf(check: string): string {
  return `${keyOf(check)}-list`;
}

/** What was kept, in the words of today: version 1 called works and drills as files of that version did. */
function ofToday(data: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  if (data["version"] !== 1) return data;
  const { cards, started, done } = data;
  const work = (works: unknown): unknown => migrateDocument({ version: 1, work: works }, trainingMigrations)["work"];
  const [renamed] = work([{ answers: cards }]) as [{ answers: unknown }];
  return { ...data, cards: renamed.answers, started: work(started), done: work(done) };
}

function progressOf({ cards, started, done, list }: Readonly<Record<string, unknown>>): TrainingProgress | undefined {
  const work = TrainingResult.shape.work;
  const [readStarted, readDone] = [work.safeParse(started), work.safeParse(done)];
  if (!readStarted.success || !readDone.success || !Array.isArray(cards) || typeof list !== "string") return undefined;
  return { cards: cards.filter(isCard), started: readStarted.data, done: readDone.data, list };
}

function isCard(value: unknown): value is RepetitionCard {
  if (!isObject(value)) return false;
  const texts = [value["drill"], value["build"], value["harnessCheck"]];
  const numbers = [value["box"], value["dueDay"]];
  return texts.every((each) => typeof each === "string") && numbers.every((each) => Number.isInteger(each));
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return undefined;
  }
}

function readKey(key: string): string | undefined {
  try {
    return localStorage.getItem(key) ?? undefined;
  } catch {
    // Storage may be forbidden; the training then lasts as long as the page.
    return undefined;
  }
}

function writeKey(key: string, text: string): boolean {
  try {
    if (text === "") localStorage.removeItem(key);
    else localStorage.setItem(key, text);
    return true;
  } catch {
    return false;
  }
}
