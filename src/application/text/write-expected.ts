import { formatMinutes } from "../../base/index.ts";
import type { ExpectedReadingAnswer, LeadFacts } from "../expect/expected-answer.ts";
import { methodName } from "../../measurement-safety/index.ts";
import { bandOf, shortReading } from "../expect/meaning.ts";
import type { WrongQuestionAnswer } from "../expect/wrong-question-answer.ts";
import { columns } from "./columns.ts";
import { named } from "./fact-row.ts";
import { bullets, frame, section } from "./frame.ts";

/**
 * What the meter should say, as lines: leads, reading with band, what it means, why, where the leads go.
 *
 * @param answer The answer.
 */
export function writeExpectedReading(answer: ExpectedReadingAnswer): readonly string[] {
  const { red, black, because, disconnect, leads, normal } = answer;
  const where = black === undefined ? `at wire ${red} (current clamp)` : `at ${red} against ${black}`;
  // What was assumed is told once, with the rest that is taken for granted.
  // Why a lead is not placed stands where the leads go.
  const reasons = because.filter(({ code }) => code !== "assumption" && code !== "not-placed").map(({ text }) => text);
  const isNotPlaced = because.some(({ code }) => code === "not-placed");
  const said = isNotPlaced
    ? "no reading, a lead is not permitted there"
    : `${shortReading(answer)}${inBrackets(bandOf(answer))}`;
  const normalRow = normal
    ? [["normal", `${shortReading(normal)}${inBrackets(bandOf(normal))}`, normalWords(normal.isToldApart)]]
    : [];
  return frame(`Expected ${where}: ${said}`, answer, [
    answer.text,
    "",
    ...columns([
      ...leads.map((lead) => [lead.lead, lead.at, lead.of.label]),
      ["meter", meterWords(answer.meter)],
      ["reads", said],
      ...normalRow,
      ...conditionRows(answer),
      ["same in", answer.holdsIn.join(", ")],
    ]),
    ...section("Why", bullets(reasons)),
    ...section("Disconnect first", bullets(disconnect)),
    ...section("Where the leads go", leads.flatMap(writeLead)),
  ]);
}

/**
 * What is wrong with a question, as lines.
 *
 * @param answer The answer.
 */
export function writeWrongQuestion(answer: WrongQuestionAnswer): readonly string[] {
  const where = `${answer.machine}, build ${answer.build}`;
  return [answer.text, ...bullets(answer.problems.map(({ text }) => text)), where];
}

/**
 * What differs from the machine as documented, as rows of two cells.
 *
 * @param answer An answer on readings.
 */
export function conditionRows({
  faults,
  unplugged,
  adapters,
  settings,
}: Pick<ExpectedReadingAnswer, "faults" | "unplugged" | "adapters" | "settings">): readonly (readonly string[])[] {
  return [
    ...faults.map(({ text, label }) => ["fault", text, label]),
    ...unplugged.map((id) => ["disconnected", id]),
    ...adapters.map((id) => ["adapter", id]),
    ...settings.map((text) => ["set", text]),
  ];
}

/** A text in brackets with a space before it; nothing for nothing. */
export function inBrackets(text: string): string {
  return text === "" ? "" : ` (${text})`;
}

function normalWords(isToldApart: boolean): string {
  return isToldApart ? "" : "a meter cannot separate the two";
}

function meterWords(meter: ExpectedReadingAnswer["meter"]): string {
  const words = {
    "dc-voltage": "DC voltage",
    resistance: "resistance, battery disconnected",
    "voltage-drop": "voltage drop between two points, load switched on",
    "dc-current": "DC current, current clamp",
    "test-lamp": "DC voltage across a test lamp",
    "duty-cycle": "duty cycle: time the red point is high, in %",
  };
  return words[meter];
}

function writeLead(facts: LeadFacts): readonly string[] {
  const { lead, text, access, ways, refused, of } = facts;
  const [way] = ways;
  const time = way !== undefined && access === "permitted" ? `${way.class}, ${formatMinutes(way.minutes)}` : "";
  return [
    `  ${lead.padEnd(5)}  ${text}${inBrackets(time)}`,
    ...(access === "permitted" ? [] : ways.map((each) => `         ${wayWords(each)}`)),
    ...refused.map(({ method, reason, source }) => `         ${methodName(method)}: ${reason} [${source}]`),
    ...(access === "none" && refused.length === 0 ? [`         No contact is permitted at ${named(of)}.`] : []),
  ];
}

/** A point where a lead may go in place of the one asked for. */
function wayWords({
  at = "",
  class: probeClass,
  minutes,
  how,
  relation,
  unplug = "",
}: LeadFacts["ways"][number]): string {
  const condition = relation === "opened" ? ` with --disconnected ${unplug}` : "";
  return `permitted: ${at}${condition} (${probeClass}, ${formatMinutes(minutes)}). ${how}`;
}
