import type { AnswerHeader } from "../answer.ts";

/**
 * Puts the parts of an answer together: title, where it holds, its own lines, what is taken for granted, cautions.
 *
 * @param title What the answer is about.
 * @param header What every answer carries.
 * @param body The lines of this answer.
 * @returns The lines of the whole.
 */
export function frame(title: string, header: AnswerHeader, body: readonly string[]): readonly string[] {
  const state = header.state === undefined ? "" : `, state ${header.state}`;
  return [
    title,
    `${header.machine}, build ${header.build}${state}`,
    header.origin === "data" ? "As in the harness data." : "Calculated from the harness data.",
    "",
    ...body,
    ...section("Not known", bullets(header.notKnown ?? [])),
    ...section("Assumptions", bullets(header.assumptions)),
    ...section("Cautions", bullets(header.cautions)),
  ];
}

/**
 * A part of an answer under a heading, with an empty line before it; nothing at all where there are no lines.
 *
 * @param heading The heading.
 * @param lines Its lines.
 */
export function section(heading: string, lines: readonly string[]): readonly string[] {
  return lines.length === 0 ? [] : ["", heading, ...lines];
}

/** Sentences as a list. */
export function bullets(sentences: readonly string[]): readonly string[] {
  return sentences.map((sentence) => `  - ${sentence}`);
}

/** A number with its noun: `1 wire`, `3 wires`. */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? "" : "s"}`;
}
