import type { Stamp } from "../../job-records/index.ts";

/** Letters and digits that are not taken for one another on paper. */
const SIGNS = "abcdefghkmnpqrstuvwxyz23456789";

function randomSigns(count: number): string {
  return Array.from(crypto.getRandomValues(new Uint8Array(count)), (byte) => SIGNS[byte % SIGNS.length] ?? "a").join(
    "",
  );
}

/** Tells this window apart from others that write to the same job. */
const WRITER = randomSigns(5);

/** Who writes now, and when. */
export function stampNow(): Stamp {
  return { at: new Date().toISOString(), writer: WRITER };
}

/** An id for a new job: the day, and signs that nobody else draws on that day. */
export function newJobId(): string {
  const now = new Date();
  const day = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, "0"));
  return `${day.join("-")}-${randomSigns(4)}`;
}

/** A moment of a record in the words of the device. */
export function momentWords(at: string): string {
  const moment = new Date(at);
  if (Number.isNaN(moment.getTime())) return at;
  return moment.toLocaleString("en-GB", {
    day: "numeric",
    month: "short",
    year: "numeric",
    hour: "2-digit",
    minute: "2-digit",
  });
}

/** A moment of today by its hour, any other with its day. */
export function briefMoment(at: string): string {
  const moment = new Date(at);
  const isToday = moment.toDateString() === new Date().toDateString();
  return isToday ? moment.toLocaleTimeString("en-GB", { hour: "2-digit", minute: "2-digit" }) : momentWords(at);
}
