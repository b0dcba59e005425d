import type { JobFacts } from "../../job-records/index.ts";

/**
 * The complaint in lines: words, conditions, what was done before, codes, functions.
 *
 * @param facts Where the job stands.
 */
export function complaintWords({ complaint, codes, symptoms }: JobFacts): readonly string[] {
  const { temperature, wetness, load, presence, weather } = complaint.conditions;
  const conditions = [
    temperature,
    wetness,
    load === undefined ? undefined : `only with ${load}`,
    presence?.replaceAll("-", " "),
    weather === undefined ? undefined : `weather: ${weather}`,
    complaint.since === undefined ? undefined : `since ${complaint.since}`,
  ].filter((word) => word !== undefined);
  return [
    complaint.words,
    ...(conditions.length > 0 ? [`Conditions: ${conditions.join("; ")}`] : []),
    ...complaint.recentWork.map(({ text, touched }) =>
      touched.length > 0 ? `Done before: ${text} (${touched.join(", ")})` : `Done before: ${text}`,
    ),
    ...[...codes].map(([code, status]) => `Code ${code}: ${status}`),
    ...[...symptoms].map(([item, is]) => `Function ${item}: ${is}`),
  ];
}
