import { seededRandom, type SeededRandom } from "ohmward/base";
import { BOUNDS } from "ohmward/harness-model";
import { openMachine, type Machine } from "ohmward/application";

/** JSON that may be changed. */
type Json = null | boolean | number | string | Json[] | { [key: string]: Json };
type Holder = Json[] | { [key: string]: Json };

/** One place of a document: what holds it, under which key, and what stands there. */
interface Spot {
  readonly holder: Holder;
  readonly key: string | number;
  readonly value: Json;
}

/** Ids that an id may be and that programs trip over: names of every object, other letters and digits, as long as may be. */
const ODD_IDS = [
  "constructor",
  "toString",
  "ΩШ字",
  "İı",
  "１２",
  "ǅ",
  "a.b",
  "a-b+",
  "x".repeat(64),
  "𝔘𝔫𝔦",
  "0",
  "1e3",
];
/** Texts that a text may be. */
const ODD_TEXTS = ["", " ", "\u202Eabc", "😀".repeat(20), "<b>&amp;\"'", "a\nb\tc", "\uD83D", "=1+1", "x".repeat(600)];
const ENDS = Object.values(BOUNDS).flatMap(({ least, most }) => [least, most]);
const NUMBERS = [...ENDS, 0, -0, 1, 1e-300, -1e-300];

/** More tries than it takes to find a mutant that opens. */
const MOST_TRIES = 400;

/**
 * A document changed in one to four places, so that it still opens: fields removed, numbers at the ends of what they may be, references
 * swapped, lists emptied or with an item twice, odd ids and texts.
 *
 * @param text Text of the document that it is made from.
 * @param seed Which mutant; the same text and seed give the same one.
 * @returns The mutant as a machine with its text; undefined where none that opens was found.
 */
export function mutantOf(text: string, seed: number): { readonly machine: Machine; readonly text: string } | undefined {
  const random = seededRandom(seed);
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const changed = changedText(text, random);
    if (changed === text) continue;
    const opened = openMachine(changed);
    if (opened.ok) return { machine: opened.value, text: changed };
  }
  return undefined;
}

function changedText(text: string, random: SeededRandom): string {
  // Written by JSON.stringify, so nothing but JSON comes back.
  let document = JSON.parse(text) as Json;
  for (let left = random.integer(1, 4); left > 0; left--) document = random.pick(CHANGES)(document, random);
  return JSON.stringify(document);
}

type Change = (document: Json, random: SeededRandom) => Json;

const CHANGES: readonly Change[] = [
  removeField,
  removeField,
  setNumber,
  setNumber,
  swapTexts,
  changeList,
  changeList,
  renameId,
  setText,
  removeEverywhere,
];

function removeField(document: Json, random: SeededRandom): Json {
  const fields = spots(document).filter(({ holder }) => !Array.isArray(holder));
  const { holder, key } = random.pick(fields);
  if (!Array.isArray(holder)) Reflect.deleteProperty(holder, key);
  return document;
}

/** All fields of one name, such as every length or every zone: a document that does not know them at all. */
function removeEverywhere(document: Json, random: SeededRandom): Json {
  const fields = spots(document).filter(({ holder }) => !Array.isArray(holder));
  const { key: name } = random.pick(fields);
  for (const { holder, key } of fields) if (key === name) Reflect.deleteProperty(holder, key);
  return document;
}

function setNumber(document: Json, random: SeededRandom): Json {
  const numbers = spots(document).filter(({ value }) => typeof value === "number");
  if (numbers.length === 0) return document;
  const picked = random.pick(numbers);
  const isAll = random.next() < 0.3;
  const value = random.pick(NUMBERS);
  for (const each of numbers) if (each === picked || (isAll && each.key === picked.key)) put(each, value);
  return document;
}

/** Two texts of fields of one name change places, or one takes the place of the other. */
function swapTexts(document: Json, random: SeededRandom): Json {
  const texts = spots(document).filter(({ value }) => typeof value === "string");
  const one = random.pick(texts);
  const isLike = (each: Spot): boolean =>
    Array.isArray(one.holder) ? Array.isArray(each.holder) : each.key === one.key && !Array.isArray(each.holder);
  const other = random.pick(texts.filter(isLike));
  put(one, other.value);
  if (random.next() < 0.5) put(other, one.value);
  return document;
}

function changeList(document: Json, random: SeededRandom): Json {
  const lists = spots(document).flatMap(({ value }) => (Array.isArray(value) ? [value] : []));
  const list = random.pick(lists);
  const at = random.integer(0, Math.max(0, list.length - 1));
  switch (random.integer(0, 4)) {
    case 0:
      list.length = 0;
      break;
    case 1:
      if (list.length > 0) list.push(structuredClone(list[at] ?? null));
      break;
    case 2: {
      // The same thing twice under two ids.
      const twin = structuredClone(list[at] ?? null);
      if (isObject(twin) && typeof twin["id"] === "string") twin["id"] = `${twin["id"]}x`;
      if (twin !== null) list.push(twin);
      break;
    }
    case 3:
      list.splice(at, 1);
      break;
    default:
      list.splice(0, list.length, ...random.shuffle(list));
  }
  return document;
}

/** Another id for a thing, everywhere it is named. */
function renameId(document: Json, random: SeededRandom): Json {
  const all = spots(document);
  const ids = all.flatMap(({ key, value }) => (key === "id" && typeof value === "string" ? [value] : []));
  if (ids.length === 0) return document;
  const [old, odd] = [random.pick(ids), random.pick(ODD_IDS)];
  for (const spot of all) {
    const { value } = spot;
    if (typeof value !== "string") continue;
    if (value === old) put(spot, odd);
    else if (value.startsWith(`${old}:`) || value.startsWith(`${old}.`)) put(spot, odd + value.slice(old.length));
  }
  return document;
}

function setText(document: Json, random: SeededRandom): Json {
  const texts = spots(document).filter(({ value }) => typeof value === "string");
  put(random.pick(texts), random.pick(ODD_TEXTS));
  return document;
}

function spots(value: Json): readonly Spot[] {
  const found: Spot[] = [];
  const walk = (holder: Holder): void => {
    const entries: [string | number, Json][] = Array.isArray(holder) ? [...holder.entries()] : Object.entries(holder);
    for (const [key, inner] of entries) {
      found.push({ holder, key, value: inner });
      if (typeof inner === "object" && inner !== null) walk(inner);
    }
  };
  if (typeof value === "object" && value !== null) walk(value);
  return found;
}

function put({ holder, key }: Spot, value: Json): void {
  Reflect.set(holder, key, value);
}

function isObject(value: Json): value is { [key: string]: Json } {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
