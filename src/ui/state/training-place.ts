import { writePageLink } from "./page-link.ts";

/** Where on the training page a person is. It is written in the address, so an exercise can be handed on as a link. */
export type TrainingPlace =
  | { readonly kind: "start" }
  /** Exercise lists are made here. */
  | { readonly kind: "trainer" }
  /** Result files are collected here. */
  | { readonly kind: "class" }
  /** Drills that are due for repetition. */
  | { readonly kind: "repeat" }
  /** An exercise of the list that is open, by its place in it, from 0. */
  | { readonly kind: "task"; readonly at: number }
  | { readonly kind: "code"; readonly code: string }
  /** A whole exercise list inside the link. */
  | { readonly kind: "list"; readonly text: string };

/** Reads the place of the address of the page. */
export function readTrainingPlace(place: string): TrainingPlace {
  if (place === "" || place === "trainer" || place === "class" || place === "repeat")
    return { kind: place === "" ? "start" : place };
  const numbered = /^task-(\d{1,4})$/u.exec(place);
  if (numbered) return { kind: "task", at: Number(numbered[1]) - 1 };
  return place.startsWith("list~") ? { kind: "list", text: unpack(place.slice(5)) } : { kind: "code", code: place };
}

/** Writes it. */
export function writeTrainingPlace(place: TrainingPlace): string {
  switch (place.kind) {
    case "start":
      return "";
    case "task":
      return `task-${place.at + 1}`;
    case "code":
      return place.code;
    case "list":
      return `list~${pack(place.text)}`;
    case "trainer":
    case "class":
    case "repeat":
      return place.kind;
  }
}

/**
 * A link to a place on this page, for a person who has the same machine.
 *
 * @param machine The mark of the machine.
 */
export function trainingLink(place: TrainingPlace, machine: string): string {
  const { origin, pathname } = window.location;
  const link = writePageLink({ machine, setting: {} });
  return `${origin}${pathname}${link}#practice/${encodeURIComponent(writeTrainingPlace(place))}`;
}

/** Text as letters and digits that an address may hold: Base64 with the two signs for addresses (RFC 4648, section 5). */
function pack(text: string): string {
  const bytes = new TextEncoder().encode(text);
  const binary = Array.from(bytes, (byte) => String.fromCharCode(byte)).join("");
  return btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}

/** The text again; empty where the link was cut. */
function unpack(packed: string): string {
  try {
    const binary = atob(packed.replaceAll("-", "+").replaceAll("_", "/"));
    return new TextDecoder().decode(Uint8Array.from(binary, (character) => character.charCodeAt(0)));
  } catch {
    return "";
  }
}
